/** A picture ready to be shown: 8 bits a channel, rows from the top, channels interleaved (1 is grey, 3 is red, green, blue). */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: Uint8Array;
}

export type DecodedPicture =
  { readonly raster: Raster; readonly problem: null } | { readonly raster: null; readonly problem: string };
