import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';

/** Pixels stored as they are (PS3.5 section 8). @param frame exactly one frame, as `firstFrame` gives it. */
export function decodeNative(frame: Uint8Array, image: DicomImage): Samples {
  const values = image.photometric === 'YBR_FULL_422' ? spread(frame) : interleaved(read(frame, image), image);
  return { values, shift: image.highBit + 1 - image.bitsStored, rgb: false };
}

function read(frame: Uint8Array, image: DicomImage): Samples['values'] {
  const view = new DataView(frame.buffer, frame.byteOffset, frame.byteLength);
  const count = image.width * image.height * image.samples;
  switch (image.bitsAllocated) {
    case 8: {
      if (image.littleEndian || !image.wordPixels) return frame;
      // Two pixels lie in one big endian word, the first in its low byte.
      const swapped = new Uint8Array(count);
      for (let i = 0; i < count; i++) swapped[i] = frame[i ^ 1] ?? 0;
      return swapped;
    }
    case 16: {
      const values = new Uint16Array(count);
      for (let i = 0; i < count; i++) values[i] = view.getUint16(2 * i, image.littleEndian);
      return values;
    }
    case 32: {
      const values = new Uint32Array(count);
      for (let i = 0; i < count; i++) values[i] = view.getUint32(4 * i, image.littleEndian);
      return values;
    }
  }
}

/** Colour by colour to pixel by pixel. */
export function interleaved<T extends Samples['values']>(values: T, image: DicomImage): T {
  if (!image.planar) return values;
  const pixels = image.width * image.height;
  const mixed = values.slice() as T;
  for (let channel = 0; channel < image.samples; channel++) {
    for (let i = 0; i < pixels; i++) mixed[i * image.samples + channel] = values[channel * pixels + i] ?? 0;
  }
  return mixed;
}

/** YBR_FULL_422: luma, luma, blue chroma, red chroma for each two pixels (PS3.3 C.7.6.3.1.2). */
function spread(frame: Uint8Array): Uint8Array {
  const full = new Uint8Array((frame.length / 4) * 6);
  for (let from = 0, to = 0; from + 3 < frame.length; from += 4, to += 6) {
    full[to] = frame[from] ?? 0;
    full[to + 3] = frame[from + 1] ?? 0;
    full[to + 1] = full[to + 4] = frame[from + 2] ?? 0;
    full[to + 2] = full[to + 5] = frame[from + 3] ?? 0;
  }
  return full;
}
