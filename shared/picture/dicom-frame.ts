import { t } from '../language/words.ts';
import type { DicomFile } from './dicom-file.ts';
import type { DicomImage } from './dicom-image.ts';
import { joined } from './joined.ts';
import { Unreadable } from './unreadable.ts';

const cutShort = (): string => t('The DICOM file is cut short: a part of its picture is missing.');
const damaged = (): string =>
  t('The DICOM file is damaged: the pieces of its compressed picture do not follow each other as they must.');

/** A film in pieces of 64 KB has some thousand. Each takes an object of its own, so a file of nothing but empty ones is refused. */
const mostFragments = 2 ** 16;

/**
 * The bytes of the first frame: all pixels where they are stored as they are, the coded stream where they are compressed (PS3.5 A.4).
 * @throws Unreadable
 */
export function firstFrame(file: DicomFile, image: DicomImage, encapsulated: boolean): Uint8Array {
  const element = file.dataSet.elements['x7fe00010'];
  if (!element) throw new Unreadable(t('This DICOM file has a header but no picture.'));
  const undefinedLength = element.length === 0xffffffff;
  if (undefinedLength !== encapsulated)
    throw new Unreadable(
      t('The DICOM file contradicts itself about whether its picture is compressed; it is damaged.'),
    );
  if (encapsulated) return joined(firstFragments(file.bytes, element.dataOffset, image.frames));
  const needed =
    image.photometric === 'YBR_FULL_422'
      ? image.width * image.height * 2
      : image.width * image.height * image.samples * (image.bitsAllocated / 8);
  const there = Math.min(element.length, file.bytes.length - element.dataOffset);
  if (there < needed) throw new Unreadable(t('{0} {1} of {2} bytes are there.', cutShort(), there, needed));
  return file.bytes.subarray(element.dataOffset, element.dataOffset + needed);
}

interface FragmentItem {
  /** Where the item's header stands, counted from the first item after the offset table. */
  readonly offset: number;
  readonly bytes: Uint8Array;
}

function firstFragments(bytes: Uint8Array, start: number, frames: number): readonly Uint8Array[] {
  const [table, ...fragments] = items(bytes, start);
  if (!table || fragments.length === 0) throw new Unreadable(cutShort());
  const all = fragments.map((item) => item.bytes);
  if (frames === 1) return all;
  const offsets = new DataView(table.bytes.buffer, table.bytes.byteOffset, table.bytes.byteLength);
  if (table.bytes.length >= 8) {
    const second = offsets.getUint32(4, true);
    return all.slice(0, fragments.findIndex(({ offset }) => offset === second) >>> 0);
  }
  if (fragments.length === frames) return all.slice(0, 1);
  // Neither a table nor one fragment a frame: the next frame begins where a fragment begins as the first one does.
  const [first, ...others] = all;
  const next = others.findIndex(
    (fragment) =>
      first !== undefined && fragment[0] === first[0] && fragment[1] === first[1] && fragment[2] === first[2],
  );
  return next < 0 ? all : all.slice(0, next + 1);
}

function items(bytes: Uint8Array, start: number): readonly FragmentItem[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found: FragmentItem[] = [];
  let at = start;
  let first = start;
  for (;;) {
    if (at + 8 > bytes.length) throw new Unreadable(cutShort());
    const group = view.getUint16(at, true);
    const element = view.getUint16(at + 2, true);
    const length = view.getUint32(at + 4, true);
    if (group === 0xfffe && element === 0xe0dd) return found;
    if (group !== 0xfffe || element !== 0xe000) throw new Unreadable(damaged());
    if (at + 8 + length > bytes.length) throw new Unreadable(cutShort());
    if (found.length > mostFragments) throw new Unreadable(damaged());
    found.push({ offset: at - first, bytes: bytes.subarray(at + 8, at + 8 + length) });
    at += 8 + length;
    if (found.length === 1) first = at;
  }
}
