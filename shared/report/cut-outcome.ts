import { say, sayLimit, sayWithSpread, wordsFor } from '../findings/wording.ts';
import type { Frame } from '../geometry/frame.ts';
import type { FootName } from '../notation/vocabulary.ts';
import type { Prediction } from '../trim/predict.ts';
import type { CutSize } from '../trim/stand.ts';
import { cutOnPicture, type CutOnPicture } from './cut-on-picture.ts';
import type { XY } from './film-sheet.ts';

/** What a cut would leave, ready to be shown. */
export interface CutOutcome {
  /** Degrees that the foot turns; null where nothing can be predicted. */
  readonly delta: number | null;
  /** The cut in the picture's own pixels; null where nothing is cut or nothing can be predicted. */
  readonly after: CutOnPicture | null;
  /** Every measure that is predicted, by name. */
  readonly foretold: Readonly<Record<string, { readonly value: number; readonly text: string }>>;
  readonly rows: readonly CutRow[];
}

export interface CutRow {
  readonly measure: string;
  readonly words: string;
  readonly before: string;
  readonly after: string;
}

/** The foot as it stands on its film before the cut. */
export interface Standing {
  readonly frame: Frame | null;
  readonly placed: Readonly<Record<string, XY>>;
  readonly ground: readonly [XY, XY] | null;
  before(measure: string): number | undefined;
}

/** The few that a cut is decided by. */
const telling = [
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

export function cutOutcome(
  prediction: Prediction | null,
  size: CutSize,
  foot: FootName,
  { frame, placed, ground, before }: Standing,
): CutOutcome {
  return {
    delta: prediction?.delta ?? null,
    after: prediction && frame && cutOnPicture(frame, placed, ground, size),
    foretold: foretold(prediction, size),
    rows: telling.flatMap((name) => {
      const was = before(name);
      const after = prediction?.values.get(name);
      if (was === undefined || !after) return [];
      const words = wordsFor(after.measure, foot);
      return [{ measure: name, words, before: say(was, after.unit), after: sayWithSpread(after) }];
    }),
  };
}

function foretold(prediction: Prediction | null, { toeBack }: CutSize): CutOutcome['foretold'] {
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
export function sizeWords({ heelDown, toeDown, toeBack }: CutSize, leave: readonly string[]): string {
  const parts = [
    heelDown > 0 && `heel down ${sayLimit(heelDown, 'mm')}`,
    toeDown > 0 && `toe down ${sayLimit(toeDown, 'mm')}`,
    toeBack > 0 && `toe back ${sayLimit(toeBack, 'mm')}`,
    leave.length > 0 && `leave ${leave.join(' and ')}`,
  ];
  return parts.filter((part) => typeof part === 'string').join(', ') || 'nothing cut';
}
