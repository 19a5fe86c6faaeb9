import { createHmac, randomBytes, scryptSync } from 'node:crypto';
import { t } from '../../../shared/language/words.ts';
import { readText } from '../case-files.ts';
import { Unusable, type OptionValue } from '../command.ts';
import { reason } from '../problem.ts';

/**
 * What codes of readers and shifts of dates are derived from: the same seed gives the same, whatever file or shard comes first. A digest
 * without a secret could be guessed back from a list of names.
 */
export interface Seed {
  /** `R0` for who gave no name. */
  readerCode(name: string | null): string;
  /** By how many days the dates of a case are moved: up to a year either way, never not at all. */
  shiftOf(code: string): number;
  /** By which two shards know that they had the same seed. */
  readonly check: string;
}

const shortest = 12;
const mostDays = 365;

/** @throws Unusable where the option gives too short a seed, or names a file that cannot be read */
export async function seedOf(option: OptionValue, named: string): Promise<Seed> {
  if (option === undefined) return seedFrom(randomBytes(32).toString('hex'));
  const given = typeof option === 'string' ? option : '';
  const text = given.startsWith('@') ? await inFile(given.slice(1)) : given;
  if (text.length < shortest)
    throw new Unusable(
      t(
        '{0} takes a seed of {1} characters or more, kept with the series, or @FILE for one that stands in a file',
        named,
        shortest,
      ),
    );
  return seedFrom(text);
}

async function inFile(path: string): Promise<string> {
  try {
    return (await readText(path)).trim();
  } catch (error) {
    throw new Unusable(`${path}: ${reason(error)}`);
  }
}

export function seedFrom(text: string): Seed {
  // Slow on purpose (RFC 7914), as who has the package might try seeds.
  const key = scryptSync(text.normalize('NFC'), 'ungula case series', 32);
  const digest = (...parts: readonly string[]): Buffer =>
    createHmac('sha256', key).update(JSON.stringify(parts)).digest();
  const known = new Map<string, string>();
  return {
    check: digest('check').toString('hex').slice(0, 16),
    readerCode(written) {
      // Two systems may write one umlaut in two ways.
      const name = written === null ? '' : written.normalize('NFC').trim();
      if (name === '') return 'R0';
      let code = known.get(name);
      if (code === undefined) known.set(name, (code = `R${digest('reader', name).toString('hex').slice(0, 10)}`));
      return code;
    },
    shiftOf(code) {
      const days = (digest('shift', code.toLowerCase()).readUInt32BE() % (2 * mostDays)) - mostDays;
      return days === 0 ? mostDays : days;
    },
  };
}
