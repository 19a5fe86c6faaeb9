import { minus, plus, type XY } from '../../geometry/vector.ts';
import { correlations } from './correlation.ts';
import { highestPeak, peaks, topOfThree, type Peak } from './peak.ts';
import type { Pyramid } from './pyramid.ts';
import { isOnPicture, sampledGrid } from './sampled-grid.ts';

/** How vectors of one picture look on another: the images of one pixel to the right and of one pixel down. */
export interface VectorMap {
  readonly right: XY;
  readonly down: XY;
}

/** A patch of one picture, and where on another it is looked for. */
export interface PatchQuest {
  /** The middle of the patch. */
  readonly from: XY;
  /** From the middle of the patch to its sides, pixels of its picture. */
  readonly half: number;
  readonly map: VectorMap;
  /** Where the middle is expected, pixels of the other picture. */
  readonly start: XY;
  /** How far off it may lie to either side, pixels of the patch's picture. */
  readonly reach: number;
  /** How far it may be turned against the map either way, degrees. */
  readonly turn: number;
  /** How much larger or smaller than by the map, as a share. */
  readonly size: number;
  /** What it turns about, on the other picture; its own middle where there is none. */
  readonly pivot?: XY;
}

export interface PatchFound {
  readonly at: XY;
  /** Normalised cross-correlation there. */
  readonly correlation: number;
  /** The next best place that is another one; 0 where there is none. */
  readonly rival: number;
  /** Turned against the map, degrees, clockwise on the screen. */
  readonly turn: number;
  readonly size: number;
  /** What is left of the shift when turn and size are taken off, pixels of the other picture: how far the pivot itself has moved. */
  readonly shift: XY;
  /** One standard deviation where it is told worst, and best, pixels of the other picture; infinite where nothing tells it. */
  readonly worst: number;
  readonly best: number;
  /** It may lie beyond what was looked at. */
  readonly atRim: boolean;
}

/** Samples of a patch in a row, from coarse to fine; each is half as far apart as those before. */
const SIDES = [13, 25, 49] as const;
const FINEST = 49;
/** How many places of the coarsest look are followed. */
const FOLLOWED = 4;
/** Samples of the finest look between two places that are not one. */
const APART = 7;
/** What is left over when a patch is laid on its like hangs together over so many pixels of the picture (from the bench). */
const HANGS_TOGETHER = 4;

interface Hypothesis {
  readonly at: XY;
  readonly turn: number;
  readonly size: number;
}

interface LookedAt extends Hypothesis {
  readonly peak: Peak;
  /** One sample of the look to the right and down, pixels of the other picture. */
  readonly right: XY;
  readonly down: XY;
}

/** Null where the patch, or where it is looked for, lies beyond its picture, or the patch is even. */
export function findPatch(before: Pyramid, now: Pyramid, quest: PatchQuest): PatchFound | null {
  const step = (2 * quest.half) / (FINEST - 1);
  const grid = { middle: quest.from, right: { x: step, y: 0 }, down: { x: 0, y: step } };
  if (!isOnPicture(before, grid, FINEST, FINEST)) return null;
  let followed: readonly LookedAt[] = [];
  for (const [level, side] of SIDES.entries()) {
    const spacing = step * 2 ** (SIDES.length - 1 - level);
    const patch = sampledGrid(
      before,
      { middle: quest.from, right: { x: spacing, y: 0 }, down: { x: 0, y: spacing } },
      side,
      side,
    );
    const wide = level === 0 ? Math.ceil(quest.reach / spacing) + 1 : 2;
    const looked = hypotheses(quest, side, followed).flatMap((group) =>
      best(now, patch, side, spacing, wide, quest, group),
    );
    followed = apartFrom(looked, (APART * step) / 2).slice(0, FOLLOWED);
  }
  const [top, next] = apartFrom(followed, APART * step * sizeOf(quest.map));
  if (!top || top.peak.height <= 0) return null;
  return told(now, before, quest, step, top, next);
}

/** What is looked at on a level: each group is one place, turned and sized in several ways, of which the best counts. */
function hypotheses(
  { start, turn, size, pivot }: PatchQuest,
  side: number,
  followed: readonly LookedAt[],
): readonly (readonly Hypothesis[])[] {
  // By so much a turn moves the patch's sides by half a sample.
  const turnStep = (2 / side) * (90 / Math.PI) * 2;
  const sizeStep = 2 / side;
  const around = (from: Hypothesis, turns: readonly number[], sizes: readonly number[]): Hypothesis[] =>
    turns.flatMap((dTurn) =>
      sizes.map((dSize) => ({
        at: pivot && dTurn !== 0 ? turnedAbout(pivot, from.at, dTurn) : from.at,
        turn: from.turn + dTurn,
        size: within(from.size * (1 + dSize), 1 - size, 1 + size),
      })),
    );
  if (followed.length === 0) {
    const turns = steps(turn, turnStep);
    const sizes = steps(size, sizeStep);
    return [around({ at: start, turn: 0, size: 1 }, turns, sizes)];
  }
  const dTurn = Math.min(turnStep, turn);
  const dSize = Math.min(sizeStep, size);
  return followed.map((one) => around(one, dTurn > 0 ? [-dTurn, 0, dTurn] : [0], dSize > 0 ? [-dSize, 0, dSize] : [0]));
}

function steps(most: number, step: number): number[] {
  const count = Math.ceil(most / step - 0.25);
  return Array.from({ length: 2 * count + 1 }, (_, i) => (count === 0 ? 0 : ((i - count) * most) / count));
}

