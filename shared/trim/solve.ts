import type { CutJudge, Margin } from './cut-limits.ts';
import { offSideAlone, sides } from './heels.ts';
import { predict, valuesOf } from './predict.ts';
import type { CutSize, Footing } from './stand.ts';

/** A person's rasp: plans are in half millimetres. */
export const grid = 0.5;
/** No hoof has more heel than this to lose, mm. */
export const most = 60;

/** With what is taken elsewhere in the same cut. */
export interface HeelAsked extends Partial<Omit<CutSize, 'heelDown'>> {
  readonly judge: CutJudge;
  /** The chance with which all limits are kept together, 0 to 1; 0 where it is enough that each is kept by what was placed. */
  readonly sure: number;
  /** mm; no more is wanted. */
  readonly atMost?: number;
}

export interface LargestHeel {
  /** mm, a multiple of 0.5. */
  readonly heelDown: number;
  /** What half a millimetre more would break, the nearest first; empty where no more is wanted. */
  readonly stoppedBy: readonly Margin[];
}

/**
 * The largest heel cut in half millimetres that breaks no limit, surely enough; null where nothing can be predicted, and where even
 * no heel cut at all breaks one. Every size is tried from the top: simple, and right whatever shape a limit has.
 */
export function largestHeel({ judge, sure, atMost = most, ...others }: HeelAsked): LargestHeel | null {
  const size = (steps: number): CutSize => ({ toeDown: 0, toeBack: 0, ...others, heelDown: steps * grid });
  const top = stepsIn(Math.min(most, atMost));
  for (let steps = top; steps >= 0; steps--)
    if (judge.keeps(size(steps), sure))
      return { heelDown: steps * grid, stoppedBy: steps === top ? [] : nearestFirst(judge, size(steps + 1)) };
  return null;
}

/** The whole steps of half a millimetre in a length. */
export const stepsIn = (mm: number): number => Math.max(0, Math.floor(mm / grid + 1e-9));

/** The limits that a cut comes nearest to, by their own standard deviations: those it breaks, else the one it keeps least surely. */
export function nearestFirst(judge: CutJudge, size: CutSize): readonly Margin[] {
  const lost = (judge.of(size)?.margins ?? []).filter((margin) => margin.lost);
  const near = ({ value, sd }: Margin): number => (sd > 0 ? value / sd : Math.sign(value) * Infinity);
  const sorted = lost.toSorted((a, b) => near(a) - near(b));
  const broken = sorted.filter(({ value }) => value < 0);
  return broken.length > 0 ? broken : sorted.slice(0, 1);
}

/**
 * The heel cut that reaches the live sole plane: all of the heel that stands beyond it, by the side that trims since the film have
 * lowered most, mm; null where that is not known.
 */
export function heelToSolePlane(foot: Footing): number | null {
  const surplus = valuesOf(foot)?.get('heel-surplus')?.value;
  if (surplus === undefined) return null;
  const lower = Math.max(...sides.map((side) => offSideAlone(foot.earlier, side)));
  return Math.max(0, surplus - lower);
}

/** The heel cut that brings the palmar angle down to `wanted` degrees, mm to 0.01; null where no cut does. */
export function heelToPalmarAngle(foot: Footing, wanted: number, others: Omit<CutSize, 'heelDown'>): number | null {
  // On two planes the angle of the foot on its heels: the lower of the two.
  const angle = (heelDown: number): number | null =>
    predict(foot, { ...others, heelDown })?.value('palmar-angle')?.value ?? null;
  const uncut = angle(0);
  const deepest = angle(most);
  if (uncut === null || deepest === null || deepest > wanted) return null;
  if (uncut <= wanted) return 0;
  let low = 0;
  let high = most;
  // More off the heel only ever flattens the bone, so there is one answer.
  while (high - low > 0.001) {
    const middle = (low + high) / 2;
    if ((angle(middle) ?? wanted) >= wanted) low = middle;
    else high = middle;
  }
  return Math.round(low * 100) / 100;
}
