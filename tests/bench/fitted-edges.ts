import { edgeCircle, edgeLine } from '../../shared/picture/seek/edges.ts';
import { circleThrough } from '../../shared/geometry/circle.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import type { Dice } from '../property/dice.ts';
import type { DrawnFilm } from './drawn-series.ts';

/** A line or an arc that a hand has clicked, by the clicks alone and fitted to the picture's edge. */
export interface Fitted {
  readonly name: string;
  /** Degrees of a line; mm of a joint's centre. By the clicks alone, and by the fit, which may have found no edge. */
  readonly clicked: number;
  readonly fitted: number | null;
  /** mm: the fitted line's ends across it. */
  readonly across: readonly number[];
}

/** The farthest that an edge is looked for from a click, mm, as in the pane. */
const REACH = 1.5;

const linePairs = ['p3.dorsal', 'wall', 'wall.inner'] as const;

const off = (hand: number, dice: Dice): number =>
  hand * Math.sqrt(-2 * Math.log(dice.uniform() || 1e-12)) * Math.cos(2 * Math.PI * dice.uniform());

export function fittedLines({ picture, truth }: DrawnFilm, hand: number, dice: Dice): Fitted[] {
  const mm = truth.mmPerPx;
  return linePairs.flatMap((name) => {
    const [upper, lower] = [truth.landmarks[`${name}.upper`], truth.landmarks[`${name}.lower`]];
    if (!upper || !lower) return [];
    const clicked = [upper, lower].map(([x, y]) => ({ x: x + off(hand, dice) / mm, y: y + off(hand, dice) / mm }));
    const [a, b] = clicked as [XY, XY];
    const line = edgeLine([picture], a, b, REACH / mm);
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
