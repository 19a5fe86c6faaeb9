import { edgeEnds } from '../../shared/picture/seek/edge-ends.ts';
import { edgeCircle, edgeLine, longEdgeLine } from '../../shared/picture/seek/edges.ts';
import { circleThrough } from '../../shared/geometry/circle.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import type { Dice } from '../property/dice.ts';
import type { DrawnFilm } from './drawn-series.ts';

/** A line or an arc that a hand has clicked, by the clicks alone and fitted to the picture's edge. */
export interface Fitted {
  readonly name: string;
  /** Degrees of a line; mm of a joint's centre and of a marker's length. By the clicks alone, and by the fit, which may have found no edge. */
  readonly clicked: number;
  readonly fitted: number | null;
  /** mm: the fitted line's ends across it; of a marker along it, outwards. */
  readonly across: readonly number[];
}

/** The farthest that an edge is looked for from a click, mm, as in the pane. */
const REACH = 1.5;

const linePairs = ['p3.dorsal', 'wall', 'wall.inner', 'ground'] as const;

const off = (hand: number, dice: Dice): number =>
  hand * Math.sqrt(-2 * Math.log(dice.uniform() || 1e-12)) * Math.cos(2 * Math.PI * dice.uniform());

export function fittedLines({ picture, truth }: DrawnFilm, hand: number, dice: Dice): Fitted[] {
  const mm = truth.mmPerPx;
  return linePairs.flatMap((name) => {
    const [upper, lower] =
      name === 'ground'
        ? [truth.ground.from, truth.ground.to]
        : [truth.landmarks[`${name}.upper`], truth.landmarks[`${name}.lower`]];
    if (!upper || !lower) return [];
    const clicked = [upper, lower].map(([x, y]) => ({ x: x + off(hand, dice) / mm, y: y + off(hand, dice) / mm }));
    const [a, b] = clicked as [XY, XY];
    const line = (name === 'ground' ? longEdgeLine : edgeLine)([picture], a, b, REACH / mm);
    const way = Math.atan2(lower[1] - upper[1], lower[0] - upper[0]);
    const turned = (from: XY, to: XY): number => {
      const turn = Math.atan2(to.y - from.y, to.x - from.x) - way;
      return Math.abs((Math.atan2(Math.sin(turn), Math.cos(turn)) * 180) / Math.PI);
    };
    const across = ({ x, y }: XY): number => (y - upper[1]) * Math.cos(way) - (x - upper[0]) * Math.sin(way);
    return [
      {
        name,
        clicked: turned(a, b),
        fitted: line && turned(...line.ends),
        across: line ? line.ends.map((end) => across(end) * mm) : [],
      },
    ];
  });
}

/** The marker's ends: how far its length is off, mm, and along it each end, outwards. */
export function fittedMarker({ picture, truth }: DrawnFilm, hand: number, dice: Dice): Fitted[] {
  const mm = truth.mmPerPx;
  const ends = [truth.marker.from, truth.marker.to].map(([x, y]) => ({ x, y })) as [XY, XY];
  const [a, b] = ends.map(({ x, y }) => ({ x: x + off(hand, dice) / mm, y: y + off(hand, dice) / mm })) as [XY, XY];
  const found = edgeEnds([picture], a, b, REACH / mm);
  const long = (from: XY, to: XY): number => Math.hypot(to.x - from.x, to.y - from.y);
  const truly = long(...ends);
  const out = (i: 0 | 1): number => {
    const [end, other] = [ends[i], ends[1 - i]] as [XY, XY];
    const at = found?.[i] ?? end;
    return (((at.x - end.x) * (end.x - other.x) + (at.y - end.y) * (end.y - other.y)) / truly) * mm;
  };
  return [
    {
      name: 'marker',
      clicked: Math.abs(long(a, b) - truly) * mm,
      fitted: found && Math.abs(long(...found) - truly) * mm,
      across: found ? [out(0), out(1)] : [],
    },
  ];
}

/** The lower end of each long bone: a circle about the joint's centre, mm at size 1 (examples/drawn/joints.ts). */
const rims = [
  ['coffin.centre', 14.6, 'pastern.centre'],
  ['pastern.centre', 13, 'fetlock.centre'],
] as const;

export function fittedArcs({ picture, truth }: DrawnFilm, hand: number, dice: Dice): Fitted[] {
  const mm = truth.mmPerPx;
  const size = Number(truth.parameters['size of the bones, cob = 1']);
  return rims.flatMap(([name, radius, above]) => {
    const [centre, up] = [truth.landmarks[name], truth.landmarks[above]];
    if (!centre || !up) return [];
    // Three clicks over 110 degrees of the rounded end, which looks away from the joint above.
    const down = Math.atan2(centre[1] - up[1], centre[0] - up[0]);
    const clicks = [-55, 0, 55].map((degrees) => {
      const angle = down + (degrees * Math.PI) / 180;
      return {
        x: centre[0] + (radius * size * Math.cos(angle) + off(hand, dice)) / mm,
        y: centre[1] + (radius * size * Math.sin(angle) + off(hand, dice)) / mm,
      };
    }) as [XY, XY, XY];
    const alone = circleThrough(...clicks);
    const circle = edgeCircle([picture], clicks, REACH / mm);
    const far = (at: XY): number => Math.hypot(at.x - centre[0], at.y - centre[1]) * mm;
    return [{ name, clicked: alone ? far(alone) : Infinity, fitted: circle && far(circle.centre), across: [] }];
  });
}
