import type { Point } from './plane.ts';

/** Calls back for every pixel near an outline with its signed distance in px, positive inside. */
export type Visit = (index: number, distance: number, x: number, y: number) => void;

interface Segment {
  ax: number;
  ay: number;
  bx: number;
  by: number;
}

const TILE = 16;

function squared(s: Segment, x: number, y: number): number {
  const dx = s.bx - s.ax;
  const dy = s.by - s.ay;
  const length = dx * dx + dy * dy;
  let t = length === 0 ? 0 : ((x - s.ax) * dx + (y - s.ay) * dy) / length;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  const ex = x - s.ax - t * dx;
  const ey = y - s.ay - t * dy;
  return ex * ex + ey * ey;
}

function segments(line: readonly Point[], loop: boolean): Segment[] {
  return line.flatMap((a, i) => {
    const b = line[i + 1] ?? (loop ? line[0] : undefined);
    return b ? [{ ax: a.x, ay: a.y, bx: b.x, by: b.y }] : [];
  });
}

/** Distance to a line within `reach`; tile by tile, so that each pixel asks only the segments that can be nearest. */
function sweep(list: Segment[], width: number, height: number, reach: number, visit: Visit): void {
  let left = Infinity;
  let right = -Infinity;
  let top = Infinity;
  let bottom = -Infinity;
  for (const s of list) {
    left = Math.min(left, s.ax, s.bx);
    right = Math.max(right, s.ax, s.bx);
    top = Math.min(top, s.ay, s.by);
    bottom = Math.max(bottom, s.ay, s.by);
  }
  const x0 = Math.max(0, Math.floor(left - reach));
  const x1 = Math.min(width, Math.ceil(right + reach));
  const y0 = Math.max(0, Math.floor(top - reach));
  const y1 = Math.min(height, Math.ceil(bottom + reach));
  const half = TILE * 0.7072;
  for (let ty = y0; ty < y1; ty += TILE) {
    for (let tx = x0; tx < x1; tx += TILE) {
      const all = list.map((s) => Math.sqrt(squared(s, tx + TILE / 2, ty + TILE / 2)));
      const limit = Math.min(...all) + 2 * half;
      const near = list.filter((_, i) => (all[i] ?? Infinity) <= limit);
      for (let y = ty; y < Math.min(ty + TILE, y1); y++) {
        for (let x = tx; x < Math.min(tx + TILE, x1); x++) {
          let best = Infinity;
          for (const s of near) best = Math.min(best, squared(s, x, y));
          visit(y * width + x, Math.sqrt(best), x, y);
        }
      }
    }
  }
}

/** Which pixels lie inside, by even-odd crossings of each row. */
function inside(list: Segment[], width: number, height: number): Uint8Array {
  const mask = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const cuts: number[] = [];
    for (const s of list) {
      if (s.ay > y !== s.by > y) cuts.push(s.ax + ((y - s.ay) * (s.bx - s.ax)) / (s.by - s.ay));
    }
    cuts.sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const from = Math.max(0, Math.ceil(cuts[i] ?? 0));
      const to = Math.min(width - 1, Math.floor(cuts[i + 1] ?? 0));
      for (let x = from; x <= to; x++) mask[y * width + x] = 1;
    }
  }
  return mask;
}

/** Every pixel inside an outline, and one round it, with its signed distance. */
export function shape(outline: readonly Point[], width: number, height: number, visit: Visit): void {
  const list = segments(outline, true);
  const mask = inside(list, width, height);
  sweep(list, width, height, 2, (i, d, x, y) => {
    const signed = mask[i] ? d : -d;
    if (signed > -1) visit(i, signed, x, y);
  });
}

/** Every pixel within `reach` px of an open line. */
export function stroke(line: readonly Point[], width: number, height: number, reach: number, visit: Visit): void {
  sweep(segments(line, false), width, height, reach, (i, d, x, y) => {
    if (d <= reach) visit(i, d, x, y);
  });
}
