import { joined } from '../joined.ts';
import { Unreadable } from '../unreadable.ts';

/** A film of a hundred megabytes in the smallest pieces that writers make has some ten thousand. */
const mostParts = 2 ** 18;

/** What is kept of a file, piece after piece. */
export class PicturePieces {
  readonly #parts: Uint8Array[] = [];

  /** @throws Unreadable where a file is in more pieces than any picture is. */
  keep(...parts: readonly Uint8Array[]): void {
    if (this.#parts.length + parts.length > mostParts)
      throw new Unreadable('The picture is in more pieces than any that a camera or a scanner writes; it is damaged.');
    this.#parts.push(...parts);
  }

  whole(): Uint8Array {
    return joined(this.#parts);
  }
}

/** Whether the bytes from `at` on are these letters. */
export function reads(bytes: Uint8Array, at: number, text: string): boolean {
  return bytes.length >= at + text.length && [...text].every((letter, i) => bytes[at + i] === letter.charCodeAt(0));
}

export function letters(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}
