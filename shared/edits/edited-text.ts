import type { Edit } from '../notation/problems.ts';

/** A text with edits of it carried out, which do not overlap; of several at one place the first comes first. */
export function editedText(text: string, edits: readonly Edit[]): string {
  let edited = '';
  let from = 0;
  for (const { start, end, text: written } of edits.toSorted((one, other) => one.start - other.start)) {
    edited += text.slice(from, start) + written;
    from = end;
  }
  return edited + text.slice(from);
}
