const longest = 60;

/** Control characters, marks that turn the direction of writing, and those that show nothing. */
// oxlint-disable-next-line no-control-regex
const unseen = /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/gu;

/**
 * A value out of a file as a sentence may tell it: what cannot be seen is written as its number (`\x1b`), so that no terminal acts on
 * it, and a long one is cut.
 */
export function toldValue(written: string): string {
  const kept = written.length > longest ? `${written.slice(0, longest)}…` : written;
  return kept.replaceAll(unseen, (mark) => {
    const code = mark.charCodeAt(0).toString(16);
    return code.length > 2 ? `\\u${code.padStart(4, '0')}` : `\\x${code.padStart(2, '0')}`;
  });
}
