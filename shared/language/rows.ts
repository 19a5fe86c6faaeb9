import { inLanguage } from './words.ts';

/**
 * Rows of a table whose words are said to people: measures, landmarks, rules. A row is written in plain English; its words are
 * looked up each time that they are read, as the table of a language comes only when the process begins.
 */

/** All rows that say something, with the fields that do; `npm run docs` gathers their English. */
const named: { readonly rows: readonly object[]; readonly fields: readonly string[] }[] = [];

/** The same rows; whoever reads one of the fields gets it in the language of the process. A row may lack a field. */
export function spokenRows<const Rows extends readonly object[]>(rows: Rows, ...fields: readonly string[]): Rows {
  for (const row of rows) for (const field of fields) speak(row, field);
  named.push({ rows, fields });
  return rows;
}

/** A table from a key to words, or a list of words: all that it holds is said. */
export function spoken<Words extends Readonly<Record<string, string>> | readonly string[]>(words: Words): Words {
  spokenRows([words], ...Object.keys(words));
  return words;
}

/** The words of every row so far, each once. English only while no table is set. */
export function wordsOfRows(): string[] {
  const words = named.flatMap(({ rows, fields }) =>
    rows.flatMap((row) => fields.map((field) => (row as Record<string, unknown>)[field])),
  );
  return [...new Set(words)].filter((word) => typeof word === 'string').filter((word) => word !== '');
}

function speak(row: object, field: string): void {
  // A row may stand in several lists, and is looked up in one of them.
  const english = Object.getOwnPropertyDescriptor(row, field)?.value as unknown;
  if (typeof english !== 'string') return;
  Object.defineProperty(row, field, { get: () => inLanguage(english), enumerable: true, configurable: true });
}
