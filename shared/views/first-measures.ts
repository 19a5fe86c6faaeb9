import type { MeasureName } from '../measures/names.ts';
import type { CourseRow } from './course-sheet.ts';

/**
 * What is shown of a foot where nobody has asked for more: how the bone stands, what lies under it, whether it sinks, what
 * has grown, what may come off. Of several names the first that can be compared stands.
 */
const first: readonly (readonly MeasureName[])[] = [
  ['palmar-angle'],
  ['sole-depth.tip'],
  ['founder-distance.level', 'coronet-extensor.level', 'founder-distance', 'coronet-extensor'],
  ['grown-out'],
  ['heel-surplus'],
];

/** In that order; of a foot that has none of them, as where it is filmed from the front only, as many as come first. */
export function firstRows(rows: readonly CourseRow[]): CourseRow[] {
  const found = first.flatMap((names) => {
    const placed = names.flatMap((name) => rows.find(({ measure }) => measure === name) ?? []);
    return placed.find(({ changes }) => changes.length > 0) ?? placed[0] ?? [];
  });
  return found.length > 0 ? found : rows.slice(0, first.length);
}
