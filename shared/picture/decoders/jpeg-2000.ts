import { t } from '../../language/words.ts';
import OpenJPEG from '@cornerstonejs/codec-openjpeg/decode';
import type { DicomImage } from '../dicom-image.ts';
import type { Samples } from '../frame-decoder.ts';
import { Unreadable } from '../unreadable.ts';
import { checkStream } from './check-stream.ts';
import { quiet } from './quiet.ts';
import { words } from './words.ts';

const damaged = (): string => t('The compressed picture (JPEG 2000) is damaged.');

/** JPEG 2000 part 1 and its high-throughput form (ITU-T T.800, T.814), by OpenJPEG, which also turns luma and chroma into colours. */
export async function decodeJpeg2000(frame: Uint8Array, image: DicomImage): Promise<Samples> {
  const stream = codestream(frame);
  checkStream(stream, sizeOf(stream), image);
  const complaints: string[] = [];
  const decoder = new (await OpenJPEG(quiet(complaints))).J2KDecoder();
  decoder.getEncodedBuffer(stream.length).set(stream);
  decoder.decode();
  // The library says that a tile failed, and then hands out the picture without it.
  if (complaints.length > 0) throw new Unreadable(damaged());
  const { bitsPerSample } = decoder.getFrameInfo();
  return { values: words(decoder.getDecodedBuffer(), bitsPerSample), shift: null, rgb: image.samples === 3 };
}

/** The bare codestream: some writers wrap it in a JP2 file, though PS3.5 A.4.4 does not let them. */
function codestream(frame: Uint8Array): Uint8Array {
  if (frame[0] === 0xff) return frame;
  const view = new DataView(frame.buffer, frame.byteOffset, frame.byteLength);
  for (let at = 0; at + 8 <= frame.length;) {
    const length = view.getUint32(at);
    if (view.getUint32(at + 4) === 0x6a703263) return frame.subarray(at + 8);
    if (length < 8) break;
    at += length;
  }
  throw new Unreadable(damaged());
}

/** The SIZ segment (T.800 A.5.1). */
function sizeOf(stream: Uint8Array): { width: number; height: number; components: number } {
  const view = new DataView(stream.buffer, stream.byteOffset, stream.byteLength);
  if (view.getUint32(0) !== 0xff4fff51) throw new Unreadable(damaged());
  return {
    width: view.getUint32(8) - view.getUint32(16),
    height: view.getUint32(12) - view.getUint32(20),
    components: view.getUint16(40),
  };
}
