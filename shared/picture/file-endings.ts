/** Endings of picture files that a page shows as they are, in small letters and without the point. */
export const shownAsTheyAre: readonly string[] = ['png', 'jpg', 'jpeg', 'webp', 'gif'];

/** Endings of files that are decoded first. DICOM files often have none at all; what is in them decides when they are read. */
export const decodedFirst: readonly string[] = ['dcm', 'dicom', 'tif', 'tiff', ''];

/** Whether a file is likely a picture, by its name alone. One without an ending is where it is numbered, as scanners do: IM00001. */
export function isPictureName(name: string): boolean {
  const ending = /\.([^.]+)$/.exec(name)?.[1]?.toLowerCase() ?? '';
  if (ending === '') return /^[\p{L}_-]*\d[\p{L}\d_-]*$/u.test(name);
  return shownAsTheyAre.includes(ending) || decodedFirst.includes(ending);
}
