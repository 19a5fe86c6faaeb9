import { direction, dot, plus, turned, type XY } from '../geometry/vector.ts';
import { along } from './curve.ts';
import type { DotsNode, PathSegment } from './scene.ts';

/** 0 leaves the paper white, 1 is the deepest tone the hatching can give. */
export type Tone = (across: number, lengthwise: number, place: XY) => number;

/** Repeatable chance: the same foot must give the same drawing each time, or tests and morphs would jitter. */
export function chance(i: number, j = 0): number {
  let h = Math.imul(i + 374761393, 668265263) ^ Math.imul(j + 1274126177, 2246822519);
  h = Math.imul(h ^ (h >>> 15), 2246822519);
  h = Math.imul(h ^ (h >>> 13), 3266489917);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

const FAINTEST = 0.06;

/**
 * One engraved line: it swells with the tone and runs out to nothing at its ends, as a burin cuts it. Where the
 * tone is too faint the line is broken. Drawn as a filled shape, since a stroke has one width only.
 */
export function swelling(points: readonly XY[], tones: readonly number[], weight: number): PathSegment[] {
  const segments: PathSegment[] = [];
  let run: { p: XY; w: number }[] = [];
  const close = (): void => {
    if (run.length >= 3) {
      const over: XY[] = [];
      const under: XY[] = [];
      run.forEach(({ p, w }, i) => {
        const before = run[Math.max(i - 1, 0)]!.p;
        const after = run[Math.min(i + 1, run.length - 1)]!.p;
        const d = direction(before, after);
        const end = i === 0 || i === run.length - 1;
        if (end || !d) {
          over.push(p);
        } else {
          over.push(plus(p, turned(d), w / 2));
          under.push(plus(p, turned(d), -w / 2));
        }
      });
      const ring = [...over, ...under.reverse()];
      ring.forEach((p, i) => segments.push([i === 0 ? 'M' : 'L', p.x, p.y]));
      segments.push(['Z']);
    }
    run = [];
  };
  points.forEach((p, i) => {
    const tone = Math.min(tones[i] ?? 0, 1);
    if (tone < FAINTEST) close();
    else run.push({ p, w: weight * (0.22 + 0.78 * tone) });
  });
  close();
  return segments;
}

/** Hatching that follows the form: lines between two borders that run the same way. */
export function hatchBetween(
  one: readonly XY[],
  other: readonly XY[],
  count: number,
  weight: number,
  tone: Tone,
  seed = 1,
): PathSegment[] {
  const segments: PathSegment[] = [];
  if (one.length < 2 || other.length < 2 || count === 0) return segments;
  const lines = Math.min(Math.max(Math.round(count), 1), 60);
  const steps = 20;
  for (let line = 0; line < lines; line += 1) {
    const across = (line + 0.5 + (chance(seed, line) - 0.5) * 0.3) / lines;
    const points: XY[] = [];
    const tones: number[] = [];
    const late = chance(seed + 7, line) * 0.05;
    for (let i = 0; i <= steps; i += 1) {
      const t = late + (i / steps) * (1 - late - chance(seed + 9, line) * 0.05);
      const a = along(one, t);
      const b = along(other, t);
      const p = { x: a.x + (b.x - a.x) * across, y: a.y + (b.y - a.y) * across };
      points.push(p);
      tones.push(tone(across, t, p));
    }
    segments.push(...swelling(points, tones, weight));
  }
  return segments;
}

/** Hatching with straight lines clipped to an outline. */
export function hatchInside(
  outline: readonly XY[],
  way: XY,
  gap: number,
  weight: number,
  tone: Tone,
  seed = 1,
): PathSegment[] {
  const segments: PathSegment[] = [];
  const span = rangeAlong(outline, turned(way));
  if (!span || !(gap > 0)) return segments;
  const [low, high] = span;
  const lines = Math.min(Math.floor((high - low) / gap), 120);
  const step = (high - low) / Math.max(lines, 1);
  for (let line = 0; line < lines; line += 1) {
    const offset = low + (line + 0.5 + (chance(seed, line) - 0.5) * 0.35) * step;
    const across = (offset - low) / (high - low);
    for (const [from, to] of crossings(outline, way, offset)) {
      const inset = gap * (0.25 + 0.5 * chance(seed + 3, line));
      const size = to - from - 2 * inset;
      if (size < gap) continue;
      const steps = Math.min(Math.max(Math.ceil(size / (gap * 1.4)), 3), 40);
      const points: XY[] = [];
      const tones: number[] = [];
      for (let i = 0; i <= steps; i += 1) {
        const at = from + inset + (size * i) / steps;
        const p = plus({ x: way.x * at, y: way.y * at }, turned(way), offset);
        points.push(p);
        tones.push(tone(across, i / steps, p));
      }
      segments.push(...swelling(points, tones, weight));
    }
  }
  return segments;
}

function rangeAlong(points: readonly XY[], axis: XY): [number, number] | null {
  let low = Infinity;
  let high = -Infinity;
  for (const p of points) {
    const at = dot(p, axis);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return high - low > 1e-6 && Number.isFinite(high - low) ? [low, high] : null;
}

/** The stretches of one hatch line that lie inside an outline. */
function crossings(outline: readonly XY[], way: XY, offset: number): [number, number][] {
  const normal = turned(way);
  const hits: number[] = [];
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    const da = dot(a, normal) - offset;
    const db = dot(b, normal) - offset;
    if (da < 0 === db < 0) return;
    const share = da / (da - db);
    hits.push(dot(a, way) + (dot(b, way) - dot(a, way)) * share);
  });
  hits.sort((a, b) => a - b);
  const stretches: [number, number][] = [];
  for (let i = 0; i + 1 < hits.length; i += 2) stretches.push([hits[i]!, hits[i + 1]!]);
  return stretches;
}

