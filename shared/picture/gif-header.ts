import type { StoredSize } from './picture-size.ts';

/** Size of the logical screen (GIF89a, section 18). @throws RangeError where the bytes end early. */
export function gifSize(bytes: Uint8Array): StoredSize {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { width: view.getUint16(6, true), height: view.getUint16(8, true), orientation: 1 };
}
