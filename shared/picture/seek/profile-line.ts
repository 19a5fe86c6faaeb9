import { direction, distance, plus, turned, type XY } from '../../geometry/vector.ts';
import { correlation } from './correlation.ts';
import { robustLine } from './line-fit.ts';
import { topOfThree } from './peak.ts';
import { greyOfLevel, levelFor, type Pyramid } from './pyramid.ts';

/** A straight line of one picture found again on another. Pixels of the other picture. */
export interface LineFound {
  /** Where the two expected ends come to lie: each straight across to the line. */
  readonly ends: readonly [XY, XY];
  /** One standard deviation of either end across the line. */
  readonly sds: readonly [number, number];
  readonly angleSd: number;
  /** The share of the places looked at that lie on the line. */
  readonly share: number;
  /** How well the greys across agree there, the median of all places. */
  readonly correlation: number;
  /** How far the expected ends lay off, to the side that `turned` of the line's way points to. */
  readonly off: readonly [number, number];
}

export interface LineQuest {
  readonly before: readonly [XY, XY];
  readonly expected: readonly [XY, XY];
  /** What lies on either side of the line and tells it from another, pixels of the picture before. */
  readonly side: number;
  /** How far from where it is expected it is looked for, pixels of the picture before. */
  readonly reach: number;
  /** Pixels of the other picture for one of the picture before. */
  readonly size: number;
  readonly mirrored: boolean;
  /** At how many places along it is looked: the fewer, the more greys are averaged at each. */
  readonly places: number;
}

/** Samples across from the line to either side. */
const SIDE = 12;
/** Greys across that agree less are another thing. */
const ALIKE = 0.7;

/**
 * What greys go across a line on the picture before says which of several edges it is; where they go across like that is looked for
 * at many places along the expected line, and a line fitted to these. Null where too few of them agree.
 */
export function findLine(before: Pyramid, now: Pyramid, quest: LineQuest): LineFound | null {
  const { size, side, reach, mirrored, places } = quest;
  const step = side / SIDE;
  const wayBefore = direction(...quest.before);
  const way = direction(...quest.expected);
  if (!wayBefore || !way) return null;
  const longBefore = distance(...quest.before);
  const long = distance(...quest.expected);
  // A mirrored picture has the other side of the line to the left.
  const across = mirrored ? turned({ x: -way.x, y: -way.y }) : turned(way);
  const wide = Math.max(1, longBefore / places);
  const shape = new Float64Array(2 * SIDE + 1);
  for (let place = 0; place < places; place++) {
    const at = plus(quest.before[0], wayBefore, (longBefore * place) / (places - 1));
    const greys = greysAcross(before, at, turned(wayBefore), wayBefore, SIDE, step, wide);
    for (let i = 0; i < shape.length; i++) shape[i] = (shape[i] as number) + (greys[i] as number) / places;
  }
  const further = Math.ceil(reach / step);
  const along: number[] = [];
  const off: number[] = [];
  const agree: number[] = [];
  for (let place = 0; place < places; place++) {
    const far = (long * place) / (places - 1);
    const at = plus(quest.expected[0], way, far);
    const greys = greysAcross(now, at, across, way, SIDE + further, step * size, wide * size);
    const found = bestShift(shape, greys, further);
    if (!found || found.height < ALIKE) continue;
    along.push(far);
    off.push(found.shift * step * size);
    agree.push(found.height);
  }
  const fit = robustLine(along, off, Math.max(5, places / 2), 0.5 * step * size);
  if (!fit) return null;
  const foot = (far: number): XY => {
    const straight = (far - fit.slope * fit.offset) / (1 + fit.slope * fit.slope);
    return plus(plus(quest.expected[0], way, straight), across, fit.offset + fit.slope * straight);
  };
  return {
    ends: [foot(0), foot(long)],
    sds: [fit.sdAt(0), fit.sdAt(long)],
    angleSd: (fit.slopeSd / (1 + fit.slope ** 2)) * (180 / Math.PI),
    share: fit.count / places,
    correlation: agree.toSorted((p, q) => p - q)[Math.floor(agree.length / 2)] ?? 0,
    off: [fit.offset, fit.offset + fit.slope * long],
  };
}

/** Greys from one side of a place to the other, averaged over `wide` pixels along. */
function greysAcross(
  picture: Pyramid,
  at: XY,
  across: XY,
  along: XY,
  side: number,
  step: number,
  wide: number,
): Float64Array {
  const greys = new Float64Array(2 * side + 1);
  const rows = Math.max(1, Math.round(wide));
  const level = levelFor(picture, step);
  for (let i = 0; i < greys.length; i++) {
    const far = (i - side) * step;
    for (let row = 0; row < rows; row++) {
      const beside = row - (rows - 1) / 2;
      const grey = greyOfLevel(
        picture,
        level,
        at.x + across.x * far + along.x * beside,
        at.y + across.y * far + along.y * beside,
      );
      greys[i] = (greys[i] as number) + grey / rows;
    }
  }
  return greys;
}

/** The shift at which a shape agrees best with what is there; null at the rim of what is looked at. */
function bestShift(
  shape: Float64Array,
  greys: Float64Array,
  further: number,
): { shift: number; height: number } | null {
  const heights = Float64Array.from({ length: 2 * further + 1 }, (_, i) => correlation(shape, greys, i));
  let best = 0;
  for (let i = 1; i < heights.length; i++) if ((heights[i] as number) > (heights[best] as number)) best = i;
  const [before, after] = [heights[best - 1], heights[best + 1]];
  if (before === undefined || after === undefined) return null;
  const height = heights[best] as number;
  return { shift: best - further + topOfThree(before, height, after), height };
}
