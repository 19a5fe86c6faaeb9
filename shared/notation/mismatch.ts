import { wordList } from './word-list.ts';
import type { Fix, NotationCode, Problem } from './problems.ts';
import type { Leaf, Span } from './tree.ts';

export interface ExpectedForm {
  /** The line's first word, and an example of a whole line, for the wording. */
  readonly head: Leaf;
  readonly example: string;
}

/**
 * Thrown where an item does not do, with what there is to say; it never leaves the matcher. No `Error`, whose stack is a third of the
 * time that a broken line takes.
 */
export class Mismatch {
  readonly problem: Problem;
  /** What should have stood there, in words, where something else did. */
  readonly wants: string | null;
  constructor(problem: Problem, wants: string | null = null) {
    this.problem = problem;
    this.wants = wants;
  }
}

export function fail(code: NotationCode, at: Span, message: string, fixes: readonly Fix[] = []): Mismatch {
  return new Mismatch({ code, at: { start: at.start, end: at.end }, message, fixes });
}

export const replace = (title: string, at: Span, text: string): Fix => ({
  title,
  edits: [{ start: at.start, end: at.end, text }],
});
export const remove = (title: string, at: Span): Fix => replace(title, at, '');
export const insert = (title: string, offset: number, text: string): Fix => ({
  title,
  edits: [{ start: offset, end: offset, text }],
});

/** Something that was written, for a sentence: what is longer than a line of text is cut. */
export function quoted(image: string): string {
  // Not in the middle of a pair of surrogates.
  return image.length > 60 ? `${image.slice(0, 59).replace(/[\ud800-\udbff]$/, '')}…` : image;
}

/** `a, b or c`: what may stand in one place. */
export const list = (words: readonly string[]): string => wordList(words, 'or');
