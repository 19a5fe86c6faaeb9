import { t } from '../../language/words.ts';
import type { DicomImage } from '../dicom-image.ts';
import { endMarker, jpegHeader, type JpegHeader } from '../jpeg-header.ts';
import { Unreadable } from '../unreadable.ts';

interface Described {
  readonly width: number;
  readonly height: number;
  readonly components: number;
}

/**
 * Holds a coded stream to what the DICOM header says of it, before a decoder allocates what the stream itself asks for.
 * @throws Unreadable
 */
export function checkStream(stream: Uint8Array, described: Described, image: DicomImage): void {
  if (described.width !== image.width || described.height !== image.height || described.components !== image.samples) {
    throw new Unreadable(
      t(
        'The DICOM file contradicts itself: its header says {0} by {1} pixels with {2} values each, its compressed picture {3} by {4} with {5}.',
        image.width,
        image.height,
        image.samples,
        described.width,
        described.height,
        described.components,
      ),
    );
  }
  if (endMarker(stream) < 0) throw new Unreadable(t('The compressed picture is cut short: its end is missing.'));
}

/** A progressive picture has some ten. Each is a walk over the whole picture, which a few bytes can ask for. */
const mostScans = 100;

/** The frame header of a JPEG or JPEG-LS stream, checked. @param frames markers that the decoder can read. */
export function checkedJpeg(stream: Uint8Array, image: DicomImage, frames: readonly number[]): JpegHeader {
  const header = jpegHeader(stream);
  checkStream(stream, header, image);
  if (!frames.includes(header.frame))
    throw new Unreadable(
      t('The compressed picture is of another kind of JPEG than the DICOM file says, so it is not decoded.'),
    );
  if (scansIn(stream) > mostScans)
    throw new Unreadable(t('The compressed picture is in more scans than any writer makes; it was made to do harm.'));
  return header;
}

/** Start-of-scan markers (T.81 table B.1), which cannot occur within coded data. */
function scansIn(stream: Uint8Array): number {
  let scans = 0;
  for (let at = stream.indexOf(0xff); at >= 0; at = stream.indexOf(0xff, at + 1)) if (stream[at + 1] === 0xda) scans++;
  return scans;
}
