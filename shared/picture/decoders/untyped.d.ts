// The parts used here of libraries that bring no types of their own.

declare module '@cornerstonejs/codec-charls/decode' {
  interface Decoder {
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    getDecodedBuffer(): Uint8Array;
    /** 0 colour after colour, 1 by line, 2 by sample. */
    getInterleaveMode(): number;
  }
  export default function load(options: {
    print: (line: string) => void;
    printErr: (line: string) => void;
  }): Promise<{ JpegLSDecoder: new () => Decoder }>;
}

declare module '@cornerstonejs/codec-openjpeg/decode' {
  interface Decoder {
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    getDecodedBuffer(): Uint8Array;
    getFrameInfo(): { bitsPerSample: number };
  }
  export default function load(options: {
    print: (line: string) => void;
    printErr: (line: string) => void;
  }): Promise<{ J2KDecoder: new () => Decoder }>;
}

declare module 'jpeg-js/lib/decoder.js' {
  export default function decode(
    bytes: Uint8Array,
    options: {
      useTArray: true;
      formatAsRGBA: false;
      colorTransform: boolean;
      tolerantDecoding: boolean;
      maxResolutionInMP: number;
      maxMemoryUsageInMB: number;
    },
  ): { width: number; height: number; data: Uint8Array };
}

declare module 'jpeg-lossless-decoder-js' {
  export class Decoder {
    decode(buffer: ArrayBuffer, offset: number, length: number | undefined, bytesPerSample: 1 | 2): ArrayLike<number>;
    /** Where the next pixel would be written. */
    yLoc: number;
    restartInterval: number;
    /** Of the last scan; `al` is the point transform. */
    scan: { al: number };
    getPreviousX(component?: number): number;
    getPreviousY(component?: number): number;
    select7(component?: number): number;
  }
}
