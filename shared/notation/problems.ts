import type { Span } from './span.ts';

/** A change of text that mends a problem; offsets as in the problem. */
export interface Edit extends Span {
  readonly text: string;
  /** The whole line that the span stands in is meant, remark and end included. */
  readonly wholeLine?: true;
  /**
   * The text is a line of its own, above or below the line that the span stands in and indented like it; remarks stay with the
   * lines that they speak of.
   */
  readonly newLine?: 'above' | 'below';
}

export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** Another place that has to do with a problem; offsets as in the problem. */
export interface Related {
  readonly at: Span;
  readonly message: string;
}

export type NotationCode =
  | 'notation/empty'
  | 'notation/version-missing'
  | 'notation/version-newer'
  | 'notation/unknown-word'
  | 'notation/misplaced-word'
  | 'notation/unknown-landmark'
  | 'notation/unknown-choice'
  | 'notation/missing-argument'
  | 'notation/unexpected'
  | 'notation/decimal-comma'
  | 'notation/missing-unit'
  | 'notation/wrong-unit'
  | 'notation/open-text'
  | 'notation/text-escape'
  | 'notation/date-form'
  | 'notation/no-such-date'
  | 'notation/number-range'
  | 'notation/code-form';

/** What is wrong with a line, at the piece that is wrong. */
export interface Problem<Code extends string = NotationCode> {
  readonly code: Code;
  readonly at: Span;
  readonly message: string;
  readonly fixes: readonly Fix[];
  readonly related?: readonly Related[];
}
