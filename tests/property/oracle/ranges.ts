/**
 * How far a number of a case file may go before its line counts for nothing, told apart from the product: the oracle's own
 * figures, and its own reading of what falls away with a line.
 *
 * Reading of the text, where the definition leaves room:
 *  1. A landmark with a coordinate or a spread out of its range is not placed; one without its spread would be another.
 *  2. A ground line or a marker with one coordinate out of its range is not there.
 *  3. A marker is no scale either where its length and its two ends come to a pixel out of the range of pixels.
 *  4. The range of a pixel is that of the scale as it is written or stated, before `magnify` divides it.
 *  5. A reader whose spread is out of its range is still a reader, with none.
 */

import { inMillimetres, type Film, type Point, type Scale, type Segment } from './lateral.ts';
import type { Cut } from './trim.ts';

const within = (value: number, lowest: number, highest: number): boolean => lowest <= value && value <= highest;

const MOST_PIXELS = 100_000;
const isPlace = ({ x, y }: Point): boolean => Math.max(Math.abs(x), Math.abs(y)) <= MOST_PIXELS;
const isSpread = (pixels: number): boolean => within(pixels, 0, 500);
const isPixel = (mm: number): boolean => within(mm, 0.005, 5);
const isCut = (mm: number): boolean => within(mm, 0, 60);

function isLine({ a, b }: Segment): boolean {
  return isPlace(a) && isPlace(b) && !(a.x === b.x && a.y === b.y);
}

function isScale(scale: Scale): boolean {
  if (scale.form === 'stated') return isPixel(scale.mmPerPx);
  const mm = inMillimetres(scale.length, scale.unit);
  const { a, b } = scale.ends;
  return within(mm, 1, 1000) && isLine(scale.ends) && isPixel(mm / Math.hypot(b.x - a.x, b.y - a.y));
}

/** What is left of a film once the lines that count for nothing are gone. */
export function countedFilm({ landmarks, ground, scale, magnify, readerSpread }: Film): Film {
  return {
    landmarks: landmarks.filter((landmark) => isPlace(landmark) && isSpread(landmark.spread ?? 0)),
    ...(ground && isLine(ground) && { ground }),
    ...(scale && isScale(scale) && { scale }),
    ...(magnify !== undefined && within(magnify, 0.5, 2) && { magnify }),
    ...(readerSpread !== undefined && isSpread(readerSpread) && { readerSpread }),
  };
}

export function countedCut({ heelDown, toeDown, toeBack }: Cut): Cut {
  const counted = (mm: number): number => (isCut(mm) ? mm : 0);
  return { heelDown: counted(heelDown), toeDown: counted(toeDown), toeBack: counted(toeBack) };
}

/** Height at the withers, mm. */
export const isHeight = (mm: number): boolean => within(mm, 500, 2200);
