/** Which letters a font file has, by its table `cmap` (OpenType 1.9, "cmap", formats 4 and 12; big-endian throughout). */
export function lettersOf(font: Uint8Array): (letter: number) => boolean {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const cmap = tableAt(view, 'cmap');
  const ranges = cmap === null ? [] : rangesOf(view, cmap);
  return (letter) => ranges.some(([first, last]) => first <= letter && letter <= last);
}

type LetterRange = readonly [first: number, last: number];

function tableAt(view: DataView, name: string): number | null {
  const count = view.getUint16(4);
  for (let at = 12; at < 12 + 16 * count; at += 16) {
    const tag = [0, 1, 2, 3].map((place) => String.fromCharCode(view.getUint8(at + place))).join('');
    if (tag === name) return view.getUint32(at + 8);
  }
  return null;
}

/** Of the subtables that this reads. A range of format 4 may hold a letter without a glyph; the fonts that go along have none such in use. */
function rangesOf(view: DataView, cmap: number): LetterRange[] {
  const ranges: LetterRange[] = [];
  const count = view.getUint16(cmap + 2);
  for (let entry = 0; entry < count; entry++) {
    const at = cmap + view.getUint32(cmap + 4 + 8 * entry + 4);
    const format = view.getUint16(at);
    if (format === 12)
      for (let group = 0; group < view.getUint32(at + 12); group++)
        ranges.push([view.getUint32(at + 16 + 12 * group), view.getUint32(at + 20 + 12 * group)]);
    if (format === 4) {
      const doubled = view.getUint16(at + 6);
      for (let segment = 0; segment < doubled; segment += 2)
        ranges.push([view.getUint16(at + 16 + doubled + segment), view.getUint16(at + 14 + segment)]);
    }
  }
  // The last segment of format 4 ends the table and has no letter.
  return ranges.filter(([first]) => first !== 0xffff);
}
