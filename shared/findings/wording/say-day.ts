import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import { dateOfDay, dayNumber } from '../../notation/dates.ts';

const months = spoken([
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]);

/** `20 April 2026`, as a date is said aloud. */
export function sayDay(day: number): string {
  const [year = '', month = '', date = ''] = dateOfDay(day).split('-');
  return t('{0} {1} {2}', Number(date), months[Number(month) - 1] ?? '', year);
}

/** The same of a date as written; one that is no date as it stands. */
export function sayDate(date: string): string {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(date) ? dayNumber(date) : null;
  return day === null ? date : sayDay(day);
}

/** `mid-December 2026`: as much as can be said of a day that is reckoned ahead. Of a date as written. */
export function sayPartOfMonth(date: string): string {
  const [year = '', month = '', day = ''] = date.split('-');
  const words = `${months[Number(month) - 1] ?? ''} ${year}`;
  return Number(day) <= 10 ? t('early {0}', words) : Number(day) <= 20 ? t('mid-{0}', words) : t('late {0}', words);
}
