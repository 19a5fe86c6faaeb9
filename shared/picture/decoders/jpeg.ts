import { t } from '../../language/words.ts';
import jpegJs from 'jpeg-js/lib/decoder.js';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { Unreadable } from '../unreadable.ts';
import { checkedJpeg } from './check-stream.ts';
import { decodeTwelveBits } from './jpeg-12-bit.ts';
import { decodeJpegLossless } from './jpeg-lossless.ts';

const baseline = 0xc0;
const extended = 0xc1;
const progressive = 0xc2;
const losslessFrame = 0xc3;

/** JPEG with loss (ITU-T T.81 processes 1, 2 and 4): 8 bits by jpeg-js, grey of 12 bits by our own. */
export function decodeJpeg(frame: Uint8Array, image: DicomImage): Samples {
  const header = checkedJpeg(frame, image, [baseline, extended, progressive, losslessFrame]);
  // Some writers keep the syntax of the original after compressing anew without loss.
  if (header.frame === losslessFrame) return decodeJpegLossless(frame, image);
  if (header.precision === 8)
    return { values: eightBits(frame, image, header.rgb), shift: null, rgb: image.samples === 3 };
  if (header.precision !== 12 || image.samples !== 1 || header.frame === progressive) {
    throw new Unreadable(
      t('The JPEG picture has {0} bits a value in a form that is not read here. Export it as PNG.', header.precision),
    );
  }
  return { values: decodeTwelveBits(frame, image.width, image.height), shift: null, rgb: false };
}

function eightBits(frame: Uint8Array, image: DicomImage, rgb: boolean | null): Uint8Array {
  const colorTransform = !(rgb ?? image.photometric === 'RGB');
  // The size was checked already; these limits of the library are for those who did not.
  const { data } = jpegJs(frame, {
    useTArray: true,
    formatAsRGBA: false,
    colorTransform,
    tolerantDecoding: false,
    maxResolutionInMP: 100,
    maxMemoryUsageInMB: 2048,
  });
  if (image.samples === 3) return data;
  const grey = new Uint8Array(image.width * image.height);
  for (let i = 0; i < grey.length; i++) grey[i] = data[3 * i] ?? 0;
  return grey;
}
