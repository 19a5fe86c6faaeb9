import { encode } from 'fast-png';
import type { Raster } from './raster.ts';

/** A PNG file of the raster, grey or colour of 8 bits. */
export function rasterPng(raster: Raster): Uint8Array {
  return encode({ width: raster.width, height: raster.height, data: raster.data, depth: 8, channels: raster.channels });
}
