import { t } from '../../language/words.ts';
import type { LandmarkName } from '../../notation/landmarks.ts';
import type { StudiedFilm, StudiedReading } from '../../trim/study.ts';
import type { Remark, Rule } from '../rule.ts';
import { list } from '../wording/wording.ts';
import { exchangeFix, lineOf, linesOf, readerFirst } from './landmark-lines.ts';
import type { OrderRow } from '../landmarks/landmark-order-rows.ts';
import { suspectsOf, type SwappedLandmarks } from '../landmarks/landmark-suspects.ts';

export const landmarkOrder: Rule = {
  code: 'landmark/order',
  severity: 'warning',
  title: 'Landmarks on the wrong side of each other',
  about:
    'Two points lie to each other as on no foot: exchanged, mistyped, or placed on the wrong edge. A measure taken from them means nothing. It is an error where the names themselves say it, as upper and lower do.',
  onReading: (film, reading) => contradicting(film, reading),
};

/** What is told of landmarks that contradict each other, a sentence or two each; of each film the first things first. */
export const placesInDoubt = (film: StudiedFilm, reading: StudiedReading): string[] =>
  [...contradicting(film, reading)].map(({ message }) => message);

function* contradicting(film: StudiedFilm, reading: StudiedReading): Iterable<Remark> {
  const suspects = suspectsOf(film, reading);
  const [first, ...more] = suspects.exchanges;
  if (first) yield exchangedPair(suspects.rows, [first, ...more], film, reading);
  else for (const group of grouped(suspects.rows)) yield misplaced(group, film, reading);
}

function exchangedPair(
  rows: readonly OrderRow[],
  exchanges: readonly [SwappedLandmarks, ...SwappedLandmarks[]],
  film: StudiedFilm,
  reading: StudiedReading,
): Remark {
  const [first, ...more] = exchanges;
  const [one, other] = first;
  const row = rows.find(({ names }) => names.every((name) => first.includes(name))) ?? rows[0];
  const told = row?.says() ?? t('«{0}» lies about where «{1}» belongs, and the other way round.', one, other);
  const pairs = exchanges.map((pair) => t('«{0}» and «{1}»', pair[0], pair[1]));
  const asked = more.length === 0 ? t('Are {0} exchanged?', pairs[0]) : t('Are {0} exchanged?', list(pairs, 'or'));
  return {
    at: lineOf(one, film, reading),
    severity: rows.some(({ certain }) => certain) ? 'error' : 'warning',
    message: t(
      '{0}{1} {2} Look at both on the picture; if they are, exchange their names, if not, place the wrong one again.',
      readerFirst(reading),
      told,
      asked,
    ),
    related: linesOf([other, ...more.flat()], film, reading),
    fixes: exchanges.map((pair) => exchangeFix(pair, film, reading)),
  };
}

interface ContradictionsOfPoint {
  readonly name: LandmarkName;
  readonly rows: readonly OrderRow[];
}

/** The point that the most contradictions have in common is told of first, once for all of them. */
function grouped(rows: readonly OrderRow[]): ContradictionsOfPoint[] {
  const groups: ContradictionsOfPoint[] = [];
  let left = rows;
  while (left.length > 0) {
    const names = left.flatMap((row) => row.names);
    const count = (name: LandmarkName): number => names.filter((one) => one === name).length;
    const name = names.reduce((most, one) => (count(one) > count(most) ? one : most));
    groups.push({ name, rows: left.filter((row) => row.names.includes(name)) });
    left = left.filter((row) => !row.names.includes(name));
  }
  return groups;
}

function misplaced({ name, rows }: ContradictionsOfPoint, film: StudiedFilm, reading: StudiedReading): Remark {
  const others = [...new Set(rows.flatMap((row) => row.names))].filter((one) => one !== name);
  const more = others.slice(1);
  const also = more.length > 0 ? t(' It does not fit {0} either.', list(more.map((one) => `«${one}»`))) : '';
  return {
    at: lineOf(name, film, reading),
    severity: rows.some(({ certain }) => certain) ? 'error' : 'warning',
    message: t(
      '{0}{1}{2} Look at «{3}» first, then at {4}, and place the wrong one again.',
      readerFirst(reading),
      rows[0]?.says() ?? '',
      also,
      name,
      list(others.map((one) => `«${one}»`)),
    ),
    related: linesOf(others, film, reading),
  };
}
