import type { Point, SceneNode, Segment } from './scene.ts';

/**
 * The foot is drawn in its own frame (X to the toe, Y up from the ground) and carried to the image at the end, so
 * a foot that faces the other way, or stands on a tilted ground, is the same drawing. This frame may be rougher
 * than the one the measures use: it must exist for any handful of landmarks, and no number comes from it.
 */
export interface DrawingFrame {
  readonly origin: Point;
  readonly u: Point;
  readonly v: Point;
  /** Whether Y = 0 is a real ground line; without one nothing is drawn that refers to it. */
  readonly grounded: boolean;
}

export type Places = ReadonlyMap<string, Point>;

const TINY = 1e-6;

export function minus(a: Point, b: Point): Point {
  return { x: a.x - b.x, y: a.y - b.y };
}

export function plus(a: Point, b: Point, times = 1): Point {
  return { x: a.x + b.x * times, y: a.y + b.y * times };
}

export function between(a: Point, b: Point, share: number): Point {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

export function dot(a: Point, b: Point): number {
  return a.x * b.x + a.y * b.y;
}

export function cross(a: Point, b: Point): number {
  return a.x * b.y - a.y * b.x;
}

export function length(a: Point): number {
  return Math.hypot(a.x, a.y);
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export function turned(a: Point): Point {
  return { x: -a.y, y: a.x };
}

export function direction(from: Point, to: Point): Point | null {
  const d = minus(to, from);
  const size = length(d);
  return size > TINY ? { x: d.x / size, y: d.y / size } : null;
}

/** Where two lines meet, each a point and a direction; null where they run side by side. */
export function meet(a: Point, alongA: Point, b: Point, alongB: Point): Point | null {
  const turn = cross(alongA, alongB);
  if (Math.abs(turn) < 1e-3) return null;
  return plus(a, alongA, cross(minus(b, a), alongB) / turn);
}

export function mean(points: readonly Point[]): Point | null {
  if (points.length === 0) return null;
  let x = 0;
  let y = 0;
  for (const p of points) {
    x += p.x / points.length;
    y += p.y / points.length;
  }
  return { x, y };
}

function first(places: Places, names: readonly string[]): Point | undefined {
  for (const name of names) {
    const p = places.get(name);
    if (p) return p;
  }
  return undefined;
}

/** Pairs that tell which way the toe points: the dorsal landmark first. */
const FACING: readonly (readonly [string, string])[] = [
  ['p3.tip', 'p3.wing'],
  ['toe.ground', 'heel.ground'],
  ['sole.tip', 'sole.wing'],
  ['coronet.dorsal', 'coronet.heel'],
  ['wall.lower', 'heel.ground'],
  ['p3.tip', 'p3.navicular'],
  ['p3.extensor', 'p3.navicular'],
  ['p3.tip', 'coffin.centre'],
  ['wall.lower', 'wall.upper'],
  ['p3.dorsal.lower', 'p3.dorsal.upper'],
  ['coffin.centre', 'fetlock.centre'],
  ['coffin.centre', 'pastern.centre'],
  ['coffin.centre', 'navicular.upper'],
];

function facing(places: Places): Point | null {
  for (const [dorsal, palmar] of FACING) {
    const a = places.get(dorsal);
    const b = places.get(palmar);
    const d = a && b ? direction(b, a) : null;
    if (d) return d;
  }
  return null;
}

export function drawingFrame(places: Places, ground: readonly [Point, Point] | null): DrawingFrame {
  const toe = first(places, ['toe.ground']);
  const heel = first(places, ['heel.ground']);
  const from = ground?.[0] ?? heel;
  const to = ground?.[1] ?? toe;
  const looks = facing(places);
  const lies = from && to ? direction(from, to) : null;
  let u: Point = lies ?? { x: looks && looks.x > 0 ? 1 : -1, y: 0 };
  if (lies && looks && dot(u, looks) < 0) u = { x: -u.x, y: -u.y };
  // With nothing to tell the facing by, the toe is taken to the left, as such films are hung.
  if (lies && !looks && u.x > 0) u = { x: -u.x, y: -u.y };
  let v: Point = { x: u.y, y: -u.x };
  const base = from ?? { x: 0, y: 0 };
  const bone = ['p3.tip', 'p3.wing', 'p3.extensor'].flatMap((name) => places.get(name) ?? []);
  const middle = mean(bone.length > 0 ? bone : [...places.values()]);
  const side = lies && middle ? dot(minus(middle, base), v) : 0;
  if (side < 0 || (side === 0 && v.y > 0)) v = { x: -v.x, y: -v.y };
  const start = first(places, ['p3.tip', 'toe.ground']) ?? middle ?? base;
  const height = lies ? dot(minus(start, base), v) : 0;
  return { origin: plus(start, v, -height), u, v, grounded: lies !== null };
}

export function intoFrame(frame: DrawingFrame, p: Point): Point {
  const d = minus(p, frame.origin);
  return { x: dot(d, frame.u), y: dot(d, frame.v) };
}

export function ontoImage(frame: DrawingFrame, p: Point): Point {
  return plus(plus(frame.origin, frame.u, p.x), frame.v, p.y);
}

/** One millimetre of an ordinary foot, from whichever distances are there: the middle one is believed. */
const USUAL: readonly (readonly [string, string, number])[] = [
  ['p3.tip', 'p3.wing', 68],
  ['coronet.dorsal', 'toe.ground', 85],
  ['p3.tip', 'p3.extensor', 55],
  ['p3.tip', 'p3.navicular', 60],
  ['coffin.centre', 'pastern.centre', 45],
  ['pastern.centre', 'fetlock.centre', 78],
  ['toe.ground', 'heel.ground', 108],
  ['coronet.dorsal', 'coronet.heel', 80],
];

export function unitOf(places: Places, scale: number | null, extent: number): number {
  const found: number[] = [];
  for (const [a, b, usual] of USUAL) {
    const from = places.get(a);
    const to = places.get(b);
    if (from && to && distance(from, to) > TINY) found.push(distance(from, to) / usual);
  }
  found.sort((a, b) => a - b);
  const middle = found[Math.floor((found.length - 1) / 2)];
  const guess = middle ?? (scale !== null && scale > 0 ? 1 / scale : extent / 200);
  // A scale typed wrongly by a thousand must not turn the lines into floods of ink.
  return Math.min(Math.max(guess, extent / 600), extent / 40);
}

function carrySegment(carry: (p: Point) => Point, s: Segment): Segment {
  if (s[0] === 'Z') return s;
  if (s[0] === 'C') {
    const a = carry({ x: s[1], y: s[2] });
    const b = carry({ x: s[3], y: s[4] });
    const c = carry({ x: s[5], y: s[6] });
    return ['C', a.x, a.y, b.x, b.y, c.x, c.y];
  }
  const p = carry({ x: s[1], y: s[2] });
  return [s[0], p.x, p.y];
}

export function nodeOntoImage(frame: DrawingFrame, node: SceneNode): SceneNode {
  const carry = (p: Point): Point => ontoImage(frame, p);
  switch (node.kind) {
    case 'group':
      return { ...node, children: node.children.map((child) => nodeOntoImage(frame, child)) };
    case 'path':
      return { ...node, segments: node.segments.map((s) => carrySegment(carry, s)) };
    case 'line':
      return { ...node, from: carry(node.from), to: carry(node.to) };
    case 'arc': {
      const at = { x: Math.cos(node.from), y: Math.sin(node.from) };
      const from = Math.atan2(frame.u.y * at.x + frame.v.y * at.y, frame.u.x * at.x + frame.v.x * at.y);
      const flip = Math.sign(cross(frame.u, frame.v));
      return { ...node, centre: carry(node.centre), from, to: from + flip * (node.to - node.from) };
    }
    case 'circle':
      return { ...node, centre: carry(node.centre) };
    case 'dots':
      return { ...node, points: node.points.map(carry) };
    case 'text':
      return { ...node, at: carry(node.at) };
    case 'image':
      return node;
  }
}

/** False for a node that holds a number no viewer could draw; a wild landmark may cost a line, not the plate. */
export function isDrawable(node: SceneNode): boolean {
  const ok = (...values: number[]): boolean => values.every((value) => Number.isFinite(value));
  switch (node.kind) {
    case 'group':
      return true;
    case 'path':
      return node.segments.length > 1 && node.segments.every((s) => ok(...(s.slice(1) as number[])));
    case 'line':
      return ok(node.from.x, node.from.y, node.to.x, node.to.y);
    case 'arc':
      return ok(node.centre.x, node.centre.y, node.radius, node.from, node.to);
    case 'circle':
      return ok(node.centre.x, node.centre.y, node.radius);
    case 'dots':
      return node.points.length > 0 && node.points.every((p) => ok(p.x, p.y));
    case 'text':
      return ok(node.at.x, node.at.y, node.size);
    case 'image':
      return ok(node.box.x, node.box.y, node.box.width, node.box.height);
  }
}

export function sound(nodes: readonly SceneNode[]): SceneNode[] {
  return nodes.flatMap((node): SceneNode[] => {
    if (!isDrawable(node)) return [];
    return node.kind === 'group' ? [{ ...node, children: sound(node.children) }] : [node];
  });
}

export function isFinitePoint(p: Point): boolean {
  return Number.isFinite(p.x) && Number.isFinite(p.y);
}
