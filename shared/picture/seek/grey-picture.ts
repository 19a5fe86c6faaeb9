import type { Raster } from '../raster.ts';

/**
 * A picture in which things are looked for: one number a pixel, rows from the top, lighter is more. As in a case file, a whole number
 * is the middle of its pixel: the first pixel goes from -0.5 to 0.5.
 */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly greys: Float32Array;
}

/** Colours weighed as the eye does (ITU-R BT.601). */
export function greyPicture({ width, height, channels, data }: Raster): GreyPicture {
  if (channels === 1) return { width, height, greys: Float32Array.from(data) };
  const greys = new Float32Array(width * height);
  for (let at = 0; at < greys.length; at++) {
    const [red, green, blue] = [data[3 * at] ?? 0, data[3 * at + 1] ?? 0, data[3 * at + 2] ?? 0];
    greys[at] = 0.299 * red + 0.587 * green + 0.114 * blue;
  }
  return { width, height, greys };
}

/** The grey between pixels, from the four around (bilinear). Beyond the rim the rim goes on. */
export function greyAt({ width, height, greys }: GreyPicture, x: number, y: number): number {
  const inX = x < 0 ? 0 : x > width - 1 ? width - 1 : x;
  const inY = y < 0 ? 0 : y > height - 1 ? height - 1 : y;
  const column = Math.min(Math.floor(inX), Math.max(width - 2, 0));
  const row = Math.min(Math.floor(inY), Math.max(height - 2, 0));
  const right = inX - column;
  const down = inY - row;
  const at = row * width + column;
  const beside = width > 1 ? 1 : 0;
  const below = height > 1 ? width : 0;
  const upper = (greys[at] ?? 0) * (1 - right) + (greys[at + beside] ?? 0) * right;
  const lower = (greys[at + below] ?? 0) * (1 - right) + (greys[at + below + beside] ?? 0) * right;
  return upper * (1 - down) + lower * down;
}
