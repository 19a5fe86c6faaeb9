import type { Value } from '../../measures/take.ts';
import type { StudiedReading } from '../../trim/study.ts';
import type { Passed } from '../limits/limits.ts';

/** A value of a film that lies beyond a line, and how grave that is. */
export interface Beyond extends Passed {
  readonly value: Value;
  /** Whose value it is: of several readers the one whose value is told most gravely. */
  readonly reading: StudiedReading;
  /** Whether readers repeat the measure badly. */
  readonly weak: boolean;
  /** What the other readers of the film found; null where there is one. */
  readonly others: {
    readonly disagree: boolean;
    readonly found: readonly (readonly [reader: string, value: string])[];
  } | null;
  /** What else is to be said of it, a sentence each. */
  readonly also: readonly string[];
  /** What the line says stands for it: sound feet lie beyond it too, so that "below" would say too much. */
  readonly plain?: true;
}
