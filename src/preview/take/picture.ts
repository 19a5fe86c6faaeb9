import type { Drawing } from '../../../shared/drawing/alone.ts';

/** Pixels of the picture to one of the drawing: sharp in print. */
const SHARP = 2;

/** A drawing as a picture of points, on paper. */
export async function pngOf({ svg, width, height }: Drawing): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(width, height);
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * SHARP);
    canvas.height = Math.round(height * SHARP);
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (!blob) throw new Error('the browser made no picture');
    return blob;
  } finally {
    URL.revokeObjectURL(address);
  }
}

export async function base64Of(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  let letters = '';
  // In pieces: a call takes only so many arguments.
  for (let start = 0; start < bytes.length; start += 8192)
    letters += String.fromCharCode(...bytes.subarray(start, start + 8192));
  return btoa(letters);
}
