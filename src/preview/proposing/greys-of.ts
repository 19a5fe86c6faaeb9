import type { GreyPicture } from '../../../shared/picture/seek/grey-picture.ts';

/** Pixels as a browser tells them, four numbers each, weighed as the eye does (ITU-R BT.601). */
export function greysOf({ width, height, data }: Pick<ImageData, 'width' | 'height' | 'data'>): GreyPicture {
  const greys = new Float32Array(width * height);
  for (let at = 0, from = 0; at < greys.length; at++, from += 4)
    greys[at] = 0.299 * (data[from] ?? 0) + 0.587 * (data[from + 1] ?? 0) + 0.114 * (data[from + 2] ?? 0);
  return { width, height, greys };
}
