import { direction, distance, plus, turned, type XY } from '../../geometry/vector.ts';
import type { Box, GroupNode, SceneNode, PathSegment } from '../scene.ts';
import { group } from '../scene.ts';
import { some, WEIGHT, type DrawingContext } from '../drawing-context.ts';
import { widthInEm } from './lettering.ts';

/** The ground is one heavy line whose upper edge is the ground itself; `left` where a cut leaves it for a new one. */
export function drawGround(context: DrawingContext, ground: readonly [XY, XY] | null, left = false): GroupNode | null {
  if (!context.axes.grounded) return null;
  const u = context.unit;
  const xs = some(context, 'toe.ground', 'heel.ground', 'breakover', 'p3.tip', 'p3.wing').map((p) => p.x);
  if (ground) xs.push(ground[0].x, ground[1].x);
  if (xs.length === 0) return null;
  const low = Math.min(...xs) - 7 * u;
  const high = Math.max(...xs) + 7 * u;
  const weight = WEIGHT.ground * u;
  if (left) {
    const from = { x: low, y: 0 };
    const to = { x: high, y: 0 };
    const dash = [2.2 * u, 1.5 * u];
    const old: SceneNode = {
      kind: 'line',
      from,
      to,
      weight: WEIGHT.inner * 1.2 * u,
      dash,
      classes: ['goes'],
      halo: 'film',
    };
    return group(['ground'], [old], { layer: 'ground', part: 'ground.old' });
  }
  const marks: SceneNode[] = [
    {
      kind: 'line',
      from: { x: low, y: -weight / 2 },
      to: { x: high, y: -weight / 2 },
      weight,
      classes: ['ground-line'],
      halo: 'film',
    },
  ];
  return group(['ground'], marks, { layer: 'ground', part: 'ground' });
}

/**
 * The scale marker, in image coordinates: a line with a tick at each end and its length written along it. `area`: where words may
 * stand, as a marker often stands at the edge of its film.
 */
export function drawMarker(
  marker: readonly [XY, XY],
  words: string,
  unit: number,
  em: number,
  { area, onPicture }: { readonly area: Box; readonly onPicture: boolean },
): GroupNode | null {
  const way = direction(marker[0], marker[1]);
  if (!way) return null;
  const bar = turned(way);
  const half = Math.min(2.4 * unit, distance(marker[0], marker[1]) / 3);
  const ticks: PathSegment[] = [];
  for (const end of marker) {
    const a = plus(end, bar, -half);
    const b = plus(end, bar, half);
    ticks.push(['M', a.x, a.y], ['L', b.x, b.y]);
  }
  // On the film the marker itself is there to be seen between its two ticks.
  if (!onPicture) ticks.push(['M', marker[0].x, marker[0].y], ['L', marker[1].x, marker[1].y]);
  const middle = { x: (marker[0].x + marker[1].x) / 2, y: (marker[0].y + marker[1].y) / 2 };
  const upright = Math.abs(way.y) > Math.abs(way.x);
  // Above the upper end of an upright marker: beside it the leaders pass.
  const top = marker[0].y < marker[1].y ? marker[0] : marker[1];
  const at = upright ? { x: top.x, y: top.y - 0.45 * em } : { x: middle.x, y: middle.y - half - 0.35 * em };
  const size = em * 0.86;
  const halfWords = 0.5 * size * widthInEm(words) + 0.2 * em;
  const [left, right] = [area.x + halfWords, area.x + area.width - halfWords];
  // Words wider than all of it stay where they belong.
  const x = left < right ? Math.min(Math.max(at.x, left), right) : at.x;
  const children: SceneNode[] = [
    { kind: 'path', segments: ticks, weight: WEIGHT.measure * 1.4 * unit, classes: ['scale'], halo: 'film' },
  ];
  if (words) {
    children.push({
      kind: 'text',
      at: { x, y: at.y },
      size,
      anchor: 'middle',
      runs: [{ text: words }],
      classes: ['note'],
    });
  }
  return group(['marker'], children, { layer: 'ground', part: 'marker' });
}
