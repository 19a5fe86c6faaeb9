import { shownDate } from '../language/dates.ts';
import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import { accusationOf, isLength } from '../course/bones-of.ts';
import type { Change } from '../course/change.ts';
import { changeOfValue } from '../course/error-of-films.ts';
import { readingOfFilm } from '../course/value-of-film.ts';
import { leastWedge, wedgeOfFilm } from '../course/wedge-of-film.ts';
import { whatLacks } from '../findings/wording/what-lacks.ts';
import { footWords, sayWithSpread, saySigned, sentence, wordsFor } from '../findings/wording/wording.ts';
import { bareFoot } from '../geometry/planes.ts';
import type { MeasureName } from '../measures/names.ts';
import { measuresIn, type Measure } from '../measures/registry.ts';
import { valueIn, type Value } from '../measures/take.ts';
import type { FootName } from '../notation/choices.ts';
import { views, type View } from '../notation/landmarks.ts';
import type { StudiedFilm, Study } from '../trim/study.ts';

/** Left and right of a pair that were both filmed at one visit. Plain data; words are ready to be shown. */
export interface PairSheet {
  /** `Left fore and right fore, lateral, 2026-02-10`. */
  readonly title: string;
  readonly date: string | null;
  readonly view: View;
  readonly left: FootName;
  readonly right: FootName;
  /** Of the visit, from 0. */
  readonly line: number;
  readonly rows: readonly PairRow[];
}

export interface PairRow {
  readonly measure: string;
  readonly words: string;
  /** `–` where the film does not give it. */
  readonly left: string;
  readonly right: string;
  /** Left less right, with its sign; null where one of the two is missing. */
  readonly difference: number | null;
  readonly sd: number | null;
  /** The same in words; empty where one of the two is missing. */
  readonly text: string;
  readonly clear: boolean;
  /** A length, and the scale of one of the two is in doubt. */
  readonly doubted: boolean;
  /** `clear: the left is more`, `within the error`, `scale in doubt`; of what is missing what to place. */
  readonly said: string;
}

/** How a difference is judged, in one sentence. */
export const pairWords = (): string =>
  t(
    'A difference between left and right is clear where it is more than the errors of both films together allow (1.96 times the root of the sum of both squared standard deviations), and more than two films of a foot that has not changed differ by. What the wedge of a shoe makes of an angle is no difference of the feet, and is left out before it is judged. Two feet of a pair are seldom quite alike: a clear difference is none that calls for a treatment.',
  );

const pairs = [
  ['LF', 'RF'],
  ['LH', 'RH'],
] as const;

/** What is laid side by side of each view; of the others only what clearly differs. */
const first: Readonly<Record<View, readonly MeasureName[]>> = {
  lateral: [
    'palmar-angle',
    'wall-angle',
    'capsular-rotation',
    'sole-depth.tip',
    'founder-distance',
    'toe-length',
    'heel-height',
  ],
  front: ['p3-tilt', 'joint-tilt', 'coronet-tilt'],
  solar: ['sole-length', 'sole-width', 'heel-width'],
};

/** In the order of the text. Photographs are left out, as they are wherever films are compared. */
export function pairSheets(study: Study): PairSheet[] {
  return study.visits.flatMap(({ visit, films }) =>
    pairs.flatMap(([left, right]) =>
      views.flatMap((view): PairSheet[] => {
        const of = (foot: FootName): StudiedFilm | undefined =>
          films.findLast(
            ({ film, readings }) =>
              film.kind === 'film' &&
              film.foot === foot &&
              film.view === view &&
              readings.some(({ taking }) => taking.frame !== null),
          );
        const [a, b] = [of(left), of(right)];
        const rows = a && b ? rowsOf(view, a, b, study) : [];
        const { date } = visit.is;
        return rows.every(({ difference }) => difference === null)
          ? []
          : [
              {
                title: t(
                  '{0} and {1}, {2}{3}',
                  sentence(footWords[left]),
                  footWords[right],
                  view,
                  date === null ? '' : `, ${shownDate(date)}`,
                ),
                date,
                view,
                left,
                right,
                line: visit.line,
                rows,
              },
            ];
      }),
    ),
  );
}