/** The tops of all ways of a group, looked at within `wide` samples. */
function best(
  now: Pyramid,
  patch: Float32Array,
  side: number,
  spacing: number,
  wide: number,
  { map }: PatchQuest,
  group: readonly Hypothesis[],
): readonly LookedAt[] {
  return group.flatMap((hypothesis) => {
    const { right, down } = turnedMap(map, hypothesis.turn, spacing * hypothesis.size);
    const windowSide = side + 2 * wide;
    const window = sampledGrid(now, { middle: hypothesis.at, right, down }, windowSide, windowSide);
    const surface = correlations(patch, side, window, windowSide);
    return peaks(surface, 2 * wide + 1, FOLLOWED).map((peak) => ({
      ...hypothesis,
      at: plus(plus(hypothesis.at, right, peak.x - wide), down, peak.y - wide),
      peak,
      right,
      down,
    }));
  });
}

/** The highest first, each at least so many pixels from all that are higher. */
function apartFrom(looked: readonly LookedAt[], apart: number): readonly LookedAt[] {
  const kept: LookedAt[] = [];
  for (const one of looked.toSorted((a, b) => b.peak.height - a.peak.height))
    if (kept.every(({ at }) => Math.hypot(at.x - one.at.x, at.y - one.at.y) > apart)) kept.push(one);
  return kept;
}

/** Looks once more round the place that was found, turned and sized to a fraction of a step. */
function told(
  now: Pyramid,
  before: Pyramid,
  quest: PatchQuest,
  step: number,
  top: LookedAt,
  next: LookedAt | undefined,
): PatchFound | null {
  const { from, map, start, pivot, turn: mostTurn, size: mostSize, reach } = quest;
  const patch = sampledGrid(
    before,
    { middle: from, right: { x: step, y: 0 }, down: { x: 0, y: step } },
    FINEST,
    FINEST,
  );
  const wide = 2;
  const windowSide = FINEST + 2 * wide;
  const look = (hypothesis: Hypothesis): { peak: Peak; right: XY; down: XY } => {
    const { right, down } = turnedMap(map, hypothesis.turn, step * hypothesis.size);
    const window = sampledGrid(now, { middle: hypothesis.at, right, down }, windowSide, windowSide);
    return { peak: highestPeak(correlations(patch, FINEST, window, windowSide), 2 * wide + 1), right, down };
  };
  let { at: middle, turn, size } = top;
  for (const step of [1.2, 0.4]) {
    const turnedTo = (by: number): XY => (pivot ? turnedAbout(pivot, middle, by) : middle);
    const height = (by: number): number => look({ at: turnedTo(by), turn: turn + by, size }).peak.height;
    if (mostTurn === 0) break;
    const by = step * topOfThree(height(-step), height(0), height(step));
    middle = turnedTo(by);
    turn += by;
  }
  if (mostSize > 0) {
    const height = (by: number): number => look({ at: middle, turn, size: size * (1 + by) }).peak.height;
    size = within(
      size * (1 + 0.014 * topOfThree(height(-0.014), height(0), height(0.014))),
      1 - mostSize,
      1 + mostSize,
    );
  }
  const { peak, right, down } = look({ at: middle, turn, size });
  const found = plus(plus(middle, right, peak.x - wide), down, peak.y - wide);
  const expected = pivot ? turnedAbout(pivot, start, turn) : start;
  const grid = { middle: found, right, down };
  if (!isOnPicture(now, grid, FINEST, FINEST)) return null;
  const far = Math.max(Math.abs(found.x - expected.x), Math.abs(found.y - expected.y)) / sizeOf(map);
  return {
    at: found,
    correlation: peak.height,
    rival: next?.peak.height ?? 0,
    turn,
    size,
    shift: minus(found, expected),
    ...spreads(peak, Math.hypot(right.x, right.y), sizeOf(map)),
    atRim: peak.atRim || far > reach || Math.abs(turn) > mostTurn + 1,
  };
}

/**
 * How well a peak tells its place: what is left over is taken for noise, and weighed against how steeply the peak falls away in
 * the worst and the best direction (as for any least squares). In pixels of the other picture.
 */
function spreads({ height, bend }: Peak, samplePx: number, mapSize: number): { worst: number; best: number } {
  const leftOver = Math.max(0, 1 - height);
  const alone = (FINEST * samplePx) / (HANGS_TOGETHER * Math.max(1, mapSize));
  const noise = (2 * leftOver) / Math.max(1, alone * alone);
  const middle = (bend.xx + bend.yy) / 2;
  const apart = Math.hypot((bend.xx - bend.yy) / 2, bend.xy);
  const along = (steepness: number): number => (steepness > 0 ? samplePx * Math.sqrt(noise / steepness) : Infinity);
  return { worst: along(-(middle + apart)), best: along(-(middle - apart)) };
}

const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

const sizeOf = ({ right }: VectorMap): number => Math.hypot(right.x, right.y);

/** One step of the patch to its right and down, turned clockwise on the screen. */
function turnedMap({ right, down }: VectorMap, degrees: number, step: number): VectorMap {
  return { right: turnedBy(right, degrees, step), down: turnedBy(down, degrees, step) };
}

function turnedBy({ x, y }: XY, degrees: number, times: number): XY {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180) * times, Math.sin((degrees * Math.PI) / 180) * times];
  return { x: c * x - s * y, y: s * x + c * y };
}

/** Clockwise on the screen. */
export function turnedAbout(pivot: XY, place: XY, degrees: number): XY {
  return plus(pivot, turnedBy(minus(place, pivot), degrees, 1));
}
