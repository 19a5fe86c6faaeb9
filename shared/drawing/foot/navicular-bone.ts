import { between, direction, distance, dot, minus, plus, turned, type XY } from '../../geometry/vector.ts';
import { body, engraved, outline } from './bone-ink.ts';
import { corner, flatten, smooth, type Knot } from '../curve.ts';
import { hatchInside, type Tone } from '../hatch.ts';
import { group, type GroupNode } from '../scene.ts';
import { all, WEIGHT, type DrawingContext } from '../drawing-context.ts';

export function navicularBone(context: DrawingContext): GroupNode | null {
  const ends = all(context, 'navicular.upper', 'navicular.lower');
  if (!ends) return null;
  const [upper, lower] = ends;
  const axis = direction(lower, upper);
  if (!axis) return null;
  const u = context.unit;
  const size = distance(upper, lower);
  const middle = between(upper, lower, 0.5);
  const centre = context.at('coffin.centre') ?? context.at('p3.navicular');
  const toToe = centre ? minus(centre, middle) : { x: 1, y: 0.5 };
  const side = turned(axis);
  const joint = dot(side, toToe) >= 0 ? side : { x: -side.x, y: -side.y };
  const place = (up: number, out: number): XY => plus(plus(lower, axis, up * size), joint, out * size);
  const knots: Knot[] = [
    corner(lower),
    place(0.12, 0.17),
    place(0.45, 0.2),
    place(0.8, 0.24),
    place(0.96, 0.17),
    upper,
    place(0.95, -0.17),
    place(0.74, -0.31),
    place(0.44, -0.36),
    place(0.15, -0.24),
  ];
  const line = smooth(knots, true);
  const tone: Tone = (_a, _l, p) => 0.25 + 0.75 * Math.max(0, -dot(minus(p, middle), joint) / (0.3 * size));
  return group(
    ['bone'],
    [
      body(line, 'navicular'),
      engraved(
        hatchInside(context.bare ? [] : flatten(line), axis, 1.15 * u, WEIGHT.hatch * 1.15 * u, tone, 5),
        'navicular',
      ),
      outline(line, context, 'navicular'),
    ],
    { part: 'navicular', layer: 'bones' },
  );
}
