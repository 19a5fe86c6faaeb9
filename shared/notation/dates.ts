/** Calendar dates as written, `YYYY-MM-DD` or `YYYY-MM`, without a time zone to trip over. */

/** The years that a case may speak of: there is no radiograph before 1895, and no plan for the century after next. */
export const firstYear = 1900;
export const lastYear = 2199;

export interface DateParts {
  readonly year: number;
  readonly month: number;
  readonly day: number | null;
}

export function readDate(image: string): DateParts | null {
  const match = /^(\d{4})-(\d{2})(?:-(\d{2}))?$/.exec(image);
  if (!match) return null;
  return { year: Number(match[1]), month: Number(match[2]), day: match[3] === undefined ? null : Number(match[3]) };
}

export function daysIn(year: number, month: number): number {
  return [31, isLeap(year) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}

function isLeap(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

export function dateExists({ year, month, day }: DateParts): boolean {
  return year > 0 && month >= 1 && month <= 12 && (day === null || (day >= 1 && day <= daysIn(year, month)));
}

const daysOf400Years = 146_097;

/** Days since 1970-01-01; a date without a day counts from the first of its month. Null where no such date is. */
export function dayNumber(image: string): number | null {
  const parts = readDate(image);
  if (!parts || !dateExists(parts)) return null;
  // Date.UTC reads the years 0 to 99 as those of the twentieth century; the calendar repeats after 400 years.
  return Date.UTC(parts.year + 400, parts.month - 1, parts.day ?? 1) / 86_400_000 - daysOf400Years;
}

/** The date of a day number, `YYYY-MM-DD`. */
export function dateOfDay(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10);
}

/** The first and the last day that a date without a day, or of a year alone, may mean; null where there is no such date. */
export function daysOf(image: string): { readonly first: number; readonly last: number } | null {
  const year = /^\d{4}$/.test(image);
  const [first, month] = year ? [`${image}-01-01`, `${image}-12`] : [image, image];
  const parts = readDate(month);
  const [from, to] = [dayNumber(first), dayNumber(month)];
  if (!parts || from === null || to === null) return null;
  return { first: from, last: parts.day === null ? to + daysIn(parts.year, parts.month) - 1 : to };
}
