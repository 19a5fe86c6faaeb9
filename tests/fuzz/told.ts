import { isDeepStrictEqual } from 'node:util';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { Values } from '../../shared/measures/take.ts';
import type { Block, Entry } from '../../shared/notation/tree.ts';
import type { Prediction } from '../../shared/trim/predict.ts';
import type { StudiedFilm, Study } from '../../shared/trim/study.ts';

/** Everything that an inspection tells, as plain data. Read through the names that faces use, so it does not hang on how it is kept. */
export function told({ tree, study, findings }: Inspection): Record<string, unknown> {
  return {
    text: tree.text,
    blocks: tree.blocks.map(({ start, line, block }) => ({ start, line, ...blockTold(block) })),
    record: study.record,
    animal: study.animal,
    films: study.films.map(filmTold),
    visits: study.visits.map(({ visit, day, films, cuts }) => ({
      visit: study.record.visits.indexOf(visit),
      day,
      films: films.map((film) => study.films.indexOf(film)),
      cuts: cuts.map((cut) => study.cuts.indexOf(cut)),
    })),
    cuts: study.cuts.map(({ visit, cut, size, film, reading, prediction }) => ({
      visit: study.record.visits.indexOf(visit),
      cut,
      size,
      film: film && study.films.indexOf(film),
      reading: reading && (film?.readings.indexOf(reading) ?? -1),
      prediction: prediction && predictionTold(prediction),
    })),
    series: seriesTold(study),
    findings,
  };
}

function blockTold({ text, row, header, lines, entries, problems }: Block) {
  return {
    text,
    row: row?.word ?? null,
    header: header && entryTold(header),
    lines: lines.map(({ start, end, items, prose, comment }) => ({ start, end, items, prose, comment })),
    entries: entries.map(entryTold),
    problems,
  };
}

function entryTold(entry: Entry): unknown {
  if (entry.kind === 'group')
    return {
      kind: entry.kind,
      row: entry.row.word,
      start: entry.start,
      end: entry.end,
      header: entryTold(entry.header),
      entries: entry.entries.map(entryTold),
    };
  if (entry.kind === 'prose')
    return { kind: entry.kind, line: entry.line, start: entry.start, end: entry.end, image: entry.image };
  const { kind, word, head, row, args, whole, line, start, end } = entry;
  return { kind, word, head, row: row?.word ?? null, args: [...args], whole, line, start, end };
}

function filmTold({ visit, film, readings, stored, bone }: StudiedFilm) {
  return {
    start: visit.start,
    film,
    stored,
    bone,
    readings: readings.map(({ reading, taking: { scale, frame, lack, values } }) => ({
      reading,
      scale,
      lack,
      framed: frame !== null,
      values: valuesTold(values),
    })),
  };
}

function predictionTold({ delta, onToe, values, soleCut, soleCutSd, wallLeft, wallLeftSd }: Prediction) {
  const standing = onToe && { delta: onToe.delta, values: valuesTold(onToe.values) };
  return { delta, onToe: standing, soleCut, soleCutSd, wallLeft, wallLeftSd, values: valuesTold(values) };
}

function valuesTold(values: Values) {
  return [...values].map(([name, { measure, value, unit, sd, axis }]) => [name, measure.name, value, unit, sd, axis]);
}

/** Which film counts on which days, for each foot and view that has one. */
function seriesTold({ films, series }: Study) {
  const keys = new Set(films.map(({ film }) => `${film.foot} ${film.view}`));
  return [...keys].flatMap((key) => {
    const [foot = '', view = ''] = key.split(' ');
    const newest = series.upTo(foot, view, Infinity);
    const oldest = series.following(foot, view, -Infinity);
    return [key, newest && films.indexOf(newest), oldest && films.indexOf(oldest)];
  });
}

/** Where two things told first differ, as a path with both sides; null where they are equal. */
export function difference(remembered: unknown, fresh: unknown, path = ''): string | null {
  if (isDeepStrictEqual(remembered, fresh)) return null;
  if (isBranch(remembered) && isBranch(fresh) && Array.isArray(remembered) === Array.isArray(fresh))
    for (const key of new Set([...Object.keys(remembered), ...Object.keys(fresh)])) {
      const inner = difference(remembered[key], fresh[key], `${path}/${key}`);
      if (inner !== null) return inner;
    }
  return `${path}: remembered ${shown(remembered)}, anew ${shown(fresh)}`;
}

function isBranch(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function shown(value: unknown): string {
  const words = value === undefined ? 'nothing' : JSON.stringify(value);
  return words.length > 400 ? `${words.slice(0, 400)}…` : words;
}
