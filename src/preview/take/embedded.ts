/** What a film is made into where it goes along in a drawing: a picture that needs no other file. */
const QUALITY = 0.9;
/** Longer edges are made smaller, pixels: enough for print, and small enough to be sent. */
const LONGEST = 2400;

/** A picture as an address that holds it whole; null where the browser does not let the page look at it. */
export async function embedded(href: string): Promise<string | null> {
  try {
    const image = new Image();
    image.crossOrigin = 'anonymous';
    image.src = href;
    await image.decode();
    const { naturalWidth, naturalHeight } = image;
    const share = Math.min(1, LONGEST / Math.max(naturalWidth, naturalHeight));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(naturalWidth * share);
    canvas.height = Math.round(naturalHeight * share);
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas.toDataURL('image/jpeg', QUALITY);
  } catch {
    return null;
  }
}
