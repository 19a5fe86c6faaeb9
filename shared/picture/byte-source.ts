/**
 * A picture's bytes, read by pieces: a header is found without the whole file in memory.
 * Each machine (Node, a browser's editor, a test) has its own; who reads knows only this.
 */
export interface ByteSource {
  /** Bytes in all. */
  readonly size: number;
  /** The bytes from `start` on, `length` of them, or fewer at the end of the file. Rejects where they cannot be read. */
  read(start: number, length: number): Promise<Uint8Array>;
}
