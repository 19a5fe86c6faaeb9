const LONGEST = 120;

/** Marks that turn the direction of writing, or show nothing: within a sentence they make a name look like another one. */
// oxlint-disable-next-line no-control-regex
const unseen = /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/gu;

/** A path or a name as a sentence may tell it: what cannot be seen is a box, and the middle of a very long one is left out. */
export function toldName(written: string): string {
  const letters = Array.from(written.slice(0, 4 * LONGEST));
  const cut = written.length > 4 * LONGEST || letters.length > LONGEST;
  const kept = cut ? [...letters.slice(0, LONGEST - 30), '…', ...Array.from(written.slice(-60)).slice(-29)] : letters;
  return kept.join('').replaceAll(unseen, '\ufffd');
}
