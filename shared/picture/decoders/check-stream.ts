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
      `The DICOM file contradicts itself: its header says ${image.width} by ${image.height} pixels with ${image.samples} values each, its compressed picture ${described.width} by ${described.height} with ${described.components}.`,
    );
  }
  if (endMarker(stream) < 0) throw new Unreadable('The compressed picture is cut short: its end is missing.');
}

/** The frame header of a JPEG or JPEG-LS stream, checked. @param frames markers that the decoder can read. */
export function checkedJpeg(stream: Uint8Array, image: DicomImage, frames: readonly number[]): JpegHeader {
  const header = jpegHeader(stream);
  checkStream(stream, header, image);
  if (!frames.includes(header.frame))
    throw new Unreadable(
      'The compressed picture is of another kind of JPEG than the DICOM file says, so it is not decoded.',
    );
  return header;
}
