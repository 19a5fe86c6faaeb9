import { Unusable, type OptionValue } from './command.ts';

interface Range {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly example: string;
}

const cut: Range = { low: 0, high: 60, unit: ' mm', example: '5.5' };

/** What each number may be; a cut as in the notation. */
const ranges = {
  heel: cut,
  toe: cut,
  back: cut,
  weeks: { low: 1, high: 52, unit: '', example: '4' },
  'to palmar-angle': { low: -90, high: 90, unit: '°', example: '5' },
} as const satisfies Readonly<Record<string, Range>>;

/**
 * The number that an option was given, written with digits and at most one point; null where it was not given.
 *
 * @throws Unusable where it is no number or out of its range
 */
export function numberOption(name: keyof typeof ranges, written: OptionValue): number | null {
  if (written === undefined) return null;
  const { low, high, unit, example } = ranges[name];
  const value = typeof written === 'string' && /^-?\d{1,9}(?:\.\d{1,9})?$/.test(written) ? Number(written) : NaN;
  if (!(value >= low && value <= high))
    throw new Unusable(
      `--${name} takes a number from ${low} to ${high}${unit}, such as ${example}; not ${String(written) || 'nothing'}`,
    );
  return value === 0 ? 0 : value;
}
