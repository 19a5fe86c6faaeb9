import { finite, fQuantile, type Interval } from './interval.ts';
import type { MeanSquares } from './mean-squares.ts';

/** An intraclass correlation: which part of the spread of single readings comes from the films. Below 0 where none does. */
export interface Intraclass {
  readonly value: number;
  /** Null where nothing is left over, so that there is no error to make one of. */
  readonly interval: Interval | null;
}

/** Of a spread that is no more than rounding nothing can be said. */
const isNothing = (spread: number, { films, readers, rest }: MeanSquares): boolean =>
  !(spread > 1e-12 * Math.max(films, readers, rest));

/**
 * ICC(2,1) of Shrout and Fleiss (1979), ICC(A,1) of McGraw and Wong (1996): any reader's value in place of any other's, so that a
 * reader who reads all films higher counts against it.
 *
 * @returns null where all values are the same
 */
export function absoluteAgreement(squares: MeanSquares): Intraclass | null {
  const { n, k, films, readers, rest } = squares;
  const all = films + (k - 1) * rest + (k * (readers - rest)) / n;
  if (isNothing(all, squares)) return null;
  const value = (films - rest) / all;
  if (isNothing(rest, squares)) return { value, interval: null };
  // Satterthwaite's degrees of freedom of readers and rest together (Fleiss and Shrout 1978), as both papers have them.
  const f = readers / rest;
  const ofFilms = n * (1 + (k - 1) * value) - k * value;
  const ofReaders = k * value * f;
  const df = ((k - 1) * (n - 1) * (ofReaders + ofFilms) ** 2) / ((n - 1) * ofReaders * ofReaders + ofFilms * ofFilms);
  const others = k * readers + (k * n - k - n) * rest;
  const below = fQuantile(n - 1, df);
  const above = fQuantile(df, n - 1);
  return {
    value,
    interval: finite({
      low: (n * (films - below * rest)) / (below * others + n * films),
      high: (n * (above * films - rest)) / (others + n * above * films),
    }),
  };
}

/**
 * ICC(3,1) of Shrout and Fleiss (1979), ICC(C,1) of McGraw and Wong (1996): these readers alone, and how each of them lies on the
 * whole is left out of it.
 *
 * @returns null where all values are the same
 */
export function consistency(squares: MeanSquares): Intraclass | null {
  const { n, k, films, rest } = squares;
  const all = films + (k - 1) * rest;
  if (isNothing(all, squares)) return null;
  const value = (films - rest) / all;
  if (isNothing(rest, squares)) return { value, interval: null };
  const f = films / rest;
  const df = (n - 1) * (k - 1);
  const low = f / fQuantile(n - 1, df);
  const high = f * fQuantile(df, n - 1);
  return { value, interval: finite({ low: (low - 1) / (low + k - 1), high: (high - 1) / (high + k - 1) }) };
}