function rowsOf(view: View, left: StudiedFilm, right: StudiedFilm, study: Study): PairRow[] {
  const inDoubt = [left, right].some((film) => accusationOf(film, study) !== null);
  return measuresIn(view).flatMap((measure): PairRow[] => {
    const [a, b] = [left, right].map((film) => readingOfFilm(film)?.taking.values.get(measure.name));
    const isFirst = first[view].includes(measure.name);
    if (!a || !b) return isFirst ? missing(measure, left, right, { a, b }) : [];
    const between = changeOfValue(b, a, study, [right, left]);
    const doubted = inDoubt && isLength(measure);
    const judged = withoutShoes(measure, left, right, study) ?? between;
    const clear = judged !== 'unknown' && judged.clear && !doubted;
    if (!clear && !isFirst) return [];
    return [
      {
        measure: measure.name,
        words: sentence(wordsFor(measure, left.film.foot)),
        left: sayWithSpread(a),
        right: sayWithSpread(b),
        difference: between.difference,
        sd: between.sd,
        text: saySigned(between.difference, measure.unit),
        clear,
        doubted,
        said: doubted ? t('scale in doubt') : sayJudged(judged, measure),
      },
    ];
  });
}

interface WithoutShoes extends Change {
  /** Degrees of the difference that are the wedges of what the feet wear. */
  readonly byShoe: number;
}

/**
 * An angle to the ground as it would differ if both feet were bare; null where their wedges are alike or none, and what has no wedge
 * in it. `unknown`: one foot is shod, and its film does not show by how much that raises the heel.
 */
function withoutShoes(
  measure: Measure,
  left: StudiedFilm,
  right: StudiedFilm,
  study: Study,
): WithoutShoes | 'unknown' | null {
  if (measure.plane !== 'ground' || measure.view !== 'lateral') return null;
  const [ofLeft, ofRight] = [wedgeOfFilm(left), wedgeOfFilm(right)];
  if (ofLeft === null || ofRight === null) return 'unknown';
  const byShoe = ofLeft - ofRight;
  if (Math.abs(byShoe) < leastWedge) return null;
  const [a, b] = [bareValue(measure, left), bareValue(measure, right)];
  return a && b ? { ...changeOfValue(b, a, study, [right, left]), byShoe } : 'unknown';
}

function bareValue(measure: Measure, film: StudiedFilm): Value | null {
  const frame = readingOfFilm(film)?.taking.frame;
  const bare = frame && bareFoot(frame);
  return bare ? valueIn(bare, measure) : null;
}

function sayJudged(judged: Change | WithoutShoes | 'unknown', { unit }: Measure): string {
  if (judged === 'unknown') return t('not judged: a shoe without its bearing plane may be in it');
  const { clear, difference } = judged;
  const more = difference > 0 ? t('the left is more') : t('the right is more');
  if (!('byShoe' in judged)) return clear ? t('clear: {0}', more) : t('within the error');
  const byShoe = saySigned(judged.byShoe, unit);
  return clear
    ? t('clear, without the {0} that the shoes make of it: {1}', byShoe, more)
    : t('within the error, without the {0} that the shoes make of it', byShoe);
}

/** Says what a film lacks for a row that is looked for; nothing where nobody began to place it. */
function missing(
  measure: Measure,
  left: StudiedFilm,
  right: StudiedFilm,
  { a, b }: { readonly a: Value | undefined; readonly b: Value | undefined },
): PairRow[] {
  const lacks = (
    [
      ['left', left, a],
      ['right', right, b],
    ] as const
  ).flatMap(([side, film, value]) => {
    const reading = readingOfFilm(film);
    if (value || !reading) return [];
    const isPlaced = measure.needs.every((name) => reading.reading.placings.some((placing) => placing.name === name));
    return [{ side, isPlaced, lack: whatLacks(measure, reading) }];
  });
  if (!a && !b && !lacks.some(({ isPlaced }) => isPlaced)) return [];
  const [one, other] = lacks;
  const said =
    one && one.lack === other?.lack
      ? one.lack
      : lacks.map(({ side, lack }) => t('{0}: {1}', sideWords[side], lack)).join(' ');
  return [
    {
      measure: measure.name,
      words: sentence(wordsFor(measure, left.film.foot)),
      left: a ? sayWithSpread(a) : '–',
      right: b ? sayWithSpread(b) : '–',
      difference: null,
      sd: null,
      text: '',
      clear: false,
      doubted: false,
      said,
    },
  ];
}

const sideWords = spoken({ left: 'left', right: 'right' });
