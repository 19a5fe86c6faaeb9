import type { FootAxes } from '../../geometry/foot-axes.ts';
import type { XY } from '../../geometry/vector.ts';
import { drawPlate, type PlateInput } from '../plate/plate.ts';
import { AGREEMENT_RULES } from './agreement-ink.ts';
import { group, type Box, type GroupNode, type PathSegment, type Scene, type SceneNode } from '../scene.ts';

/** One standard deviation of where a landmark was placed. */
export interface DrawnEllipse {
  readonly landmark: string;
  /** Along and across, mm; the long axis from X (to the toe) towards Y (up), degrees. */
  readonly long: number;
  readonly short: number;
  readonly angle: number;
  readonly words: string;
}

export interface ScatterFootInput {
  /** Of the foot that they are drawn on, in the pixels of its film, with a scale. */
  readonly foot: Pick<PlateInput, 'foot' | 'view' | 'placed' | 'ground' | 'landmarkWords'> & { readonly scale: number };
  readonly axes: Pick<FootAxes, 'u' | 'v'>;
  readonly ellipses: readonly DrawnEllipse[];
  /** How many times as large as they are; 1 at true scale. */
  readonly times: number;
  readonly highlight: string | null;
  readonly title: string;
  readonly description: string;
}

/** 95 of 100 placings of two normal coordinates: √ of chi-square with 2 degrees of freedom. */
export const holds95 = Math.sqrt(-2 * Math.log(0.05));

/** The foot, and about each landmark the ellipse of one standard deviation, filled, and the one that holds 95 of 100 placings. */
export function drawScatter(input: ScatterFootInput): Scene {
  const { foot, ellipses, highlight, title, description } = input;
  const plate = drawPlate({ ...foot, marker: null, picture: null, labels: [], highlight: null });
  const drawn = ellipses.flatMap((ellipse): GroupNode[] => {
    const centre = foot.placed.get(ellipse.landmark);
    if (!centre) return [];
    return [
      {
        ...group(
          ellipse.landmark === highlight ? ['is-lit'] : [],
          [
            {
              kind: 'path',
              segments: outline(centre, ellipse, 1, input),
              weight: 0.35 * plate.unit,
              classes: ['one-sd'],
            },
            {
              kind: 'path',
              segments: outline(centre, ellipse, holds95, input),
              weight: 0.25 * plate.unit,
              classes: ['most'],
            },
          ],
          { landmark: ellipse.landmark },
        ),
        title: ellipse.words,
      },
    ];
  });
  const { view, bar } = framed([...foot.placed.values()], foot.scale);
  return {
    ...plate,
    view,
    title,
    description,
    rules: AGREEMENT_RULES,
    layers: [...plate.layers.filter(isFoot), group(['scatter'], drawn), bar],
  };
}

/** Room about what is placed, and a bar of a centimetre to measure by, mm. */
const ROOM = 12;
const BAR = 10;

/** The foot alone: its ground line reaches across the whole film. Below it the bar. */
function framed(places: readonly XY[], mmPerPx: number): { readonly view: Box; readonly bar: GroupNode } {
  const room = ROOM / mmPerPx;
  const [xs, ys] = [places.map(({ x }) => x), places.map(({ y }) => y)];
  const [left, top] = [Math.min(...xs) - room, Math.min(...ys) - room];
  const view = { x: left, y: top, width: Math.max(...xs) + room - left, height: Math.max(...ys) + 1.5 * room - top };
  const size = 0.026 * Math.sqrt(view.width * view.height);
  const at = { x: left + 0.4 * room, y: top + view.height - 0.6 * room };
  const end = { x: at.x + BAR / mmPerPx, y: at.y };
  const tick = 0.25 * size;
  const line = (from: XY, to: XY): SceneNode => ({ kind: 'line', from, to, weight: 0.12 * size, classes: ['scale'] });
  return {
    view,
    bar: group(
      ['scale-bar'],
      [
        line(at, end),
        ...[at, end].map(({ x, y }) => line({ x, y: y - tick }, { x, y: y + tick })),
        {
          kind: 'text',
          at: { x: end.x + 0.6 * size, y: end.y + 0.33 * size },
          size,
          anchor: 'start',
          runs: [{ text: `${BAR} mm` }],
          classes: ['quiet'],
        },
      ],
    ),
  };
}

/** The marks of landmarks would hide what lies about them. */
const isFoot = ({ data }: GroupNode): boolean => data?.layer !== 'landmarks';

/** Of a quarter of a circle drawn as one curve (the usual approximation, within 0.03 %). */
const KAPPA = 0.5523;

function outline(
  centre: XY,
  { long, short, angle }: DrawnEllipse,
  size: number,
  { axes: { u, v }, foot: { scale }, times }: ScatterFootInput,
): PathSegment[] {
  const turn = (angle * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const k = (size * times) / scale;
  /** A place by its share of both axes. */
  const at = (along: number, across: number): readonly [number, number] => {
    const [x, y] = [k * (along * long * c - across * short * s), k * (along * long * s + across * short * c)];
    return [centre.x + x * u.x + y * v.x, centre.y + x * u.y + y * v.y];
  };
  const curve = (...points: readonly (readonly [number, number])[]): PathSegment => {
    const [a = [0, 0], b = [0, 0], d = [0, 0]] = points.map(([along, across]) => at(along, across));
    return ['C', ...a, ...b, ...d] as const;
  };
  return [
    ['M', ...at(1, 0)],
    curve([1, KAPPA], [KAPPA, 1], [0, 1]),
    curve([-KAPPA, 1], [-1, KAPPA], [-1, 0]),
    curve([-1, -KAPPA], [-KAPPA, -1], [0, -1]),
    curve([KAPPA, -1], [1, -KAPPA], [1, 0]),
    ['Z'],
  ];
}
