import { typicalPlaces } from '../findings/landmarks/typical-places.ts';
import type { XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { FilmSheet } from './film-sheet.ts';
import { toeSide, type ToeSide } from './toe-side.ts';

/** Places of a typical foot that lie nearer to each other than this would turn it badly, mm. */
const SHORTEST = 20;

type PlacedOn = Pick<FilmSheet, 'view' | 'placed' | 'ground' | 'scale'>;

/**
 * Where a landmark is to be looked for, in pixels of the picture: that of a typical foot laid over what is placed. A place to begin
 * at, and no measure rests on it. `answered` is what a person said of a film that does not tell it yet. Null where too little is known.
 */
export function whereToLook(sheet: PlacedOn, key: string, answered: ToeSide | null): XY | null {
  const places = typicalPlaces[sheet.view];
  const goal = places.get(key as LandmarkName);
  const side = mirrored(sheet, answered);
  if (!goal || side === null) return null;
  // On the typical foot and on the picture, y upwards on both.
  const pairs = Object.entries(sheet.placed).flatMap(([name, { x, y }]) => {
    const typical = name === key ? undefined : places.get(name as LandmarkName);
    return typical ? [{ from: { x: side * typical[0], y: typical[1] }, to: { x, y: -y } }] : [];
  });
  const lie = laidOver(pairs) ?? turnedAndSized(sheet);
  if (!lie || pairs.length === 0) return null;
  const from = middleOf(pairs.map((pair) => pair.from));
  const to = middleOf(pairs.map((pair) => pair.to));
  const [x, y] = [side * goal[0] - from.x, goal[1] - from.y];
  return { x: to.x + lie.a * x - lie.b * y, y: -(to.y + lie.b * x + lie.a * y) };
}

/** 1 where the picture shows the foot as the typical one lies, its toe or its outer side to the right; -1 where mirrored. */
function mirrored({ view, placed }: PlacedOn, answered: ToeSide | null): 1 | -1 | null {
  if (view === 'lateral') {
    const side = toeSide(placed) ?? answered;
    return side === null ? null : side === 'right' ? 1 : -1;
  }
  for (const [inner, outer] of sides[view]) {
    const way = (placed[outer]?.x ?? Number.NaN) - (placed[inner]?.x ?? Number.NaN);
    if (way !== 0 && !Number.isNaN(way)) return way > 0 ? 1 : -1;
  }
  return null;
}

const sides: Readonly<Record<'front' | 'solar', readonly (readonly [inner: string, outer: string])[]>> = {
  front: [
    ['p3.medial', 'p3.lateral'],
    ['coronet.medial', 'coronet.lateral'],
    ['wall.medial', 'wall.lateral'],
    ['joint.medial', 'joint.lateral'],
  ],
  solar: [],
};

/** A turn with a size: pixels to the millimetre along and across. */
interface Lie {
  readonly a: number;
  readonly b: number;
}

/** The least squares of two places and more. */
function laidOver(pairs: readonly { readonly from: XY; readonly to: XY }[]): Lie | null {
  const from = middleOf(pairs.map((pair) => pair.from));
  const to = middleOf(pairs.map((pair) => pair.to));
  let [along, across, spread] = [0, 0, 0];
  for (const pair of pairs) {
    const [x, y] = [pair.from.x - from.x, pair.from.y - from.y];
    const [px, py] = [pair.to.x - to.x, pair.to.y - to.y];
    along += x * px + y * py;
    across += x * py - y * px;
    spread += x * x + y * y;
  }
  return spread >= SHORTEST ** 2 / 2 ? { a: along / spread, b: across / spread } : null;
}

/** With one place: as large as the scale says, and turned as the ground lies. */
function turnedAndSized({ ground, scale }: PlacedOn): Lie | null {
  if (scale === null || !(scale > 0)) return null;
  const slope = ground ? Math.atan((ground[0].y - ground[1].y) / (ground[1].x - ground[0].x)) : 0;
  const turn = Number.isFinite(slope) ? slope : 0;
  return { a: Math.cos(turn) / scale, b: Math.sin(turn) / scale };
}

function middleOf(points: readonly XY[]): XY {
  const sum = points.reduce((so, { x, y }) => ({ x: so.x + x, y: so.y + y }), { x: 0, y: 0 });
  return { x: sum.x / points.length, y: sum.y / points.length };
}
