import { t } from '../../language/words.ts';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { Unreadable } from '../unreadable.ts';

const damaged = (): string => t('The compressed picture (RLE) is damaged.');

/** RLE Lossless (PS3.5 annex G): a segment for each byte of each sample, the highest byte first, each packed like PackBits. */
export function decodeRle(frame: Uint8Array, image: DicomImage): Samples {
  const view = new DataView(frame.buffer, frame.byteOffset, frame.byteLength);
  const bytesPerSample = image.bitsAllocated / 8;
  const count = view.getUint32(0, true);
  if (count !== image.samples * bytesPerSample) throw new Unreadable(damaged());
  const starts = Array.from({ length: count }, (_, i) => view.getUint32(4 + 4 * i, true));
  const pixels = image.width * image.height;
  const values =
    image.bitsAllocated === 8
      ? new Uint8Array(pixels * image.samples)
      : image.bitsAllocated === 16
        ? new Uint16Array(pixels * image.samples)
        : new Uint32Array(pixels * image.samples);
  for (const [segment, start] of starts.entries()) {
    const sample = Math.floor(segment / bytesPerSample);
    const weight = 2 ** (8 * (bytesPerSample - 1 - (segment % bytesPerSample)));
    const bytes = unpacked(frame.subarray(start, starts[segment + 1] ?? frame.length), pixels);
    for (let i = 0; i < pixels; i++)
      values[i * image.samples + sample] = (values[i * image.samples + sample] ?? 0) + (bytes[i] ?? 0) * weight;
  }
  return { values, shift: image.highBit + 1 - image.bitsStored, rgb: false };
}

function unpacked(segment: Uint8Array, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let to = 0;
  for (let from = 0; to < length;) {
    const control = segment[from++];
    if (control === undefined) throw new Unreadable(damaged());
    if (control < 128) {
      const run = segment.subarray(from, from + Math.min(control + 1, length - to));
      if (run.length < Math.min(control + 1, length - to)) throw new Unreadable(damaged());
      bytes.set(run, to);
      from += control + 1;
      to += control + 1;
    } else if (control > 128) {
      bytes.fill(segment[from++] ?? 0, to, to + 257 - control);
      to += 257 - control;
    }
  }
  return bytes;
}
