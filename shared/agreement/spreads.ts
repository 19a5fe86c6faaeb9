import { SURELY } from '../course/change.ts';
import { deviationInterval, type Interval } from './interval.ts';
import { mean, squaresAround, type MeanSquares } from './mean-squares.ts';

/** Standard deviations in the unit of the measure, by the variances that the mean squares are made of; 0 for one below 0. */
export interface Spreads {
  /** Of the films' own values. */
  readonly films: number;
  /** Between readers, the same on all films. */
  readonly readers: number;
  /** What is left over: one reader on one film. */
  readonly rest: number;
  /** Of one reading by any reader: the two before this together (de Vet et al. 2006, SEM for agreement). */
  readonly sem: number;
  /** Of one reading by a reader who is always the same one: `rest` (the same paper, SEM for consistency). */
  readonly semSameReader: number;
  /** Two single readings of a foot that did not change differ by less in 95 of 100: 1.96 √2 SEM. */
  readonly smallestChange: number;
  readonly smallestChangeSameReader: number;
}

/** How far two single readings of an unchanged foot lie apart in 95 of 100, from the error of one. */
export const smallestChange = (sem: number): number => SURELY * Math.SQRT2 * sem;

export function spreadsOf({ n, k, films, readers, rest }: MeanSquares): Spreads {
  const ofReaders = Math.max(0, (readers - rest) / n);
  const sem = Math.sqrt(ofReaders + rest);
  const semSameReader = Math.sqrt(rest);
  return {
    films: Math.sqrt(Math.max(0, (films - rest) / k)),
    readers: Math.sqrt(ofReaders),
    rest: semSameReader,
    sem,
    semSameReader,
    smallestChange: smallestChange(sem),
    smallestChangeSameReader: smallestChange(semSameReader),
  };
}

/** A standard deviation that was seen within films. */
export interface WithinFilms {
  readonly sd: number;
  readonly df: number;
  /** Null where all are the same. */
  readonly interval: Interval | null;
  /** How many films and readings it is taken from. */
  readonly films: number;
  readonly readings: number;
}

/**
 * How far readings of one film lie apart, over films that may have different numbers of them: the root of the mean square within
 * films of a one-way analysis of variance (Bland and Altman 1996).
 *
 * @returns null where no film has two
 */
export function withinFilms(films: readonly (readonly number[])[]): WithinFilms | null {
  const repeated = films.filter((values) => values.length > 1);
  if (repeated.length === 0) return null;
  const squares = repeated.reduce((sum, values) => sum + squaresAround(values, mean(values)), 0);
  const readings = repeated.reduce((sum, values) => sum + values.length, 0);
  const df = readings - repeated.length;
  const sd = Math.sqrt(squares / df);
  return { sd, df, interval: sd > 0 ? deviationInterval(sd, df) : null, films: repeated.length, readings };
}
