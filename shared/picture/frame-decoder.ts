import type { DicomImage } from './dicom-image.ts';

/** One frame's stored values, rows from the top, the samples of a pixel beside each other; signed values still as their bits. */
export interface Samples {
  readonly values: Uint8Array | Uint16Array | Uint32Array;
  /**
   * Bits by which the value stands above bit 0 (High Bit + 1 - Bits Stored), with other bits perhaps around it. Null from decoders of
   * compressed frames, which give nothing but the value; those with loss may overshoot the largest that the header allows.
   */
  readonly shift: number | null;
  /** Whether the decoder has already turned luma and chroma into red, green and blue. */
  readonly rgb: boolean;
}

/** @throws Unreadable with a sentence, or whatever the library throws at a damaged frame. */
export type FrameDecoder = (frame: Uint8Array, image: DicomImage) => Samples | Promise<Samples>;
