import type { FrameDecoder } from './frame-decoder.ts';

/** How the picture in a DICOM file is coded (PS3.6 annex A). */
export interface TransferSyntax {
  readonly uid: string;
  readonly name: string;
  /** Whether the picture is in fragments (PS3.5 A.4) rather than pixel after pixel. */
  readonly encapsulated: boolean;
  /** Loads the decoder; null where there is none. Each is a module of its own so that nothing heavy is loaded before a file needs it. */
  readonly load: (() => Promise<FrameDecoder>) | null;
}

const native = (): Promise<FrameDecoder> => import('./decoders/native.ts').then((it) => it.decodeNative);
const rle = (): Promise<FrameDecoder> => import('./decoders/rle.ts').then((it) => it.decodeRle);
const jpeg = (): Promise<FrameDecoder> => import('./decoders/jpeg.ts').then((it) => it.decodeJpeg);
const lossless = (): Promise<FrameDecoder> => import('./decoders/jpeg-lossless.ts').then((it) => it.decodeJpegLossless);
const jpegLs = (): Promise<FrameDecoder> => import('./decoders/jpeg-ls.ts').then((it) => it.decodeJpegLs);
const jpeg2000 = (): Promise<FrameDecoder> => import('./decoders/jpeg-2000.ts').then((it) => it.decodeJpeg2000);

const root = '1.2.840.10008.1.2';

export const transferSyntaxes: readonly TransferSyntax[] = [
  { uid: root, name: 'Implicit VR Little Endian', encapsulated: false, load: native },
  { uid: `${root}.1`, name: 'Explicit VR Little Endian', encapsulated: false, load: native },
  { uid: `${root}.1.99`, name: 'Deflated Explicit VR Little Endian', encapsulated: false, load: native },
  { uid: `${root}.2`, name: 'Explicit VR Big Endian', encapsulated: false, load: native },
  { uid: `${root}.5`, name: 'RLE Lossless', encapsulated: true, load: rle },
  { uid: `${root}.4.50`, name: 'JPEG Baseline (Process 1)', encapsulated: true, load: jpeg },
  { uid: `${root}.4.51`, name: 'JPEG Extended (Process 2 and 4)', encapsulated: true, load: jpeg },
  { uid: `${root}.4.57`, name: 'JPEG Lossless, Non-Hierarchical (Process 14)', encapsulated: true, load: lossless },
  {
    uid: `${root}.4.70`,
    name: 'JPEG Lossless, Non-Hierarchical, First-Order Prediction (Process 14, Selection Value 1)',
    encapsulated: true,
    load: lossless,
  },
  { uid: `${root}.4.80`, name: 'JPEG-LS Lossless', encapsulated: true, load: jpegLs },
  { uid: `${root}.4.81`, name: 'JPEG-LS Lossy (Near-Lossless)', encapsulated: true, load: jpegLs },
  { uid: `${root}.4.90`, name: 'JPEG 2000 (Lossless Only)', encapsulated: true, load: jpeg2000 },
  { uid: `${root}.4.91`, name: 'JPEG 2000', encapsulated: true, load: jpeg2000 },
  { uid: `${root}.4.92`, name: 'JPEG 2000 Part 2 Multi-component (Lossless Only)', encapsulated: true, load: null },
  { uid: `${root}.4.93`, name: 'JPEG 2000 Part 2 Multi-component', encapsulated: true, load: null },
  { uid: `${root}.4.94`, name: 'JPIP Referenced', encapsulated: false, load: null },
  { uid: `${root}.4.95`, name: 'JPIP Referenced Deflate', encapsulated: false, load: null },
  { uid: `${root}.4.100`, name: 'MPEG2 Main Profile / Main Level', encapsulated: true, load: null },
  { uid: `${root}.4.101`, name: 'MPEG2 Main Profile / High Level', encapsulated: true, load: null },
  { uid: `${root}.4.102`, name: 'MPEG-4 AVC/H.264 High Profile / Level 4.1', encapsulated: true, load: null },
  {
    uid: `${root}.4.103`,
    name: 'MPEG-4 AVC/H.264 BD-compatible High Profile / Level 4.1',
    encapsulated: true,
    load: null,
  },
  {
    uid: `${root}.4.104`,
    name: 'MPEG-4 AVC/H.264 High Profile / Level 4.2 For 2D Video',
    encapsulated: true,
    load: null,
  },
  { uid: `${root}.4.107`, name: 'HEVC/H.265 Main Profile / Level 5.1', encapsulated: true, load: null },
  { uid: `${root}.4.110`, name: 'JPEG XL Lossless', encapsulated: true, load: null },
  { uid: `${root}.4.111`, name: 'JPEG XL JPEG Recompression', encapsulated: true, load: null },
  { uid: `${root}.4.112`, name: 'JPEG XL', encapsulated: true, load: null },
  { uid: `${root}.4.201`, name: 'High-Throughput JPEG 2000 (Lossless Only)', encapsulated: true, load: jpeg2000 },
  {
    uid: `${root}.4.202`,
    name: 'High-Throughput JPEG 2000 with RPCL Options (Lossless Only)',
    encapsulated: true,
    load: jpeg2000,
  },
  { uid: `${root}.4.203`, name: 'High-Throughput JPEG 2000', encapsulated: true, load: jpeg2000 },
];

export function transferSyntax(uid: string): TransferSyntax | undefined {
  return transferSyntaxes.find((syntax) => syntax.uid === uid);
}
