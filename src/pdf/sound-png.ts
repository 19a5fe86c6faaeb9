import { Unzlib } from 'fflate';

/** Pushed at a time, so that a file made to swell is known by its first pieces. */
const pieceLength = 16_384;
/** Bytes that a careless writer may have left behind the rows. */
const spare = 1024;

/** By PNG's kind of colour (W3C, PNG, 11.2.1). */
const channels: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/**
 * Whether the rows of a PNG unpack to what its header says: what writes PDF unpacks pictures that are see-through without
 * looking how large they become, and passes others on as they are.
 */
export function isSoundPng(png: Uint8Array): boolean {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  let due = 0;
  let got = 0;
  const rows = new Unzlib((piece) => {
    got += piece.length;
  });
  try {
    for (let at = 8; at + 12 <= png.length;) {
      const length = view.getUint32(at);
      const name = String.fromCharCode(...png.subarray(at + 4, at + 8));
      const data = at + 8;
      if (data + length > png.length) return false;
      if (name === 'IHDR') due = bytesDue(view, data);
      if (name === 'IDAT')
        for (let from = 0; from < length; from += pieceLength) {
          rows.push(png.subarray(data + from, data + Math.min(from + pieceLength, length)));
          if (got > due + spare) return false;
        }
      if (name === 'IEND') break;
      at = data + length + 4;
    }
  } catch {
    return false;
  }
  return due > 0 && got >= due;
}

function bytesDue(view: DataView, at: number): number {
  const [width, height] = [view.getUint32(at), view.getUint32(at + 4)];
  const bits = view.getUint8(at + 8) * (channels[view.getUint8(at + 9)] ?? 0);
  const rowsOf = (wide: number, tall: number): number => (wide === 0 ? 0 : tall * (1 + Math.ceil((wide * bits) / 8)));
  if (view.getUint8(at + 12) === 0) return rowsOf(width, height);
  // In seven passes (PNG, 8.2): where each begins, and its steps, across and down.
  const passes = [
    [0, 0, 8, 8],
    [4, 0, 8, 8],
    [0, 4, 4, 8],
    [2, 0, 4, 4],
    [0, 2, 2, 4],
    [1, 0, 2, 2],
    [0, 1, 1, 2],
  ] as const;
  return passes.reduce(
    (sum, [x, y, across, down]) =>
      sum + rowsOf(Math.max(0, Math.ceil((width - x) / across)), Math.max(0, Math.ceil((height - y) / down))),
    0,
  );
}
