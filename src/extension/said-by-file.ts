import type { SaidOfFilm } from '../../shared/picture/dicom-said.ts';

/** Such a name has a DICOM file, or one of which nobody knows what it is. */
const likely = /(?:\.(?:dcm|dicom)|^[^.]*)$/i;

/**
 * What the file of a picture says of its film; null where it is no DICOM file or cannot be read, which is no reason not to have the film.
 * @param name of the file, without its folder
 */
export async function saidBy(name: string, read: () => Promise<Uint8Array>): Promise<SaidOfFilm | null> {
  if (!likely.test(name)) return null;
  try {
    const bytes = await read();
    const { saidInFile } = await import('../../shared/picture/stored-scale.ts');
    return saidInFile(bytes);
  } catch {
    return null;
  }
}
