import type { ByteSource } from '../../shared/picture/byte-source.ts';

/** A file whose bytes are in memory. */
export const bytesAsFile = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: (start, length) => Promise.resolve(bytes.subarray(start, start + length)),
});
