/** `a, b and c`. */
export function wordList(words: readonly string[], joiner = 'and'): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${joiner} ${words.at(-1)}`;
}
