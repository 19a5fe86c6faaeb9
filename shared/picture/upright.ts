import { turnsOnItsSide, type Orientation } from './picture-size.ts';
import type { Raster } from './raster.ts';

/** The raster as it is meant to be looked at (TIFF 6.0, tag 274: 3 is upside down, 6 must be turned a quarter clockwise, 8 the other way). */
export function upright(raster: Raster, orientation: Orientation): Raster {
  if (orientation === 1) return raster;
  const { width, height, channels } = raster;
  const turned = turnsOnItsSide(orientation);
  const shownWidth = turned ? height : width;
  const shownHeight = turned ? width : height;
  const data = new Uint8Array(raster.data.length);
  // Which end of each axis, as shown, is the stored start.
  const fromRight = orientation === 2 || orientation === 3 || orientation === 6 || orientation === 7;
  const fromBottom = orientation === 3 || orientation === 4 || orientation === 7 || orientation === 8;
  for (let y = 0; y < shownHeight; y++) {
    for (let x = 0; x < shownWidth; x++) {
      const across = fromRight ? shownWidth - 1 - x : x;
      const down = fromBottom ? shownHeight - 1 - y : y;
      const from = (turned ? across * width + down : down * width + across) * channels;
      for (let channel = 0; channel < channels; channel++)
        data[(y * shownWidth + x) * channels + channel] = raster.data[from + channel] ?? 0;
    }
  }
  return { width: shownWidth, height: shownHeight, channels, data };
}
