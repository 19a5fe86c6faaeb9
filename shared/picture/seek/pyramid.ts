import { greyAt, type GreyPicture } from './grey-picture.ts';

/** A picture and what is left of it each time that four pixels are made into one; the first is the picture itself. */
export type Pyramid = readonly [GreyPicture, ...GreyPicture[]];

/** Smaller ones hold nothing that could be found. */
const SMALLEST = 16;

/** @param levels at most so many pictures, the first included */
export function pyramidOf(picture: GreyPicture, levels = 5): Pyramid {
  const all: [GreyPicture, ...GreyPicture[]] = [picture];
  let last = picture;
  while (all.length < levels && Math.min(last.width, last.height) >= 2 * SMALLEST) {
    last = halved(last);
    all.push(last);
  }
  return all;
}

/** Each pixel the mean of four; a last row or column without a partner is left out. */
export function halved({ width, height, greys }: GreyPicture): GreyPicture {
  const half = { width: Math.floor(width / 2), height: Math.floor(height / 2) };
  const made = new Float32Array(half.width * half.height);
  for (let row = 0; row < half.height; row++)
    for (let column = 0; column < half.width; column++) {
      const at = 2 * row * width + 2 * column;
      const upper = (greys[at] ?? 0) + (greys[at + 1] ?? 0);
      const lower = (greys[at + width] ?? 0) + (greys[at + width + 1] ?? 0);
      made[row * half.width + column] = (upper + lower) / 4;
    }
  return { ...half, greys: made };
}

/** The picture whose pixels are just not larger than `step` pixels of the first. */
export function levelFor(pyramid: Pyramid, step: number): number {
  return Math.max(0, Math.min(pyramid.length - 1, Math.floor(Math.log2(Math.max(step, 1)) + 1e-9)));
}

/** The grey at a place of the first picture, as another level has it. */
export function greyOfLevel(pyramid: Pyramid, level: number, x: number, y: number): number {
  const size = 2 ** level;
  // Pixel 0 of the level covers the first `size` pixels, whose middle lies at (size - 1) / 2.
  return greyAt(pyramid[level] ?? pyramid[0], (x + 0.5) / size - 0.5, (y + 0.5) / size - 0.5);
}
