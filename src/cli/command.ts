import { t } from '../../shared/language/words.ts';
import type { ParseArgsConfig } from 'node:util';

export interface Io {
  /** What the command answers; of texts that others wrote it holds only what may be shown. */
  out(text: string): void;
  /** One line, without its end. */
  err(line: string): void;
  /** Whether the answer goes to a person's terminal and not into a pipe or a file. */
  readonly terminal?: boolean;
  /** Shows how far the work is, in place of what it showed before; nothing where it is empty. Absent where nobody watches. */
  progress?(words: string): void;
}

/**
 * The status with which the program ends: 0 good; 1 an error-level finding, a cut that breaks a limit, a file to lay out;
 * 2 unusable arguments, an unreadable file, an output that cannot be written.
 */
export type Status = 0 | 1 | 2;

/** Arguments nobody can act on; the message says what would be right. */
export class Unusable extends Error {}

/** As parsed; an array for an option that may be repeated. */
export type OptionValue = string | boolean | readonly string[] | undefined;

export interface Command {
  readonly name: string;
  readonly usage: string;
  readonly doc: string;
  /** False where it works on no file; the others want at least one. */
  readonly takesFiles?: false;
  readonly options: NonNullable<ParseArgsConfig['options']>;
  run(files: readonly string[], options: Readonly<Record<string, OptionValue>>, io: Io): Promise<Status>;
  /** What `--format json` prints where nothing could be done: the same shape as ever, with nothing in it. */
  emptyJson?(files: readonly string[], problem: string): unknown;
  /** The same for `--format sarif`. */
  emptySarif?(problem: string): unknown;
}

export function oneOf<T extends string>(option: string, value: OptionValue, allowed: readonly T[]): T {
  const [usual] = allowed;
  if (value === undefined && usual !== undefined) return usual;
  const found = allowed.find((one) => one === value);
  if (found === undefined) throw new Unusable(t('--{0} takes {1}; not {2}', option, allowed.join(', '), String(value)));
  return found;
}
