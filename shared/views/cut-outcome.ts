import { fixed } from '../language/figures.ts';
import { wordList } from '../notation/word-list.ts';
import { inLanguage, t } from '../language/words.ts';
import type { MeasureName } from '../measures/names.ts';
import { sayBroken, saySize } from '../findings/wording/say-cut.ts';
import { say, sayWithSpread, wordsFor } from '../findings/wording/wording.ts';
import type { Frame } from '../geometry/frame.ts';
import type { Values } from '../measures/take.ts';
import type { FootName } from '../notation/choices.ts';
import type { Prediction } from '../trim/predict.ts';
import { CutJudge, type CutFigures } from '../trim/cut-limits.ts';
import { ofSide, takenAtHeels } from '../trim/heels.ts';
import type { StudiedSides } from '../trim/side-cut.ts';
import type { CutSize, Footing, SideSize } from '../trim/stand.ts';
import { cutShape, type CutShape } from './cut-shape.ts';
import { sideShape } from './side-shape.ts';

/** What a cut would leave, ready to be shown. */
export interface CutOutcome {
  /** Degrees that the foot turns, on two planes on its heels; null where nothing can be predicted. */
  readonly delta: number | null;
  /** Degrees that a foot on two planes turns where it stands on its toe; null for every other cut. */
  readonly deltaOnToe: number | null;
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
  'palmar-angle.bearing',
  'wall-angle',
  'heel-angle',
  'phalangeal-rotation',
  'hoof-pastern-deviation',
  'sole-depth.tip',
  'sole-depth.wing',
  'heel-height',
  'breakover-reach',
];

/** What a cut from side to side is decided by. */
const tellingInFront: readonly MeasureName[] = [
  'p3-tilt',
  'joint-tilt',
  'coronet-tilt',
  'sole-depth.medial',
  'sole-depth.lateral',
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
    deltaOnToe: prediction?.onToe?.delta ?? null,
    after: prediction && before.foot && cutShape(before.foot, size),
    predicted: predicted(prediction, size),
    rows: [
      ...rowsOf(telling, foot, before.values, prediction?.values, prediction?.onToe?.values),
      ...(prediction && before.foot ? heelRows(before.foot, size, before.values) : []),
    ],
    broken: judged && before.foot ? sayBroken(judged.margins, before.foot.frame) : [],
  };
}

/** The same of a cut from side to side, on a front film. */
export function sideOutcome(
  foot: FootName,
  frame: Frame | null,
  { size, earlier, before, prediction }: Pick<StudiedSides, 'size' | 'earlier' | 'before' | 'prediction'>,
): CutOutcome {
  const told = [...(prediction?.values ?? [])].map(
    ([name, { value, unit }]) => [name, { value, text: say(value, unit) }] as const,
  );
  return {
    delta: prediction?.delta ?? null,
    deltaOnToe: null,
    after: prediction && frame && sideShape(frame, size, earlier),
    predicted: Object.fromEntries(told),
    rows: rowsOf(tellingInFront, foot, before, prediction?.values),
    broken: [],
  };
}

function rowsOf(
  names: readonly MeasureName[],
  foot: FootName,
  before: Values | null,
  predicted: Values | undefined,
  onToe?: Values,
): CutRow[] {
  return names.flatMap((name) => {
    const was = before?.get(name);
    const after = predicted?.get(name);
    if (!was || !after) return [];
    const words = wordsFor(after.measure, foot);
    const other = onToe?.get(name);
    const [heels, toe] = [sayWithSpread(after), other ? sayWithSpread(other) : ''];
    const said = toe === '' || toe === heels ? heels : t('{0} on its heels, {1} on its toe', heels, toe);
    return [{ measure: name, words, before: say(was.value, after.unit), after: said }];
  });
}

/** What is left of each heel beyond the live sole plane, where a side comes down more than the other. */
function heelRows(foot: Footing, size: CutSize, before: Values | null): CutRow[] {
  const surplus = before?.get('heel-surplus');
  const taken = takenAtHeels(foot, size);
  if (!surplus || !taken.some(({ fromSide }) => fromSide > 0)) return [];
  return taken.map(({ side, taken: mm, fromSide }) => ({
    measure: surplus.measure.name,
    words:
      side === 'inside'
        ? t('heel beyond the live sole plane, inner side')
        : t('heel beyond the live sole plane, outer side'),
    before: say(surplus.value - (fromSide - ofSide(size, side)), surplus.unit),
    after: sayWithSpread({ ...surplus, value: surplus.value - mm }),
  }));
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

/** `the foot turns 2.1°`, `… on its heels, 0.0° on its toe`, `seen from in front the foot turns 1.0°, the inner side down`. */
export function turnWords({
  delta,
  deltaOnToe,
  sides,
}: Pick<CutOutcome, 'delta' | 'deltaOnToe'> & { readonly sides: SideSize | null }): string {
  const by = delta ?? 0;
  if (deltaOnToe !== null)
    return t('the foot turns {0}° on its heels, {1}° on its toe', fixed(by, 1), fixed(deltaOnToe, 1));
  if (!sides) return t('the foot turns {0}°', fixed(by, 1));
  const turn = fixed(Math.abs(by), 1);
  const side = !/[1-9]/.test(turn) ? '' : by > 0 ? t(', the outer side down') : t(', the inner side down');
  return t('seen from in front the foot turns {0}°{1}', turn, side);
}

/** A cut that no line of the text says yet: `heel down 8 mm, toe back 3 mm, leave toe`. */
export function sizeWords(size: CutSize, leave: readonly string[]): string {
  const left = leave.length > 0 ? t('leave {0}', wordList(leave.map(inLanguage))) : '';
  const cut = saySize(size);
  if (left === '') return cut === 'nothing' ? t('nothing cut') : cut;
  return cut === 'nothing' ? left : `${cut}, ${left}`;
}
