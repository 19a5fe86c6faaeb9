import { t } from '../language/words.ts';
import type { ByteSource } from './byte-source.ts';
import type { Laterality } from './dicom-side.ts';
import type { Overstates } from './dicom-spacing.ts';
import { readPicture, type PictureFacts } from './read-picture.ts';

/** Where this is a bundle of its own, it has a table of words of its own, to be set before it says anything. */
export { useWords } from '../language/words.ts';
/** Of the same headers, and so in the same bundle. */
export { saidInFile } from './dicom-said.ts';

/** What the file of a picture says of its scale, or a sentence why it says none; and of which side it says the limb is. */
export type ScaleFound = (
  { readonly mmPerPx: number; readonly words: string; readonly overstates?: Overstates } | { readonly lack: string }
) & { readonly side?: Laterality };

/** Reads the file by pieces, its headers alone. Rejects only where the source does. @param name what to call the picture in a sentence. */
export async function storedScale(source: ByteSource, name: string): Promise<ScaleFound> {
  return scaleFrom(await readPicture(source), name);
}

function scaleFrom(facts: PictureFacts, name: string): ScaleFound {
  const { side } = facts;
  return side === undefined ? scaleAlone(facts, name) : { ...scaleAlone(facts, name), side };
}

function scaleAlone({ kind, spacing, noSpacing, problem }: PictureFacts, name: string): ScaleFound {
  if (spacing) {
    const { mmPerPx, words, overstates } = spacing;
    return { mmPerPx, words, ...(overstates && { overstates }) };
  }
  if (problem !== null) return { lack: `${name}: ${problem}` };
  if (kind !== 'dicom')
    return { lack: t('{0} is no DICOM picture, and only those state how large a pixel is on the foot.', name) };
  return { lack: `${name}: ${noSpacing ?? t('The file does not state how large a pixel is.')}` };
}
