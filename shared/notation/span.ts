/** A stretch of text as offsets in UTF-16 units, end excluded, counted from the start of its level-0 block. */
export interface Span {
  readonly start: number;
  readonly end: number;
}
