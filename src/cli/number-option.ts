import { t } from '../../shared/language/words.ts';
import { outside, sayRange } from '../../shared/notation/in-range.ts';
import { bendPlace, cutAmount, interval, measuredValue } from '../../shared/notation/ranges.ts';
import type { Range } from '../../shared/notation/signature.ts';
import { trimRanges } from '../../shared/trim/trim-settings.ts';
import { Unusable, type OptionValue } from './command.ts';

interface NumberOption {
  readonly range: Range;
  readonly example: string;
}

const cut: NumberOption = { range: cutAmount, example: '5.5' };

/** Each as far as the same number may go in a case file: what a plan prints is written there. */
const numbers = {
  heel: cut,
  from: { range: bendPlace, example: '60' },
  toe: cut,
  back: cut,
  inside: cut,
  outside: cut,
  weeks: {
    range: { low: Math.ceil(interval.low / 7), high: Math.floor(interval.high / 7), unit: 'weeks' },
    example: '4',
  },
  sure: { range: trimRanges.sure, example: '90' },
  tolerance: { range: { low: 0.1, high: 20, unit: 'mm' }, example: '1.5' },
  mark: { range: { low: 1, high: 100, unit: 'signs' }, example: '7' },
  seed: { range: { low: 0, high: 999_999_999, unit: '' }, example: '7' },
  times: { range: { low: 1, high: 9, unit: '' }, example: '2' },
  width: { range: { low: 100, high: 10_000, unit: 'pixels' }, example: '1200' },
  'to palmar-angle': { range: measuredValue.angle, example: '5' },
} as const satisfies Readonly<Record<string, NumberOption>>;

/**
 * The number that an option was given, written with digits and at most one point; null where it was not given.
 *
 * @throws Unusable where it is no number or out of its range
 */
export function numberOption(name: keyof typeof numbers, written: OptionValue): number | null {
  if (written === undefined) return null;
  const { range, example } = numbers[name];
  const value = typeof written === 'string' && /^-?\d{1,9}(?:\.\d{1,9})?$/.test(written) ? Number(written) : NaN;
  if (outside(value, range))
    throw new Unusable(
      t(
        '--{0} takes a number from {1}, such as {2}; not {3}',
        name,
        sayRange(range),
        example,
        String(written) || t('nothing'),
      ),
    );
  return value === 0 ? 0 : value;
}
