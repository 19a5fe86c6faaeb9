import type { MeasureName } from '../measures/names.ts';
import { sayBroken, saySize } from '../findings/wording/say-cut.ts';
import { say, sayWithSpread, wordsFor } from '../findings/wording/wording.ts';
import type { Values } from '../measures/take.ts';
import type { FootName } from '../notation/choices.ts';
import type { Prediction } from '../trim/predict.ts';
import { CutJudge, type CutFigures } from '../trim/cut-limits.ts';
import type { CutSize, Footing } from '../trim/stand.ts';
import { cutShape, type CutShape } from './cut-shape.ts';

/** What a cut would leave, ready to be shown. */
export interface CutOutcome {
  /** Degrees that the foot turns; null where nothing can be predicted. */
  readonly delta: number | null;
  /** What is drawn of it; null where nothing is cut or nothing can be predicted. */
  readonly after: CutShape | null;
  /** Every measure that is predicted, by name. */
  readonly predicted: Readonly<Record<string, { readonly value: number; readonly text: string }>>;
  readonly rows: readonly CutRow[];
  /** What it would break, in words; by the same limits as plans and findings. */
  readonly broken: readonly string[];
}

export interface CutRow {
  readonly measure: string;
  readonly words: string;
  readonly before: string;
  readonly after: string;
}

/** The few that a cut is decided by. */
const telling: readonly MeasureName[] = [
  'palmar-angle',
  'wall-angle',
  'heel-angle',
  'phalangeal-rotation',
  'hoof-pastern-deviation',
  'sole-depth.tip',
  'sole-depth.wing',
  'heel-height',
  'breakover-reach',
];

/** `before`: the foot as it stands, and what it measures; null where it cannot be followed. */
export function cutOutcome(
  foot: FootName,
  before: { readonly foot: Footing | null; readonly values: Values | null },
  size: CutSize,
  prediction: Prediction | null,
  figures: CutFigures,
): CutOutcome {
  const judged = prediction && before.foot && new CutJudge(before.foot, figures).of(size);
  return {
    delta: prediction?.delta ?? null,
    after: prediction && before.foot && cutShape(before.foot, size),
    predicted: predicted(prediction, size),
    rows: telling.flatMap((name) => {
      const was = before.values?.get(name);
      const after = prediction?.values.get(name);
      if (!was || !after) return [];
      const words = wordsFor(after.measure, foot);
      return [{ measure: name, words, before: say(was.value, after.unit), after: sayWithSpread(after) }];
    }),
    broken: sayBroken(judged?.margins ?? []),
  };
}

function predicted(prediction: Prediction | null, { toeBack }: CutSize): CutOutcome['predicted'] {
  if (!prediction) return {};
  const said = [...prediction.values].map(
    ([name, { value, unit }]) => [name, { value, text: say(value, unit) }] as const,
  );
  // The landmarks of the wall stay where they were placed; what a rasp takes from it the model tells apart.
  const left = prediction.wallLeft;
  const wall = left !== null && toeBack > 0 && { value: left, text: say(left, 'mm') };
  return Object.fromEntries(wall ? [...said, ['horn-lamellar.lower', wall] as const] : said);
}

/** A cut that no line of the text says yet: `heel down 8 mm, toe back 3 mm, leave toe`. */
export function sizeWords(size: CutSize, leave: readonly string[]): string {
  const left = leave.length > 0 ? `leave ${leave.join(' and ')}` : '';
  const cut = saySize(size);
  if (left === '') return cut === 'nothing' ? 'nothing cut' : cut;
  return cut === 'nothing' ? left : `${cut}, ${left}`;
}
