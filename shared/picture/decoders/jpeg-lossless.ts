import { t } from '../../language/words.ts';
import { Decoder } from 'jpeg-lossless-decoder-js';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { endMarker } from '../jpeg-header.ts';
import { Unreadable } from '../unreadable.ts';
import { checkedJpeg } from './check-stream.ts';

/** Lossless JPEG with any predictor (ITU-T T.81 process 14). */
export function decodeJpegLossless(frame: Uint8Array, image: DicomImage): Samples {
  const { precision } = checkedJpeg(frame, image, [0xc3]);
  if (image.samples === 3 && precision > 8)
    throw new Unreadable(
      t('The picture is lossless JPEG with more than 8 bits a colour, which is not read here. Export it as PNG.'),
    );
  const bytesPerSample = precision > 8 ? 2 : 1;
  let decoder = new HalvingDecoder();
  let values = decoder.decode(withRoomAtTheEnd(frame), 0, undefined, bytesPerSample);
  if (decoder.restartInterval > 0) {
    decoder = new HalvingDecoder();
    values = decoder.decode(frame.slice().buffer, 0, undefined, bytesPerSample);
  }
  if (decoder.scan.al !== 0)
    throw new Unreadable(
      t(
        'The picture is JPEG whose lowest bits were cut off before compression (a point transform), which is not read here. Export it as PNG.',
      ),
    );
  if (decoder.yLoc < image.height)
    throw new Unreadable(t('The compressed picture (lossless JPEG) is damaged: a part of it is missing.'));
  return { values: values as Uint8Array | Uint16Array, shift: null, rgb: false };
}

/** Predictor 7 is the halved sum rounded down (T.81 H.1.2.1); the library keeps the half, which goes wrong where the sum wraps round. */
class HalvingDecoder extends Decoder {
  override select7(component?: number): number {
    return (this.getPreviousX(component) + this.getPreviousY(component)) >> 1;
  }
}

/** The library looks ahead and takes the end marker for a part of the last pixel, unless a few bytes stand between the two. */
function withRoomAtTheEnd(frame: Uint8Array): ArrayBuffer {
  const end = endMarker(frame);
  const longer = new Uint8Array(frame.length + 4);
  longer.set(frame.subarray(0, end));
  longer.set(frame.subarray(end), end + 4);
  return longer.buffer;
}
