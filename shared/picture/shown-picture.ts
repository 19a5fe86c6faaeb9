import { t } from '../language/words.ts';
import { barePicture } from './bare/bare-picture.ts';
import { decodeDicom } from './decode-dicom.ts';
import { decodeTiff } from './decode-tiff.ts';
import { rasterPng } from './raster-png.ts';
import { readPictureInMemory } from './read-picture.ts';
import { sentenceOf } from './unreadable.ts';

/** Where this is a bundle of its own, it has a table of words of its own, to be set before it says anything. */
export { useWords } from '../language/words.ts';

/** A picture as a page can show it: as it is, or made into a PNG; else a sentence why not. */
export type Showable =
  | { readonly mime: string; readonly bytes: Uint8Array; readonly width: number; readonly height: number }
  | { readonly problem: string };

const mimes = { png: 'image/png', jpeg: 'image/jpeg', webp: 'image/webp', gif: 'image/gif' } as const;

/**
 * Never rejects. Width and height are in pixels as shown; DICOM and TIFF become 8-bit PNG. The others keep their pixels and their
 * orientation and lose what else they tell, as a page is passed on.
 */
export async function showable(bytes: Uint8Array): Promise<Showable> {
  const { kind, width, height, orientation, problem } = readPictureInMemory(bytes);
  if (problem !== null) return { problem };
  if (kind === 'dicom' || kind === 'tiff') {
    const { raster, problem: undecoded } = kind === 'dicom' ? await decodeDicom(bytes) : await decodeTiff(bytes);
    if (!raster) return { problem: undecoded };
    return { mime: 'image/png', bytes: rasterPng(raster), width: raster.width, height: raster.height };
  }
  if (kind === 'unknown' || width === null || height === null)
    return { problem: t('This is no picture that can be shown.') };
  try {
    return { mime: mimes[kind], bytes: barePicture(kind, bytes, orientation), width, height };
  } catch (cause) {
    return { problem: sentenceOf(cause, t('The picture is damaged.')) };
  }
}
