import { PERIOD, type Trend } from '../course/course.ts';
import type { GrowOut } from '../course/grow-out.ts';
import { LEVEL } from '../course/theil-sen.ts';
import { saySigned } from '../findings/wording.ts';
import { usualGrowth } from '../reference/growth.ts';
import type { MeasureUnit } from '../measures/measure.ts';

/** What a trend says, in words that need no course in statistics. */

/** `falls by 1.2° in 28 days`; `−0.2° in 28 days, no sure trend` where chance alone does as well too often. */
export function sayTrend({ slope, p, n }: Pick<Trend, 'slope' | 'p' | 'n'>, unit: MeasureUnit): string {
  const rate = sayRate(slope, unit);
  if (p < 0.05 && slope !== 0)
    return `${slope < 0 ? 'falls' : 'rises'} by ${rate.replace(/^[+\u2212]/, '')} in ${PERIOD} days`;
  return `${rate} in ${PERIOD} days, ${n < FEWEST_SURE ? 'too few films to be sure' : 'no sure trend'}`;
}

/** Below five films no order is so seldom by chance that p falls below 0.05. */
const FEWEST_SURE = 5;

/** `between −1.9° and −0.4°`, with how often that holds where it is less than 95 times in 100. */
export function sayInterval({ low, high, level }: Pick<Trend, 'low' | 'high' | 'level'>, unit: MeasureUnit): string {
  const said = `between ${sayRate(low, unit)} and ${sayRate(high, unit)}`;
  return level < LEVEL ? `${said} (holds ${Math.round(level * 100)} times in 100)` : said;
}

/** A slow change keeps its second decimal, or its interval would read as none. */
function sayRate(rate: number, unit: MeasureUnit): string {
  return Math.abs(rate) < 1 && unit !== '1' ? saySigned(rate, unit, 2) : saySigned(rate, unit);
}

/** How often chance alone would bring the films into so clear an order. */
export function sayChance(p: number): string {
  if (p < 0.001) return 'less than 1 in 1,000';
  if (p < 0.01) return `${Math.ceil(p * 1000)} in 1,000`;
  return `${Math.round(p * 100)} in 100`;
}

const byWords: Readonly<Record<GrowOut['by'], string>> = {
  films: '',
  tape: ' This goes by the tape.',
  usual: ` This goes by what is usual, ${usualGrowth.slow.toFixed(2)} to ${usualGrowth.fast} mm a day: this foot has too few films to tell its own.`,
};

export function sayGrowOut({ date, early, late, by }: Pick<GrowOut, 'date' | 'early' | 'late' | 'by'>): string {
  if (date === null) return 'The new wall has not come down: there is no date for it.';
  const from = early === null ? '' : `${early} at the earliest`;
  const to = late === null ? 'perhaps never at the slowest' : `${late} at the latest`;
  return `New wall reaches the ground about ${date}; ${[from, to].filter((part) => part).join(', ')}.${byWords[by]}`;
}
