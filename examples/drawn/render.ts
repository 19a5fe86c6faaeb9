import type { Foot } from './foot.ts';
import { shape, stroke } from './field.ts';
import { cloud, random } from './grain.ts';
import { letters } from './lead.ts';
import { block, bodies, lines, type Layer } from './layers.ts';
import { at, leaning, minus, plus, times, type Point } from './plane.ts';
import type { FootParameters } from './parameters.ts';
import { bare, shoeOutline, type Shoe } from './shoe.ts';
import { toImage, type View } from './view.ts';

export interface Picture {
  width: number;
  height: number;
  grey: Uint8Array;
}

/** What lies beside the foot for the reader of the film. */
export interface Lead {
  /** Ends of the measuring bar in the foot frame, mm; null where none lies on the film. */
  bar: { from: Point; to: Point } | null;
  /** Letters, and their upper left corner on the film, px. */
  word: string;
  corner: Point;
}

const clamp = (v: number, low: number, high: number): number => (v < low ? low : v > high ? high : v);

/** Chord of a round body at depth d below its edge, 1 where it is thickest. */
const chord = (d: number, { round, gradual }: Layer): number => {
  const t = round === 0 ? 1 : clamp(d / round, 0, 1);
  return gradual ? t * t * (3 - 2 * t) : Math.sqrt(t * (2 - t));
};

/** How far a body has set in at a pixel below a line (on the screen), 0 to 1. */
function settingIn(line: readonly Point[], over: number): (x: number, y: number) => number {
  const [a = at(0, 0), b = at(0, 0)] = line;
  const [from, to] = a.x < b.x ? [a, b] : [b, a];
  const d = minus(to, from);
  const length = Math.sqrt(d.x * d.x + d.y * d.y);
  return (x, y) => {
    const t = clamp(((y - from.y) * d.x - (x - from.x) * d.y) / length / over + 0.15, 0, 1);
    return t * t * (3 - 2 * t);
  };
}

/** What a picture may differ in from film to film. */
export interface Exposure {
  readonly shoe?: Shoe | undefined;
  /** How coarse the grain is: 1 as on a film, less for a smaller file. */
  readonly grain?: number | undefined;
}

/** Draws the foot as a beam would: densities add up, and the film answers by an exponential. */
export function render(
  foot: Foot,
  p: FootParameters,
  view: View,
  lead: Lead,
  seed: number,
  { shoe = bare, grain = 1 }: Exposure = {},
): Picture {
  const { width, height, mmPerPx: mm } = view;
  const image = toImage(view);
  const beam = new Float32Array(width * height);
  const add = (i: number, v: number): void => {
    beam[i] = (beam[i] ?? 0) + v;
  };

  const wood = block(foot, shoe).map(image);
  const woodAlong = (view.tilt * Math.PI) / 180;
  shape(wood, width, height, (i, d, x, y) => {
    const across = (y * Math.cos(woodAlong) - x * Math.sin(woodAlong)) * mm;
    const along = (x * Math.cos(woodAlong) + y * Math.sin(woodAlong)) * mm;
    const ring = cloud(along / 60, across / 1.3, seed + 71) + 0.5 * cloud(along / 25, across / 0.5, seed + 72);
    add(i, clamp(d + 0.5, 0, 1) * (0.052 + 0.006 * ring));
  });

  const slopes = {
    p1: p.proximalAngle,
    p2: p.middleAngle,
    p3: p.palmarAngle + p.p3Angle,
    cannon: p.cannonAngle,
  };
  bodies(foot, slopes).forEach((layer, n) => body(layer, n));
  if (shoe.thickness > 0) body({ outline: shoeOutline(foot, shoe), density: 2.4, round: 0 }, 40);
  if (shoe.paste) {
    const ends = (['sole.tip', 'sole.wing'] as const).flatMap((name) => foot.landmarks.get(name) ?? []);
    stroke(ends.map(image), width, height, 3 / mm, (i, d) => add(i, 1.4 * Math.exp(-((d * mm) ** 2) / 0.8)));
  }

  function body(layer: Layer, n: number): void {
    const a = leaning(layer.grainAlong ?? 0);
    const towardsX = view.toe === 'right' ? 1 : -1;
    const sponge = layer.sponge ?? 0;
    const onset = layer.below ? settingIn(layer.below.line.map(image), layer.below.over / mm) : undefined;
    shape(layer.outline.map(image), width, height, (i, d, x, y) => {
      const depth = Math.max(0, d + 0.5) * mm;
      let density = layer.density * chord(depth, layer);
      const shellDepth = layer.shellDepth ?? 0;
      if (layer.shell && depth < 2 * shellDepth) {
        const t = depth / shellDepth - 0.55;
        density += layer.shell * Math.exp(-2.2 * t * t);
      }
      if (onset) density *= onset(x, y);
      if (sponge > 0) {
        const u = (towardsX * x * a.x - y * a.y) * mm;
        const v = (towardsX * x * a.y + y * a.x) * mm;
        const speck =
          0.5 * cloud(u / 1.6, v / 0.8, seed + n * 7) +
          0.4 * cloud(u / 0.7, v / 0.45, seed + n * 7 + 1) +
          0.3 * cloud(u / 7, v / 5, seed + n * 7 + 2);
        density *= 1 + sponge * speck;
      }
      add(i, clamp(d + 0.5, 0, 1) * density);
    });
  }

  for (const { line, density, half } of lines(foot)) {
    const reach = (half * 2.4) / mm;
    stroke(line.map(image), width, height, reach, (i, d) => {
      const t = (d * mm) / half;
      add(i, density * Math.exp(-t * t));
    });
  }

  if (lead.bar) shape(bar(lead.bar).map(image), width, height, (i, d) => add(i, clamp(d + 0.5, 0, 1) * 3));
  for (const line of letters(lead.word, lead.corner, 11 / mm)) {
    const half = 0.85 / mm;
    // The greater of what is there and the letter: two strokes that meet are one piece of lead.
    stroke(line, width, height, half + 1, (i, d) => {
      beam[i] = Math.max(beam[i] ?? 0, clamp(half - d + 0.5, 0, 1) * 2.2);
    });
  }

  return { width, height, grey: develop(beam, { width, height, seed, coarse: grain }) };
}

