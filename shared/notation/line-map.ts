/** Lines and columns of a text, both from 0; CR LF, LF and CR end a line, columns count UTF-16 units. */
export class LineMap {
  readonly starts: readonly number[];
  private readonly length: number;

  constructor(text: string) {
    const starts = [0];
    for (const match of text.matchAll(/\r\n|\n|\r/g)) starts.push(match.index + match[0].length);
    this.starts = starts;
    this.length = text.length;
  }

  at(offset: number): { line: number; column: number } {
    const wanted = Math.max(0, Math.min(offset, this.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] as number) <= wanted) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: wanted - (this.starts[low] as number) };
  }

  offset(line: number, column: number): number {
    const start = this.starts[Math.max(0, Math.min(line, this.starts.length - 1))] as number;
    return Math.max(0, Math.min(start + column, this.length));
  }
}
