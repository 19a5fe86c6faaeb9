const byMime: Readonly<Record<string, string>> = {
  'image/png': 'png',
  'image/jpeg': 'jpg',
  'image/webp': 'webp',
  'image/gif': 'gif',
  'image/tiff': 'tif',
  'application/dicom': 'dcm',
};

/** The ending for a kind of picture that comes without a name; null for what no film can show. */
export function endingOf(mime: string): string | null {
  return byMime[mime.toLowerCase()] ?? null;
}
