import { along, corner, flatten, smooth, straight, type Knot } from './curve.ts';
import { between, direction, distance, meet, minus, plus } from './frame.ts';
import { chance, hatchBetween, stipple, swelling, type Tone } from './hatch.ts';
import type { GroupNode, PathNode, Point, SceneNode, Segment } from './scene.ts';
import { group } from './scene.ts';
import { all, some, WEIGHT, type Sheet } from './sheet.ts';

function edge(segments: readonly Segment[], weight: number, part: string, classes = ['outline']): PathNode {
  return { kind: 'path', segments, weight, classes, halo: true, data: { part } };
}

function texture(segments: readonly Segment[], part: string): PathNode {
  return { kind: 'path', segments, classes: ['horn'], data: { part } };
}

/** The outer dorsal wall from the hairline down to the ground, as far as its landmarks reach. */
function dorsalWall(sheet: Sheet): Knot[] {
  const straightPart = some(sheet, 'wall.top', 'wall.upper', 'wall.turn', 'wall.lower').sort((a, b) => b.y - a.y);
  const top = sheet.at('coronet.dorsal');
  const toe = sheet.at('toe.ground');
  const breakover = sheet.at('breakover');
  const wall: Knot[] = [];
  if (top) wall.push(top);
  wall.push(...straightPart);
  // Where the toe is rolled, the wall leaves the ground behind its most dorsal point.
  if (toe && breakover && breakover.x > toe.x + 0.5 * sheet.unit) wall.push(breakover);
  if (toe) wall.push(corner(toe));
  return wall;
}

/** The inner edge of the dorsal horn beside a point of the outer wall, where that edge is placed. */
function innerEdge(sheet: Sheet, wall: readonly Point[]): [Point, Point] | null {
  const inner = all(sheet, 'wall.inner.upper', 'wall.inner.lower');
  const top = wall[0];
  const bottom = wall[wall.length - 1];
  if (!inner || !top || !bottom) return null;
  const way = direction(inner[1], inner[0]);
  if (!way) return null;
  const across = { x: 1, y: 0 };
  const hair = all(sheet, 'coronet.dorsal', 'coronet.heel');
  const a = meet(inner[0], way, top, hair ? (direction(hair[0], hair[1]) ?? across) : across);
  const b = meet(inner[1], way, bottom, across);
  // Markers far from the wall would stretch the horn over the whole foot; then only the edge itself is drawn.
  const reach = 30 * sheet.unit;
  return a && b && distance(a, top) < reach && distance(b, bottom) < reach ? [a, b] : null;
}

function dorsalHorn(sheet: Sheet): GroupNode | null {
  const u = sheet.unit;
  const wall = dorsalWall(sheet);
  if (wall.length < 2) return null;
  const line = smooth(wall, false);
  const chain = flatten(line);
  const top = chain[0]!;
  const bottom = chain[chain.length - 1]!;
  const slope = direction(bottom, top);
  if (!slope) return null;
  const known = innerEdge(sheet, chain);
  const lean = Math.max(Math.abs(slope.y), 0.3);
  const hair = all(sheet, 'coronet.dorsal', 'coronet.heel');
  const back = (hair && direction(hair[0], hair[1])) ?? { x: -1, y: 0 };
  const soft = (7.5 * u) / lean;
  const a = known?.[0] ?? plus(top, back, soft * 0.8);
  const b = known?.[1] ?? plus(bottom, { x: -1, y: 0 }, soft);
  const count = 24;
  const innerChain: Point[] = [];
  const outerChain: Point[] = [];
  for (let i = 0; i <= count; i += 1) {
    const t = i / count;
    const p = along(chain, t);
    const shift = plus(minus(a, top), minus(minus(b, bottom), minus(a, top)), t);
    outerChain.push(p);
    innerChain.push(plus(p, shift));
  }
  // Tubules stand densest at the outside of the wall; without a placed inner edge they fade out inwards.
  const tone: Tone = (across, t) => {
    const dense = known ? 0.78 - 0.5 * across : 0.85 - 1.0 * across;
    return dense * (0.75 + 0.35 * Math.abs(t - 0.45));
  };
  const width = distance(along(outerChain, 0.5), along(innerChain, 0.5)) * lean;
  const marks: SceneNode[] = [
    texture(
      hatchBetween(outerChain, innerChain, Math.max(width / (1.05 * u), 3), WEIGHT.horn * u, tone, 11),
      'horn.dorsal',
    ),
  ];
  const inner = all(sheet, 'wall.inner.upper', 'wall.inner.lower');
  if (known) marks.push(edge(straight([a, b]), WEIGHT.inner * u, 'horn.inner', ['inner']));
  else if (inner) marks.push(edge(straight(inner), WEIGHT.inner * u, 'horn.inner', ['inner']));
  const turn = sheet.at('wall.turn');
  if (turn) {
    const foot = plus(turn, { x: -1, y: 0 }, 6 * u);
    marks.push(edge(straight([turn, foot]), WEIGHT.inner * u, 'wall.turn', ['inner']));
  }
  marks.push(edge(line, WEIGHT.outline * u, 'wall.dorsal'));
  return group(['horn-part'], marks, { part: 'horn.dorsal', layer: 'capsule' });
}

