/** A decoder's little endian output as values: a byte each up to 8 bits, two bytes each above. The copy outlives the decoder's memory. */
export function words(bytes: Uint8Array, bits: number): Uint8Array | Uint16Array {
  if (bits <= 8) return bytes.slice();
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return Uint16Array.from({ length: bytes.length >> 1 }, (_, i) => view.getUint16(2 * i, true));
}
