import type { CaseRecord } from '../record/schema.ts';
import { inPieces, left, namedIn, withoutNames, type Unnamed } from '../report/pages/unnamed.ts';
import { lets, type SeriesView } from './series-view.ts';

/**
 * A text of a case as it leaves: without each kind of name and number that was not asked for, and without dates where days are counted
 * or moved, as one date in a text tells all. Telephone numbers and addresses of mail never leave.
 */
export function leavingText(record: CaseRecord, view: SeriesView): Unnamed {
  const { people, readers, numbers, pictures } = namedIn(record);
  const name = record.animal?.is.name ?? null;
  const out = [
    ...(lets(view, 'names') ? [] : people),
    ...(lets(view, 'readers') ? [] : readers),
    ...(lets(view, 'numbers') ? [] : numbers),
    ...(lets(view, 'pictures') ? [] : pictures),
  ];
  // The animal's own name however short it is.
  const names = [...(lets(view, 'names') || name === null ? [] : [name]), ...inPieces(out)];
  const nameless = withoutNames(
    names.map((one) => one.normalize('NFC')),
    true,
  );
  const keepsDates = lets(view, 'dates') && view.shift === null;
  return (text) => {
    const plain = text.normalize('NFC');
    return nameless(keepsDates ? plain : withoutDates(plain));
  };
}

const monthWords = ['en', 'de'].flatMap((language) =>
  (['long', 'short'] as const).flatMap((month) => {
    const words = new Intl.DateTimeFormat(language, { month, timeZone: 'UTC' });
    return Array.from({ length: 12 }, (_, at) => words.format(new Date(Date.UTC(2026, at, 1))).replace(/\.$/, ''));
  }),
);
const anyMonth = `(?:${[...new Set(monthWords)].toSorted((a, b) => b.length - a.length).join('|')})\\b\\.?`;
const dayNumber = String.raw`\d{1,2}(?:\.|st|nd|rd|th)?`;
const year = String.raw`(?:19|20)\d{2}`;

/** Dates in figures, and a month in English or German with its day or year; with its capital, as `may` is another word. */
const dates = [
  String.raw`${year}-\d{1,2}(?:-\d{1,2})?`,
  String.raw`\d{1,2}[./-]\s?\d{1,2}[./-]\s?(?:${year}|\d{2})`,
  String.raw`\d{2}\.\d{2}\.`,
  String.raw`${dayNumber}\s*(?:of\s+)?${anyMonth}(?:,?\s*${year})?`,
  String.raw`${anyMonth}\s*${dayNumber}(?!\d)(?:,?\s*${year})?`,
  String.raw`${anyMonth},?\s*${year}`,
].map((form) => new RegExp(String.raw`(?<![\p{L}\d])${form}(?![\p{L}\d])`, 'gu'));

const withoutDates = (text: string): string => dates.reduce((all, form) => all.replaceAll(form, left()), text);
