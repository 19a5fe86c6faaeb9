import type { MeasureName } from '../measures/names.ts';
import type { CourseRow } from './course-sheet.ts';

/**
 * What is shown of a foot where nobody has asked for more: how the bone stands, what lies under it, whether it sinks, what
 * has grown, what may come off. Of several names the first that can be compared stands.
 */
export const firstOfFilms: readonly (readonly MeasureName[])[] = [
  ['palmar-angle'],
  ['sole-depth.tip'],
  ['founder-distance.level', 'coronet-extensor.level', 'founder-distance', 'coronet-extensor'],
  ['grown-out'],
  ['heel-surplus'],
];

/** The same of what a hand takes, and a photo shows: of a foot that is hardly ever filmed it is all there is. */
export const firstWithoutFilm: readonly (readonly string[])[] = [
  ['toe-length'],
  ['heel-height'],
  ['heel-toe-share'],
  ['grown-out'],
  ['wall-angle'],
];

/**
 * In that order; of a foot that has none of them, as where it is filmed from the front only, as many as come first. Every series
 * of a measure is shown, so that hand, photo and film stand side by side.
 */
export function firstRows(rows: readonly CourseRow[]): CourseRow[] {
  const ofFilms = rows.filter(({ source }) => source === 'film');
  const others = rows.filter(({ source }) => source !== 'film');
  // Where there are films, only what can be compared is worth a row beside theirs.
  const beside = ofFilms.length > 0 ? others.filter(({ changes }) => changes.length > 0) : others;
  const chosen = new Set([...firstOf(ofFilms, firstOfFilms), ...firstOf(beside, firstWithoutFilm)]);
  return rows.filter(({ measure }) => chosen.has(measure)).sort((a, b) => place(a, chosen) - place(b, chosen));
}

const place = ({ measure }: CourseRow, chosen: ReadonlySet<string>): number => [...chosen].indexOf(measure);

function firstOf(rows: readonly CourseRow[], wanted: readonly (readonly string[])[]): string[] {
  const found = wanted.flatMap((names) => {
    const placed = names.flatMap((name) => rows.find(({ measure }) => measure === name) ?? []);
    return (placed.find(({ changes }) => changes.length > 0) ?? placed[0])?.measure ?? [];
  });
  return found.length > 0 ? found : [...new Set(rows.map(({ measure }) => measure))].slice(0, wanted.length);
}
