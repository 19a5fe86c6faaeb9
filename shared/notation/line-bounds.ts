/**
 * Where the line begins that an offset stands in. Between CR and LF no line begins: there it is the start of the line that
 * the two end.
 */
export function startOfLine(text: string, offset: number): number {
  let start = text[offset - 1] === '\r' && text[offset] === '\n' ? offset - 1 : offset;
  // Not by lastIndexOf: from a place before the text it looks at the first character all the same.
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return start;
}

/** Where the line ends that an offset stands in, its line end left out. */
export function endOfLine(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
  return end;
}

/**
 * Where the line begins that an offset stands in, with the remarks right above it: those speak of it, and are not to be
 * parted from it.
 */
export function startWithRemarks(text: string, offset: number): number {
  let start = startOfLine(text, offset);
  for (let above = lineBefore(text, start); above !== null && isRemark(text, above); above = lineBefore(text, start))
    start = above;
  return start;
}

function lineBefore(text: string, start: number): number | null {
  return start === 0 ? null : startOfLine(text, start - 1);
}

const isRemark = (text: string, start: number): boolean =>
  /^\ufeff?[^\S\r\n]*#/.test(text.slice(start, endOfLine(text, start)));

/** The blanks that the line begins with which an offset stands in. */
export function indentOf(text: string, offset: number): string {
  return /^\ufeff?([^\S\r\n]*)/.exec(text.slice(startOfLine(text, offset), endOfLine(text, offset)))?.[1] ?? '';
}

/**
 * The blanks that a new line of a block begins with: those of its first line; where it has none yet those of its header, and a
 * step more in whatever the header is indented with.
 */
export function indentWithin(text: string, header: number, first: number | undefined): string {
  if (first !== undefined) return indentOf(text, first);
  const outer = indentOf(text, header);
  return outer + (outer.includes('\t') ? '\t' : '  ');
}
