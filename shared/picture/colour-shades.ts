import { t } from '../language/words.ts';
import type { DataSet } from 'dicom-parser';
import { wordsOf } from './dicom-elements.ts';
import type { DicomImage } from './dicom-image.ts';
import type { Samples } from './frame-decoder.ts';
import { Unreadable } from './unreadable.ts';

/** Three samples a pixel to red, green, blue of 8 bits each. */
export function colourShades({ values, shift, rgb }: Samples, image: DicomImage): Uint8Array {
  const most = 2 ** image.bitsStored - 1;
  const eight =
    image.bitsStored === 8 && values instanceof Uint8Array
      ? values
      : Uint8Array.from(values, (value) =>
          Math.round((255 * (Math.floor(value / 2 ** (shift ?? 0)) % (most + 1))) / most),
        );
  return rgb || image.photometric === 'RGB' ? eight.slice() : fromLuma(eight);
}

/** YBR_FULL to RGB by the inverse of PS3.3 C.7.6.3.1.2 (ITU-R BT.601, full range). */
function fromLuma(values: Uint8Array): Uint8Array {
  // Clamped arrays round and limit by themselves.
  const colours = new Uint8ClampedArray(values.length);
  for (let i = 0; i + 2 < values.length; i += 3) {
    const luma = values[i] ?? 0;
    const blue = (values[i + 1] ?? 0) - 128;
    const red = (values[i + 2] ?? 0) - 128;
    colours[i] = luma + 1.402 * red;
    colours[i + 1] = luma - 0.344136 * blue - 0.714136 * red;
    colours[i + 2] = luma + 1.772 * blue;
  }
  return new Uint8Array(colours.buffer);
}

/** PALETTE COLOR by its three tables (PS3.3 C.7.6.3.1.5 and .6). @throws Unreadable where they are missing or segmented. */
export function paletteShades({ values, shift }: Samples, image: DicomImage, dataSet: DataSet): Uint8Array {
  const tables = ['1', '2', '3'].map((channel) => tableOf(dataSet, channel));
  const size = 2 ** image.bitsStored;
  const colours = new Uint8Array(image.width * image.height * 3);
  for (let i = 0; i < image.width * image.height; i++) {
    const index = Math.floor((values[i] ?? 0) / 2 ** (shift ?? 0)) % size;
    tables.forEach((table, channel) => (colours[3 * i + channel] = table(index)));
  }
  return colours;
}

function tableOf(dataSet: DataSet, channel: string): (index: number) => number {
  const [length, first = 0, bits] = wordsOf(dataSet, `x0028110${channel}`) ?? [];
  const words = wordsOf(dataSet, `x0028120${channel}`);
  if (length === undefined || !words?.length)
    throw new Unreadable(
      t('The picture is stored with a palette that is missing or of a kind that is not read here. Export it as PNG.'),
    );
  const packed = bits === 8 && words.length < (length || 65536);
  const entries = packed ? words.flatMap((word) => [word & 255, word >> 8]) : words;
  // Sixteen-bit tables are scaled to their full range; eight-bit ones in two bytes are not.
  const divide = bits === 16 ? 256 : 1;
  return (index) => Math.floor((entries[Math.min(Math.max(index - first, 0), entries.length - 1)] ?? 0) / divide);
}
