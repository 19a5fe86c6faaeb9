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
 *  6. A scale, magnification taken off, by which no equid could have the foot is none either. The first of these that is
 *     placed, with some way between its ends, is asked alone: the bone, the foot on the ground; with none of them, the
 *     farthest two of all landmarks.
 */

import { inMillimetres, pixelsBetween, scaleOf, type Film, type Point, type Scale, type Segment } from './lateral.ts';
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

export function isScale(scale: Scale): boolean {
  if (scale.form === 'stated') return isPixel(scale.mmPerPx);
  const mm = inMillimetres(scale.length, scale.unit);
  const { a, b } = scale.ends;
  return within(mm, 1, 1000) && isLine(scale.ends) && isPixel(mm / Math.hypot(b.x - a.x, b.y - a.y));
}

/** Names say the view: no two views share one. */
const FEET = [
  ['p3.tip', 'p3.wing', 20, 130],
  ['heel.ground', 'toe.ground', 30, 300],
  ['p3.medial', 'p3.lateral', 20, 160],
  ['wall.medial', 'wall.lateral', 25, 300],
  ['toe', 'heel.medial', 25, 300],
  ['toe', 'heel.lateral', 25, 300],
] as const;
const FARTHEST = 600;
const LEAST_OF_THREE = 5;

function isFoot(film: Film): boolean {
  const mmPerPx = scaleOf(film);
  if (mmPerPx === undefined) return true;
  for (const [from, to, least, most] of FEET) {
    const pixels = pixelsBetween(film, from, to) ?? 0;
    if (pixels > 0) return within(pixels * mmPerPx, least, most);
  }
  const apart = film.landmarks.flatMap((one) => film.landmarks.map((two) => Math.hypot(one.x - two.x, one.y - two.y)));
  const farthest = Math.max(0, ...apart) * mmPerPx;
  return farthest === 0 || within(farthest, film.landmarks.length > 2 ? LEAST_OF_THREE : 0, FARTHEST);
}

/** What is left of a film once the lines that count for nothing are gone. */
export function countedFilm(film: Film): Film {
  const { scale, ...others } = written(film);
  return scale && isFoot({ ...others, scale }) ? { ...others, scale } : others;
}

function written({ landmarks, ground, bearing, shod, scale, magnify, readerSpread }: Film): Film {
  return {
    landmarks: landmarks.filter((landmark) => isPlace(landmark) && isSpread(landmark.spread ?? 0)),
    ...(ground && isLine(ground) && { ground }),
    ...(bearing && isLine(bearing) && { bearing }),
    ...(shod && { shod }),
    ...(scale && isScale(scale) && { scale }),
    ...(magnify !== undefined && within(magnify, 0.5, 2) && { magnify }),
    ...(readerSpread !== undefined && isSpread(readerSpread) && { readerSpread }),
  };
}

export function countedCut({ heelDown, heelFrom, toeDown, toeBack }: Cut): Cut {
  const counted = (mm: number): number => (isCut(mm) ? mm : 0);
  // Both numbers stand in one line.
  if (heelFrom !== undefined)
    return isCut(heelDown) && within(heelFrom, 1, 300)
      ? { heelDown, heelFrom, toeDown: counted(toeDown), toeBack: counted(toeBack) }
      : { heelDown: 0, toeDown: counted(toeDown), toeBack: counted(toeBack) };
  return { heelDown: counted(heelDown), toeDown: counted(toeDown), toeBack: counted(toeBack) };
}

/** Height at the withers, mm. */
export const isHeight = (mm: number): boolean => within(mm, 500, 2200);
