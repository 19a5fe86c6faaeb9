import { Decoder } from 'jpeg-lossless-decoder-js';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { Unreadable } from '../unreadable.ts';
import { checkedJpeg } from './check-stream.ts';

/** Lossless JPEG with any predictor (ITU-T T.81 process 14). */
export function decodeJpegLossless(frame: Uint8Array, image: DicomImage): Samples {
  const { precision } = checkedJpeg(frame, image, [0xc3]);
  if (image.samples === 3 && precision > 8) throw new Unreadable('The picture is lossless JPEG with more than 8 bits a colour, which is not read here. Export it as PNG.');
  const decoder = new Decoder();
  const values = decoder.decode(frame.slice().buffer, 0, frame.length, precision > 8 ? 2 : 1) as Uint8Array | Uint16Array;
  return { values, shift: 0, rgb: false };
}
