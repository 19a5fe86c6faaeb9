/**
 * How well a word that somebody types fits a name, from 0 to 1; null where its letters do not stand in the name in this
 * order. A whole name is best, then its beginning, the beginning of one of its words, a piece of it, letters apart.
 */
export function fit(word: string, name: string): number | null {
  const typed = word.toLowerCase();
  const shown = name.toLowerCase();
  if (shown === typed) return 1;
  const at = shown.indexOf(typed);
  // Of two that fit alike, the one is meant of which more has been typed.
  const share = typed.length / Math.max(1, shown.length);
  if (at === 0) return 0.8 + 0.1 * share;
  if (at > 0) return (startsAWord(shown, typed) ? 0.6 : 0.4) + 0.1 * share;
  const run = stretchOf(typed, shown);
  return run === null ? null : 0.3 * (typed.length / run);
}

function startsAWord(shown: string, typed: string): boolean {
  for (let at = shown.indexOf(typed); at >= 0; at = shown.indexOf(typed, at + 1))
    if (!/[\p{L}\d]/u.test(shown[at - 1] ?? ' ')) return true;
  return false;
}

/** Over how many letters of the name the typed ones spread from their first place on. */
function stretchOf(typed: string, shown: string): number | null {
  let from = -1;
  let at = -1;
  for (const letter of typed) {
    at = shown.indexOf(letter, at + 1);
    if (at < 0) return null;
    if (from < 0) from = at;
  }
  return at - from + 1;
}
