import { figures, writeFiguresIn } from './figures.ts';

/**
 * The one place through which everything passes that is said to a person. The English stands in the code and is the key; a
 * translation is a table from it (`l10n/bundle.l10n.<language>.json`). Pure: each process is given its table once, when it
 * starts, and says everything in that language until it ends, as what it has said of a text is remembered.
 */
export type WordTable = Readonly<Record<string, string>>;

/** What a template may hold. */
type Spoken = string | number | bigint | null | undefined;

let table: WordTable | null = null;
let named = 'en';

/**
 * From now on; what is missing in the table stays English.
 *
 * @param language of the table, as HTML names it; where nobody says, the table's own word for `en` does
 */
export function useWords(words: WordTable | undefined, language?: string): void {
  table = words ?? null;
  named = language ?? t('en');
  writeFiguresIn(named);
}

/** As HTML names it; `en` where no other was named. */
export function languageInUse(): string {
  return named;
}

/** The table of this process, for a thread that it starts; absent where it speaks English. */
export function wordsInUse(): WordTable | undefined {
  return table ?? undefined;
}

/** The sentence in the language of the process; `{0}` is the first of the values. Numbers are written as the language does. */
export function t(english: string, ...values: readonly Spoken[]): string {
  return filled(inLanguage(english), values);
}

/**
 * A sentence that counts: one of two, by how many there are.
 *
 * @param n how many; `{0}` in both sentences, and `values` from `{1}` on
 */
export function counted(n: number, one: string, many: string, ...values: readonly Spoken[]): string {
  return filled(inLanguage(n === 1 ? one : many), [n, ...values]);
}

/** A sentence of the code as the table has it, its places for values still open. */
export function inLanguage(english: string): string {
  return table !== null && Object.hasOwn(table, english) ? (table[english] ?? english) : english;
}

/** In one go, so that braces within a value stay what they are. A number without a value stays as it is written. */
function filled(sentence: string, values: readonly Spoken[]): string {
  if (values.length === 0) return sentence;
  let done = '';
  let from = 0;
  for (let open = sentence.indexOf('{'); open >= 0; open = sentence.indexOf('{', open + 1)) {
    const close = sentence.indexOf('}', open);
    const place = close < 0 ? -1 : placeIn(sentence, open + 1, close);
    if (place < 0 || place >= values.length) continue;
    const value = values[place];
    done += sentence.slice(from, open) + (typeof value === 'number' ? figures(value) : String(value));
    from = close + 1;
  }
  return done + sentence.slice(from);
}

/** The number that stands from `start` to `end`, of one digit or two; -1 where there is none. */
function placeIn(sentence: string, start: number, end: number): number {
  const digits = sentence.slice(start, end);
  return /^\d\d?$/.test(digits) ? Number(digits) : -1;
}