export function inside(outline: readonly XY[], p: XY): boolean {
  let within = false;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y)) within = !within;
  });
  return within;
}

/** Stippling: dots on a shaken grid, kept by chance in proportion to the tone, in three sizes of point. */
export function stipple(outline: readonly XY[], gap: number, size: number, tone: Tone, seed = 1): DotsNode[] {
  const xs = rangeAlong(outline, { x: 1, y: 0 });
  const ys = rangeAlong(outline, { x: 0, y: 1 });
  const sizes: XY[][] = [[], [], []];
  if (!xs || !ys || !(gap > 0)) return [];
  const columns = Math.min(Math.ceil((xs[1] - xs[0]) / gap), 160);
  const rows = Math.min(Math.ceil((ys[1] - ys[0]) / (gap * 0.87)), 120);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const roll = (k: number): number => chance(seed * 31 + k, row * 1009 + column);
      const shift = row % 2 === 0 ? 0 : 0.5;
      const p = {
        x: xs[0] + ((column + shift + (roll(1) - 0.5) * 0.8) * (xs[1] - xs[0])) / columns,
        y: ys[0] + ((row + 0.5 + (roll(2) - 0.5) * 0.8) * (ys[1] - ys[0])) / rows,
      };
      if (!inside(outline, p)) continue;
      const wanted = tone((p.x - xs[0]) / (xs[1] - xs[0]), (p.y - ys[0]) / (ys[1] - ys[0]), p);
      if (roll(3) > wanted) continue;
      sizes[Math.min(2, Math.floor(wanted * 2 + roll(4)))]!.push(p);
    }
  }
  return sizes
    .map((points, i): DotsNode => ({ kind: 'dots', points, size: size * (0.7 + 0.3 * i) }))
    .filter((dots) => dots.points.length > 0);
}

/** A chain moved sideways, each point by its own distance along the local normal (to the left of its run). */
export function beside(chain: readonly XY[], offset: number): XY[] {
  return chain.map((p, i) => {
    const d = direction(chain[Math.max(i - 1, 0)]!, chain[Math.min(i + 1, chain.length - 1)]!);
    return d ? plus(p, turned(d), offset) : p;
  });
}
