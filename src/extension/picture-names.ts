/** By ending: the pictures that a film can name. Files without an ending are not taken for DICOM here; a drop may be anything. */
const endings = ['png', 'jpg', 'jpeg', 'webp', 'gif', 'dcm', 'dicom', 'tif', 'tiff'];

const byMime: Readonly<Record<string, string>> = {
  'image/png': 'png',
  'image/jpeg': 'jpg',
  'image/webp': 'webp',
  'image/gif': 'gif',
  'image/tiff': 'tif',
  'application/dicom': 'dcm',
};

export function isPictureName(name: string): boolean {
  return endings.includes(/\.([^./]+)$/.exec(name)?.[1]?.toLowerCase() ?? '');
}

/** The ending for a kind of picture; null for what no film can show. */
export function endingOf(mime: string): string | null {
  return byMime[mime.toLowerCase()] ?? null;
}
