import type { ByteSource } from './byte-source.ts';

/** A piece of a file: bytes from `start` on, `length` of them. */
export interface PieceWanted {
  readonly start: number;
  readonly length: number;
}

/**
 * Asks for pieces of a file one after the other and ends with what it found in them; a piece that it is given is shorter than asked
 * only where the file ends. One reader serves bytes in memory (`readWithin`) and a file that is read by pieces (`readFrom`).
 */
export type HeaderReader<Found> = Generator<PieceWanted, Found, Uint8Array>;

/** The piece whole. @throws RangeError where the file ends before. */
export function* whole(start: number, length: number): HeaderReader<DataView> {
  const bytes = yield { start, length };
  if (bytes.length < length) throw new RangeError(`The file ends before byte ${start + length}.`);
  return new DataView(bytes.buffer, bytes.byteOffset, length);
}

/** What a reader finds in bytes that are in memory. @throws what the reader throws. */
export function readWithin<Found>(bytes: Uint8Array, reader: HeaderReader<Found>): Found {
  let step = reader.next();
  while (!step.done) {
    const { start, length } = step.value;
    step = reader.next(bytes.subarray(start, start + length));
  }
  return step.value;
}

/** Headers are read in small steps, so more than a step is fetched at once. */
const leastFetched = 4096;

/** What a reader finds in a file. Rejects with what the reader throws, and where the file cannot be read. */
export async function readFrom<Found>(source: ByteSource, reader: HeaderReader<Found>): Promise<Found> {
  let start = 0;
  let fetched: Uint8Array = new Uint8Array();
  let step = reader.next();
  while (!step.done) {
    const asked = step.value;
    const end = Math.min(asked.start + asked.length, source.size);
    if (asked.start < end && (asked.start < start || end > start + fetched.length)) {
      start = asked.start;
      fetched = await source.read(start, Math.min(Math.max(asked.length, leastFetched), source.size - start));
    }
    step = reader.next(asked.start < end ? fetched.subarray(asked.start - start, end - start) : new Uint8Array());
  }
  return step.value;
}