function heelHorn(sheet: Sheet): GroupNode | null {
  const u = sheet.unit;
  const heel = some(sheet, 'coronet.heel', 'heel.upper').sort((a, b) => b.y - a.y);
  const ground = sheet.at('heel.ground');
  const knots: Knot[] = ground ? [...heel, corner(ground)] : [...heel];
  if (knots.length < 2) return null;
  const line = smooth(knots, false);
  const marks: SceneNode[] = [];
  const chain = flatten(line);
  const lower = all(sheet, 'heel.upper', 'heel.ground');
  if (lower) {
    const [top, bottom] = lower;
    const outer = [top, between(top, bottom, 0.5), bottom];
    const inner = outer.map((p) => plus(p, { x: 1, y: 0 }, 9 * u));
    const tone: Tone = (across, t) => (0.8 - 0.95 * across) * (0.7 + 0.3 * t);
    marks.push(texture(hatchBetween(outer, inner, 8, WEIGHT.horn * u, tone, 13), 'horn.heel'));
  }
  if (chain.length > 1) marks.push(edge(line, WEIGHT.outline * u, 'wall.heel'));
  return group(['horn-part'], marks, { part: 'horn.heel', layer: 'capsule' });
}

/** The side of the wall between toe and heel: a few tubules that run out, so that the bone shows through. */
function quarter(sheet: Sheet): GroupNode | null {
  const ends = all(sheet, 'coronet.dorsal', 'toe.ground', 'coronet.heel', 'heel.ground');
  if (!ends) return null;
  const [cd, tg, ch, hg] = ends;
  const u = sheet.unit;
  const segments: Segment[] = [];
  const hair = hairline(cd, ch, u);
  const count = Math.min(Math.max(Math.round(distance(tg, hg) / (2.1 * u)), 6), 70);
  for (let i = 0; i < count; i += 1) {
    const share = 0.1 + (0.84 * (i + 0.5 + (chance(17, i) - 0.5) * 0.5)) / count;
    const top = along(hair, share);
    const bottom = between(tg, hg, share);
    const span = distance(top, bottom);
    const reach = (lengthOf: number): number => Math.min((lengthOf * u) / Math.max(span, u), 0.45);
    const down = reach(3.5 + 5 * chance(19, i));
    const up = reach(2.5 + 4.5 * chance(23, i));
    segments.push(...fade(top, between(top, bottom, down), 0.6, u), ...fade(bottom, between(bottom, top, up), 0.75, u));
  }
  const marks: SceneNode[] = [
    texture(segments, 'horn.quarter'),
    edge(straight([tg, hg]), WEIGHT.outline * u, 'wall.ground'),
  ];
  return group(['horn-part', 'quarter'], marks, { part: 'horn.quarter', layer: 'capsule' });
}

/** One short line, full at its start and gone at its end. */
function fade(from: Point, to: Point, tone: number, u: number): Segment[] {
  const points: Point[] = [];
  const tones: number[] = [];
  for (let i = 0; i <= 5; i += 1) {
    points.push(between(from, to, i / 5));
    tones.push(Math.max(tone * (1 - i / 5.5), 0.07));
  }
  return swelling(points, tones, WEIGHT.horn * u);
}

function hairline(cd: Point, ch: Point, u: number): Point[] {
  const sag = Math.min(2.2 * u, distance(cd, ch) * 0.05);
  return flatten(smooth([cd, plus(between(cd, ch, 0.5), { x: 0, y: -sag }), ch], false), 12);
}

