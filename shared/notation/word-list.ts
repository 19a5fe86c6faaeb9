import { t } from '../language/words.ts';

/** `a, b and c`, or `a, b or c`. */
export function wordList(words: readonly string[], joiner: 'and' | 'or' = 'and'): string {
  const last = words.at(-1) ?? '';
  if (words.length < 2) return last;
  const others = words.slice(0, -1).join(', ');
  return joiner === 'and' ? t('{0} and {1}', others, last) : t('{0} or {1}', others, last);
}
