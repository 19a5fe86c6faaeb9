/** A name that every file system takes, from the words of a case; without an ending. */
export function fileNameOf(...words: readonly string[]): string {
  const plain = words
    .join(' ')
    .replaceAll(/[^\p{L}\p{N} _-]+/gu, ' ')
    .trim()
    .replaceAll(/\s+/g, '-')
    .replace(/^[_-]+/, '')
    .toLowerCase();
  return [...plain].slice(0, 80).join('') || 'course';
}
