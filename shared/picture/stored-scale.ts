import { readPicture } from './read-picture.ts';

/** What the file of a picture says of its scale, or a sentence why it says none. */
export function storedScale(bytes: Uint8Array, name: string): { mmPerPx: number; words: string } | { lack: string } {
  const { kind, spacing, noSpacing, problem } = readPicture(bytes);
  if (spacing) return { mmPerPx: spacing.mmPerPx, words: spacing.words };
  if (problem !== null) return { lack: `${name}: ${problem}` };
  if (kind !== 'dicom')
    return { lack: `${name} is no DICOM picture, and only those state how large a pixel is on the foot.` };
  return { lack: `${name}: ${noSpacing ?? 'The file does not state how large a pixel is.'}` };
}
