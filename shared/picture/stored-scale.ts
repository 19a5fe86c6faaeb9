import type { ByteSource } from './byte-source.ts';
import { readPicture, type PictureFacts } from './read-picture.ts';

/** What the file of a picture says of its scale, or a sentence why it says none. */
export type ScaleFound = { readonly mmPerPx: number; readonly words: string } | { readonly lack: string };

/** Reads the file by pieces, its headers alone. Rejects only where the source does. @param name what to call the picture in a sentence. */
export async function storedScale(source: ByteSource, name: string): Promise<ScaleFound> {
  return scaleFrom(await readPicture(source), name);
}

function scaleFrom({ kind, spacing, noSpacing, problem }: PictureFacts, name: string): ScaleFound {
  if (spacing) return { mmPerPx: spacing.mmPerPx, words: spacing.words };
  if (problem !== null) return { lack: `${name}: ${problem}` };
  if (kind !== 'dicom')
    return { lack: `${name} is no DICOM picture, and only those state how large a pixel is on the foot.` };
  return { lack: `${name}: ${noSpacing ?? 'The file does not state how large a pixel is.'}` };
}
