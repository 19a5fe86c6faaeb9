// Draws the extension's pictures: a hoof seen from below, in ink. Run by hand (node scripts/icon.ts) when it changes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';

type XY = readonly [number, number];

/** A cubic curve through its control points; coordinates in hundredths of the picture. */
interface Stroke {
  readonly from: XY;
  readonly curves: readonly (readonly [XY, XY, XY])[];
  readonly weight: number;
}

const SIZE = 256;
const INK = [33, 28, 23] as const;
const PAPER = [251, 248, 240] as const;

const stroke = (weight: number, from: XY, ...curves: (readonly [XY, XY, XY])[]): Stroke => ({ from, curves, weight });
const straight = (weight: number, from: XY, to: XY): Stroke => stroke(weight, from, [from, to, to]);

const wall = (weight: number): Stroke =>
  stroke(
    weight,
    [33, 85],
    [
      [18, 76],
      [11, 44],
      [25, 24],
    ],
    [
      [35, 10],
      [65, 10],
      [75, 24],
    ],
    [
      [89, 44],
      [82, 76],
      [67, 85],
    ],
  );
const bars = (weight: number): Stroke[] => [
  stroke(
    weight,
    [33, 85],
    [
      [37, 84],
      [37, 74],
      [40, 62],
    ],
  ),
  stroke(
    weight,
    [67, 85],
    [
      [63, 84],
      [63, 74],
      [60, 62],
    ],
  ),
];
const frog = (weight: number): Stroke[] => [
  stroke(
    weight,
    [41, 89],
    [
      [43, 72],
      [46, 56],
      [50, 46],
    ],
    [
      [54, 56],
      [57, 72],
      [59, 89],
    ],
  ),
];

/** The edge between wall and sole, and the frog shaded by slanted lines. */
function fine(): Stroke[] {
  const seam = stroke(
    1.1,
    [36.5, 76],
    [
      [24, 68],
      [19.5, 44],
      [31, 29],
    ],
    [
      [39, 19],
      [61, 19],
      [69, 29],
    ],
    [
      [80.5, 44],
      [76, 68],
      [63.5, 76],
    ],
  );
  const hatch = Array.from({ length: 8 }, (_, i) => {
    const y = 59 + i * 4;
    const half = 1.2 + ((y - 50) / 39) * 7;
    return straight(0.9, [50 - half, y + 2.2], [50 + half, y - 2.2]);
  });
  const horn = Array.from({ length: 9 }, (_, i) => {
    const angle = Math.PI * (1.16 + (0.68 * i) / 8);
    const at = (r: number): XY => [50 + r * 1.06 * Math.cos(angle), 46 + r * 1.12 * Math.sin(angle)];
    return straight(0.8, at(26.5), at(28.6));
  });
  return [seam, ...hatch, ...horn];
}

const icon: readonly Stroke[] = [wall(4.2), ...bars(2.6), ...frog(2.2), ...fine()];

function along({ from, curves }: Stroke): XY[] {
  const points: XY[] = [from];
  let p0 = from;
  for (const [p1, p2, p3] of curves) {
    for (let i = 1; i <= 24; i += 1) {
      const t = i / 24;
      const u = 1 - t;
      const mix = (k: 0 | 1): number =>
        u * u * u * p0[k] + 3 * u * u * t * p1[k] + 3 * u * t * t * p2[k] + t * t * t * p3[k];
      points.push([mix(0), mix(1)]);
    }
    p0 = p3;
  }
  return points;
}

function distance([x, y]: XY, [ax, ay]: XY, [bx, by]: XY): number {
  const length = (bx - ax) ** 2 + (by - ay) ** 2;
  const t = length === 0 ? 0 : Math.min(Math.max(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length, 0), 1);
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

/** 1 inside, 0 outside, between the two across the width of one pixel. */
const edge = (inside: number): number => Math.min(Math.max(inside * (SIZE / 100) + 0.5, 0), 1);

function sheet([x, y]: XY): number {
  const corner = 18;
  const dx = Math.max(Math.abs(x - 50) - (49.5 - corner), 0);
  const dy = Math.max(Math.abs(y - 50) - (49.5 - corner), 0);
  return edge(corner - Math.hypot(dx, dy));
}

function draw(): PNG {
  const png = new PNG({ width: SIZE, height: SIZE });
  const lines = icon.map((one) => ({ points: along(one), half: one.weight / 2 }));
  for (let row = 0; row < SIZE; row += 1)
    for (let column = 0; column < SIZE; column += 1) {
      const at: XY = [((column + 0.5) / SIZE) * 100, ((row + 0.5) / SIZE) * 100];
      let ink = 0;
      for (const { points, half } of lines)
        for (let i = 1; i < points.length; i += 1) {
          const [a, b] = [points[i - 1], points[i]];
          if (a && b) ink = Math.max(ink, edge(half - distance(at, a, b)));
        }
      const offset = (row * SIZE + column) * 4;
      for (const k of [0, 1, 2] as const) png.data[offset + k] = Math.round(PAPER[k] + (INK[k] - PAPER[k]) * ink);
      png.data[offset + 3] = Math.round(255 * sheet(at));
    }
  return png;
}

/** Sixteen pixels hold the wall and the frog, no more. */
function small(colour: string): string {
  const n = (value: number): string => String(Math.round(value * 16) / 100);
  const paths = [wall(9), ...frog(7)].map(({ from, curves, weight }) => {
    const d = `M${from.map(n).join(' ')}${curves.map((curve) => `C${curve.flat().map(n).join(' ')}`).join('')}`;
    return `  <path d="${d}" stroke-width="${n(weight)}"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" viewBox="0 0 16 16" fill="none" stroke="${colour}" stroke-linecap="round" stroke-linejoin="round">\n${paths.join('\n')}\n</svg>\n`;
}

/** A page beside a text: the pane that the button opens, with a foot on its ground. */
function preview(colour: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" viewBox="0 0 16 16" fill="none" stroke="${colour}" stroke-linecap="round" stroke-linejoin="round">
  <path d="M1.5 2.5h13v11h-13zM5.5 2.5v11" stroke-width="1"/>
  <path d="M7.6 10.9 9.7 5.6l3.1 2.3v3zM6.9 10.9h6.4" stroke-width="0.9"/>
</svg>
`;
}

const root = join(import.meta.dirname, '..');
writeFileSync(join(root, 'icon.png'), PNG.sync.write(draw(), { colorType: 6 }));
for (const [theme, colour] of [
  ['light', '#424242'],
  ['dark', '#c5c5c5'],
] as const) {
  writeFileSync(join(root, 'icons', `hoof-${theme}.svg`), small(colour));
  writeFileSync(join(root, 'icons', `preview-${theme}.svg`), preview(colour));
}
