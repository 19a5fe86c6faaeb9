import { dateOfDay } from '../notation/dates.ts';
import type { Animal } from '../record/schema.ts';
import type { Extra } from './columns.ts';
import type { SaidText, TextKind } from './texts.ts';

/** How a case is to be seen in a series. */
export interface SeriesView {
  /** The study code that it goes under, as `codePattern` wants it. */
  readonly code: string;
  readonly sharing: Exclude<Animal['sharing'], 'private'>;
  readonly asked: ReadonlySet<Extra>;
  /** The code of a reader by the name, null for who gave none; as `readerPattern` wants it. */
  readonly readerCode: (name: string | null) => string;
  /** By how many whole days the dates of this case are moved; null where those that were asked for leave as they are. */
  readonly shift: number | null;
}

/** What names an animal leaves of open cases only: a series has its cases under their codes. */
const openOnly: ReadonlySet<Extra> = new Set(['names', 'numbers', 'pictures']);

/** Whether something that was asked for leaves with this case. */
export const lets = ({ asked, sharing }: SeriesView, extra: Extra): boolean =>
  asked.has(extra) && (sharing === 'open' || !openOnly.has(extra));

/** The dates that have a column of their own, where they were asked for. */
const datesWithColumn: ReadonlySet<string> = new Set(['visit', 'taken', 'foaled', 'onset']);

const extraOf: Readonly<Partial<Record<TextKind, Extra>>> = {
  name: 'names',
  person: 'names',
  reader: 'readers',
  number: 'numbers',
  picture: 'pictures',
  text: 'texts',
};

/** Whether what a case says leaves with it, as it is said. */
export function leaves({ kind, word }: Pick<SaidText, 'kind' | 'word'>, view: SeriesView): boolean {
  if (kind === 'date') return lets(view, 'dates') && view.shift === null && datesWithColumn.has(word);
  const extra = extraOf[kind];
  return extra !== undefined && lets(view, extra);
}

/** The date of a day as it leaves; null where none was asked for. @param day as `dayNumber` counts */
export const dateFor = (day: number | null, view: SeriesView): string | null =>
  day === null || !lets(view, 'dates') ? null : dateOfDay(day + (view.shift ?? 0));
