import type { XY } from '../geometry/vector.ts';
import { landmarks } from '../notation/landmarks.ts';
import { mean, squaresAround } from './mean-squares.ts';
import { meanFoot, placesInFoot, type FilmsRead, type OneReading, type ReadFilm } from './read-films.ts';

/** How well one person places, from films that they have read more than once. */
export interface OwnSpread {
  readonly reader: string;
  /** One standard deviation of a placing along each axis, mm: what `+-` means. */
  readonly mm: number;
  /** Degrees of freedom: two for each placing beyond the first of its film, one where the place lies on the ground line. */
  readonly df: number;
  /** Films that they have read more than once, and the placings on them. */
  readonly films: number;
  readonly placings: number;
}

/** Fewer films tell of these films, and not of the reader; with fewer degrees of freedom the 95 % interval is wider than 0.8 to 1.34 times. */
export const enough = { films: 3, df: 30 } as const;

export const isEnough = ({ films, df }: OwnSpread): boolean => films >= enough.films && df >= enough.df;

/** Pixels to which places are written. What moves by no more lies on a line of the film, such as the ground, and says nothing across it. */
const WRITTEN = 0.1;

/**
 * The spread of each reader who has read a film more than once: the squares of all landmarks about their means on each film, over
 * the degrees of freedom (Bland and Altman 1996), taken along both axes together, as `+-` is the same along both. Placings with a
 * spread of their own are left out: the reader's does not go for them, and a fit to the picture is no work of the hand.
 */
export function ownSpreads({ films }: FilmsRead): readonly OwnSpread[] {
  const readers = new Map<string, (readonly [film: ReadFilm, readings: readonly OneReading[]])[]>();
  for (const film of films)
    for (const [reader, readings] of film.readings)
      if (readings.length > 1) readers.set(reader, [...(readers.get(reader) ?? []), [film, readings]]);
  return [...readers].flatMap(([reader, repeated]) => ownSpread(reader, repeated) ?? []);
}

function ownSpread(
  reader: string,
  repeated: readonly (readonly [film: ReadFilm, readings: readonly OneReading[]])[],
): OwnSpread | null {
  const laid = repeated.flatMap(([film, readings]) => {
    const [places, foot] = [placesInFoot(film, readings), meanFoot(film, readings)];
    return places && foot ? [{ places, scale: foot.scale }] : [];
  });
  let [squares, df, placings] = [0, 0, 0];
  const told = new Set<number>();
  for (const { word } of landmarks) {
    const across = { x: { squares: 0, px: 0 }, y: { squares: 0, px: 0 }, df: 0 };
    laid.forEach(({ places, scale }, film) => {
      const own = unlike(places(word, ({ fitted }) => !fitted.includes(word)));
      if (own.length < 2) return;
      told.add(film);
      placings += own.length;
      across.df += own.length - 1;
      for (const axis of ['x', 'y'] as const) {
        const along = own.map((place) => place[axis]);
        const sum = squaresAround(along, mean(along));
        across[axis].squares += sum;
        across[axis].px += sum / scale ** 2;
      }
    });
    for (const axis of [across.x, across.y]) {
      if (Math.sqrt(axis.px / across.df) <= WRITTEN) continue;
      squares += axis.squares;
      df += across.df;
    }
  }
  return df > 0 ? { reader, mm: Math.sqrt(squares / df), df, films: told.size, placings } : null;
}

/** A place that is an earlier one to the last figure was not placed again. */
const unlike = (places: readonly XY[]): readonly XY[] =>
  places.filter(({ x, y }, at) => !places.slice(0, at).some((one) => one.x === x && one.y === y));