/** The bar's corners: square ends, so that its length is what the scale says. */
function bar({ from, to }: NonNullable<Lead['bar']>): Point[] {
  const d = minus(to, from);
  const length = Math.sqrt(d.x * d.x + d.y * d.y);
  const side = times(at(-d.y / length, d.x / length), 1.3);
  return [plus(from, side), plus(to, side), minus(to, side), minus(from, side)];
}

/** Blur of the focal spot, film response, uneven exposure, grain. */
function develop(
  beam: Float32Array,
  { width, height, seed, coarse }: { width: number; height: number; seed: number; coarse: number },
): Uint8Array {
  const sharp = soften(soften(beam, width), width);
  const dice = random(seed);
  const noise = new Float32Array(width * height);
  for (let i = 0; i < noise.length; i++) noise[i] = dice() + dice() + dice() - 1.5;
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const dx = x / width - 0.5;
      const dy = y / height - 0.5;
      const even = 1.03 - 0.36 * (dx * dx + dy * dy) + 0.04 * dx;
      const shade = 0.012 * cloud((x / width) * 3, (y / height) * 3, seed + 5);
      const tone = 1 - Math.exp(-1.35 * ((sharp[i] ?? 0) + 0.022 + shade));
      const around =
        ((noise[i - 1] ?? 0) + (noise[i + 1] ?? 0) + (noise[i - width] ?? 0) + (noise[i + width] ?? 0)) * 0.22;
      const grain = coarse * ((noise[i] ?? 0) + around) * (2 + 5 * tone * (1.15 - tone));
      grey[i] = clamp(Math.round(255 * tone * even + 3 + grain), 0, 255);
    }
  }
  return grey;
}

function soften(from: Float32Array, width: number): Float32Array {
  const rows = new Float32Array(from.length);
  const to = new Float32Array(from.length);
  for (let i = 0; i < from.length; i++) {
    const x = i % width;
    const here = from[i] ?? 0;
    rows[i] =
      0.5 * here +
      0.25 * (x > 0 ? (from[i - 1] ?? here) : here) +
      0.25 * (x < width - 1 ? (from[i + 1] ?? here) : here);
  }
  for (let i = 0; i < rows.length; i++) {
    const here = rows[i] ?? 0;
    to[i] = 0.5 * here + 0.25 * (rows[i - width] ?? here) + 0.25 * (rows[i + width] ?? here);
  }
  return to;
}
