import { t } from '../language/words.ts';
import { accusationOf, isLength } from '../course/bones-of.ts';
import { changeOfValue } from '../course/error-of-films.ts';
import { valuesOfFilm } from '../course/value-of-film.ts';
import { footWords, sayWithSpread, saySigned, sentence, wordsFor } from '../findings/wording/wording.ts';
import type { MeasureName } from '../measures/names.ts';
import { measuresIn } from '../measures/registry.ts';
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
  readonly left: string;
  readonly right: string;
  /** Left less right, with its sign. */
  readonly difference: number;
  readonly sd: number;
  readonly text: string;
  readonly clear: boolean;
  /** A length, and the scale of one of the two is in doubt. */
  readonly doubted: boolean;
  /** `clear: the left is more`, `within the error`, `scale in doubt`. */
  readonly said: string;
}

/** How a difference is judged, in one sentence. */
export const pairWords = (): string =>
  t(
    'A difference between left and right is clear where it is more than the errors of both films together allow (1.96 times the root of the sum of both squared standard deviations), and more than two films of a foot that has not changed differ by. Two feet of a pair are seldom quite alike: a clear difference is none that calls for a treatment.',
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
        return rows.length === 0
          ? []
          : [
              {
                title: t(
                  '{0} and {1}, {2}{3}',
                  sentence(footWords[left]),
                  footWords[right],
                  view,
                  date === null ? '' : `, ${date}`,
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
  const [ofLeft, ofRight] = [valuesOfFilm(left), valuesOfFilm(right)];
  const inDoubt = [left, right].some((film) => accusationOf(film, study) !== null);
  return measuresIn(view).flatMap((measure): PairRow[] => {
    const [a, b] = [ofLeft?.get(measure.name), ofRight?.get(measure.name)];
    if (!a || !b) return [];
    const { difference, sd, clear: isMore } = changeOfValue(b, a, study, [right, left]);
    const doubted = inDoubt && isLength(measure);
    const clear = isMore && !doubted;
    if (!clear && !first[view].includes(measure.name)) return [];
    return [
      {
        measure: measure.name,
        words: sentence(wordsFor(measure, left.film.foot)),
        left: sayWithSpread(a),
        right: sayWithSpread(b),
        difference,
        sd,
        text: saySigned(difference, measure.unit),
        clear,
        doubted,
        said: doubted
          ? t('scale in doubt')
          : clear
            ? t('clear: the {0} is more', difference > 0 ? t('left') : t('right'))
            : t('within the error'),
      },
    ];
  });
}