/** The hairline with the hair that falls over it. */
function coronet(sheet: Sheet): GroupNode | null {
  const ends = all(sheet, 'coronet.dorsal', 'coronet.heel');
  if (!ends) return null;
  const u = sheet.unit;
  const [cd, ch] = ends;
  const chain = hairline(cd, ch, u);
  const way = direction(ch, cd);
  if (!way) return null;
  const hairs: Segment[] = [];
  const count = Math.min(Math.max(Math.round(distance(cd, ch) / (1.5 * u)), 8), 90);
  for (let i = 0; i < count; i += 1) {
    const share = (i + 0.5 + (chance(29, i) - 0.5) * 0.9) / count;
    const root = along(chain, share);
    const size = (4 + 4.5 * chance(31, i)) * u;
    // Hair lies down the pastern and turns a little forwards over the edge of the horn.
    const back = { x: -0.5 - 0.25 * chance(37, i), y: 1 };
    const tip = plus(root, { x: 0.35, y: -1 }, (0.4 + 1.3 * chance(41, i)) * u);
    const bend = plus(root, back, size * 0.45);
    const start = plus(root, back, size);
    const points = flatten(smooth([start, plus(bend, { x: 0.5, y: 0.1 }, u * 0.5), tip], false), 5);
    const tones = points.map((_p, k) => 0.12 + 0.75 * Math.sin((Math.PI * (k + 1)) / (points.length + 1)));
    hairs.push(...swelling(points, tones, WEIGHT.horn * 0.95 * u));
  }
  return group(
    ['horn-part', 'coronet'],
    [
      { kind: 'path', segments: hairs, classes: ['hair'], data: { part: 'coronet' } },
      edge(smooth(chain.filter((_p, i) => i % 6 === 0 || i === chain.length - 1), false), WEIGHT.inner * u, 'hairline'),
    ],
    { part: 'coronet', layer: 'capsule' },
  );
}

/** The sole between the ground side of the sole and the margin of the bone, stippled denser downwards. */
function sole(sheet: Sheet): GroupNode | null {
  const u = sheet.unit;
  const under = some(sheet, 'sole.tip', 'sole.wing', 'sole.heel').sort((a, b) => b.x - a.x);
  if (under.length < 2) return null;
  const knots: Knot[] = [...under];
  const toe = sheet.at('toe.ground');
  const first = under[0]!;
  const toeSide = sheet.at('sole.tip') && toe && toe.x - first.x > 8 * u ? toe : null;
  if (toeSide) {
    // Towards the toe the sole comes down to the inside of the wall.
    const inside = plus(toeSide, { x: -1, y: 0 }, Math.min(9 * u, (toeSide.x - first.x) * 0.4));
    knots.unshift(inside, plus(between(inside, first, 0.55), { x: 0, y: 1 }, Math.max(first.y - inside.y, 0) * 0.28));
  }
  const heel = sheet.at('heel.ground');
  const last = under[under.length - 1]!;
  if (heel && last.x - heel.x > 3 * u) knots.push(plus(heel, { x: 1, y: 0 }, Math.min(4 * u, (last.x - heel.x) * 0.5)));
  const line = smooth(knots, false);
  const lower = flatten(line);
  const marks: SceneNode[] = [];
  const roof = all(sheet, 'p3.tip', 'p3.wing');
  if (roof) {
    const [tip, wing] = roof;
    const upper: Point[] = [];
    const begin = lower[0]!;
    if (toeSide && begin.x > tip.x) upper.push(plus(between(begin, tip, 0.7), { x: 0, y: 1 }, u));
    upper.push(tip, wing);
    const end = lower[lower.length - 1]!;
    const region = [...lower, ...(end.x < wing.x ? [plus(end, { x: 0, y: 1 }, 2 * u)] : []), ...upper.reverse()];
    const depth = Math.max(distance(between(tip, wing, 0.5), along(lower, 0.5)), 2 * u);
    const tone: Tone = (_x, _y, p) => {
      let near = Infinity;
      for (const q of lower) near = Math.min(near, distance(p, q));
      return Math.max(0, 1.02 - (near / depth) * 1.35) ** 1.25;
    };
    marks.push(...stipple(region, 1.25 * u, 0.62 * u, tone, 7));
  }
  marks.push(edge(line, WEIGHT.outline * 0.8 * u, 'sole'));
  return group(['sole-part'], marks, { part: 'sole', layer: 'capsule' });
}

export function drawCapsule(sheet: Sheet): SceneNode[] {
  const parts = [quarter(sheet), sole(sheet), dorsalHorn(sheet), heelHorn(sheet), coronet(sheet)];
  return parts.filter((part) => part !== null);
}
