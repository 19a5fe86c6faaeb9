import dcmjsCodecs from 'dcmjs-codecs';
import { littleEndian } from './picture-known.ts';

const { Context, NativeCodecs } = dcmjsCodecs;

/** Coded frames from the C libraries that dcmjs-codecs compiles (libijg, CharLS, OpenJPEG, OpenJPH). It has no encoder for lossy JPEG of 12 bits: picture-jpeg-12-bit.ts makes that. */
export type Encoding = 'rle' | 'jpeg' | 'jpeg-lossless' | 'jpeg-ls' | 'jpeg-2000' | 'htj2k';

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly bitsStored: number;
  /** Grey values, or colours of 8 bits pixel by pixel. */
  readonly values: Uint16Array | Uint8Array;
  readonly photometric?: string;
  readonly samples?: 1 | 3;
}

/** A grey JPEG frame decoded by libijg, to hold our own decoder against. */
export async function decodedByAnother(
  frame: Uint8Array,
  width: number,
  height: number,
  bitsStored: number,
): Promise<Uint16Array> {
  await ready();
  const context = new Context({
    width,
    height,
    bitsAllocated: 16,
    bitsStored,
    samplesPerPixel: 1,
    pixelRepresentation: 0,
    planarConfiguration: 0,
    photometricInterpretation: 'MONOCHROME2',
    encodedBuffer: frame.slice(),
  });
  const decoded = NativeCodecs.decodeJpeg(context).getDecodedBuffer();
  if (!decoded) throw new Error('nothing was decoded');
  return new Uint16Array(decoded.slice().buffer);
}

async function ready(): Promise<void> {
  if (!NativeCodecs.isInitialized())
    await NativeCodecs.initializeAsync({ logCodecsInfo: false, logCodecsTrace: false });
}

export async function encodedFrame(
  encoding: Encoding,
  pixels: Pixels,
  parameters: Record<string, number | boolean> = {},
): Promise<Uint8Array> {
  if (!NativeCodecs.isInitialized())
    await NativeCodecs.initializeAsync({ logCodecsInfo: false, logCodecsTrace: false });
  const bitsAllocated = pixels.bitsStored > 8 ? 16 : 8;
  const context = new Context({
    width: pixels.width,
    height: pixels.height,
    bitsAllocated,
    bitsStored: pixels.bitsStored,
    samplesPerPixel: pixels.samples ?? 1,
    pixelRepresentation: 0,
    planarConfiguration: 0,
    photometricInterpretation: pixels.photometric ?? 'MONOCHROME2',
    decodedBuffer:
      bitsAllocated === 16 ? littleEndian(Uint16Array.from(pixels.values)) : Uint8Array.from(pixels.values),
  });
  const encoded = encoders[encoding](context, parameters).getEncodedBuffer();
  if (!encoded?.length) throw new Error(`${encoding} encoded nothing`);
  return encoded.slice();
}

type Encoder = (
  context: InstanceType<typeof Context>,
  parameters: Record<string, number | boolean>,
) => InstanceType<typeof Context>;

const encoders: Readonly<Record<Encoding, Encoder>> = {
  rle: (context, parameters) => NativeCodecs.encodeRle(context, parameters),
  jpeg: (context, parameters) => NativeCodecs.encodeJpeg(context, { lossy: true, quality: 95, ...parameters }),
  'jpeg-lossless': (context, parameters) =>
    NativeCodecs.encodeJpeg(context, { lossy: false, predictor: 1, ...parameters }),
  'jpeg-ls': (context, parameters) => NativeCodecs.encodeJpegLs(context, parameters),
  'jpeg-2000': (context, parameters) => NativeCodecs.encodeJpeg2000(context, parameters),
  htj2k: (context, parameters) => NativeCodecs.encodeHtJpeg2000(context, parameters),
};
