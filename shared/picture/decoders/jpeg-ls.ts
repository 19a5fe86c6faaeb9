import CharLS from '@cornerstonejs/codec-charls/decode';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { checkedJpeg } from './check-stream.ts';
import { interleaved } from './native.ts';
import { quiet } from './quiet.ts';
import { words } from './words.ts';

/** JPEG-LS, lossless and near-lossless (ITU-T T.87), by CharLS. */
export async function decodeJpegLs(frame: Uint8Array, image: DicomImage): Promise<Samples> {
  const { precision } = checkedJpeg(frame, image, [0xf7]);
  // A module that has failed once cannot be trusted again, and a new one costs some 30 ms.
  const decoder = new (await CharLS(quiet())).JpegLSDecoder();
  decoder.getEncodedBuffer(frame.length).set(frame);
  decoder.decode();
  const values = words(decoder.getDecodedBuffer(), precision);
  // Interleave mode 0 leaves colour after colour.
  const planar = image.samples === 3 && decoder.getInterleaveMode() === 0;
  return { values: interleaved(values, { ...image, planar }), shift: null, rgb: false };
}
