/**
 * The one place through which every sentence of the extension and of its page goes. The English stands in the code and is the
 * key, as is the custom in the editor; a translation is a table from it (`l10n/bundle.l10n.<language>.json`). Pure: the extension is
 * given the table by the editor, the page by the extension.
 */
export type WordTable = Readonly<Record<string, string>>;

let table: WordTable = {};

/** From now on; what is missing in the table stays English. */
export function useWords(words: WordTable | undefined): void {
  table = words ?? {};
}

/** The sentence in the language of the editor; `{0}` is the first of the values. */
export function t(english: string, ...values: readonly (string | number)[]): string {
  const sentence = Object.hasOwn(table, english) ? (table[english] ?? english) : english;
  // In one go, so that braces within a value stay what they are.
  return sentence.replaceAll(/\{(\d+)\}/g, (whole, at: string) => String(values[Number(at)] ?? whole));
}
