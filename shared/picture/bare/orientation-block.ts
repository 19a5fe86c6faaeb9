import type { Orientation } from '../picture-size.ts';

/** An EXIF block that holds the orientation and nothing else: one directory of one entry (TIFF 6.0, section 2), big endian. */
export function orientationBlock(orientation: Orientation): Uint8Array {
  const start = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8];
  const entries = [0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0];
  return Uint8Array.from([...start, ...entries, 0, 0, 0, 0]);
}
