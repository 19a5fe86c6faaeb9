import { languageInUse, t } from '../../language/words.ts';
import type { CaseRecord } from '../../record/schema.ts';

/**
 * What identifies people and places in a case. A page that is handed over leaves it out unless it is asked for: the names that stand
 * in lines of their own, numbers of the animal, and telephone numbers and addresses of mail in any text.
 */
export type Unnamed = (text: string) => string;

/** Digits with what people write between them, seven at least; a date is none. */
const telephone = /(?<![\p{L}\d.,-])(?:\+|\(\+?)?\d[\d ()/.\u00a0-]{5,30}\d(?![\p{L}\d-])/gu;
const mail = /[\p{L}\d._%+-]{1,64}@[\p{L}\d-]{1,64}(?:\.[\p{L}\d-]+)+/gu;
const isDate = /^\d{4}-\d{2}(?:-\d{2})?$/;
const leastDigits = 7;

/** `keeps`: all of it was asked for; `also`: further names that are to be left out. */
export function unnamed(record: CaseRecord, keeps: boolean, also: readonly string[] = []): Unnamed {
  return keeps ? upright : withoutNames([...also, ...namesIn(record)]);
}

/**
 * Leaves out these names, telephone numbers and addresses of mail. `inAnyLetters`: a name in other letters, capital or small, is that
 * name too.
 */
export function withoutNames(names: readonly string[], inAnyLetters = false): Unnamed {
  const known =
    names.length === 0
      ? null
      : new RegExp(
          `(?<![\\p{L}\\d])(?:${names.map((name) => name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')})(?![\\p{L}\\d])`,
          inAnyLetters ? 'giu' : 'gu',
        );
  return (text) => {
    const plain = upright(text)
      .replaceAll(mail, left())
      .replaceAll(telephone, (found) => (isNumber(found) ? left() : found));
    return known ? plain.replaceAll(known, left()) : plain;
  };
}

/** Marks that turn the reading of all that follows, so that a text of the case could make a sentence of ours read otherwise. */
const turning = /[\u202a-\u202e\u2066-\u2069]/g;
const upright = (text: string): string => text.replaceAll(turning, '');

/** What stands where something was left out. */
export const left = (): string => t('[left out]');

/** As a date is shown in other languages than English: `04.03.2026`. */
const shownDates = /(?<!\d)(?:0[1-9]|[12]\d|3[01])[./](?:0[1-9]|1[0-2])[./](?:19|20)\d{2}(?!\d)/g;

function isNumber(found: string): boolean {
  const others = languageInUse() === 'en' ? found : found.replaceAll(shownDates, '');
  return !isDate.test(found.trim()) && others.replaceAll(/\D/g, '').length >= leastDigits;
}

/** Shorter pieces are words of any text. */
const leastName = 3;

function namesIn(record: CaseRecord): string[] {
  const { people, readers, numbers, pictures } = namedIn(record);
  return inPieces([...numbers, ...people, ...readers, ...pictures]);
}

/** Who and what is named in lines of their own, by what it is. */
export function namedIn({ animal, visits }: CaseRecord) {
  const said = (texts: readonly (string | null | undefined)[]) => texts.filter((text) => typeof text === 'string');
  return {
    people: said([
      animal?.is.farrier?.text,
      ...(animal?.is.vet ?? []).map(({ text }) => text),
      ...visits.flatMap(({ is }) => [is.by?.text, is.farrier?.text]),
    ]),
    readers: said(visits.flatMap(({ is }) => is.films.flatMap(({ readings }) => readings.map(({ reader }) => reader)))),
    numbers: said([animal?.is.microchip, animal?.is.ueln]),
    pictures: visits.flatMap(({ is }) => [...is.films, ...is.pictures].map(({ path }) => path.text)),
  };
}

/** The longest first, and without what is too short to name anybody. */
export function inPieces(whole: readonly string[]): string[] {
  // `Dr. A. Example, Practice at the Ford` names two.
  const pieces = whole.flatMap((text) => [text, ...text.split(/[,;]/)]).map((text) => text.trim());
  return [...new Set(pieces)].filter((text) => text.length >= leastName).toSorted((a, b) => b.length - a.length);
}

/** The first telephone number that a line of the case's vet gives; null where it gives none. */
export function vetNumber({ animal }: CaseRecord): string | null {
  for (const { text } of animal?.is.vet ?? [])
    for (const [found] of text.matchAll(telephone)) if (isNumber(found)) return found.trim();
  return null;
}

/** Who is named in a case and by which numbers, for a page that was asked to say so. */
export function whoIsNamed({ animal, visits }: CaseRecord): string[] {
  const by = new Set(visits.flatMap(({ is }) => is.by?.text ?? []));
  const farriers = new Set(
    [animal?.is.farrier, ...visits.map(({ is }) => is.farrier)].flatMap((one) => one?.text ?? []),
  );
  return [
    ...(animal?.is.microchip ? [t('Microchip {0}', animal.is.microchip)] : []),
    ...(animal?.is.ueln ? [t('UELN {0}', animal.is.ueln)] : []),
    ...(animal?.is.vet ?? []).map(({ text }) => t('Vet: {0}', text)),
    ...[...farriers].map((text) => t('Farrier: {0}', text)),
    ...[...by].map((text) => t('Written by {0}', text)),
  ];
}
