import { t } from '../language/words.ts';

export type PictureKind = 'png' | 'jpeg' | 'webp' | 'gif' | 'tiff' | 'dicom' | 'unknown';

/** By the bytes that a file begins with, never by its name: clinics rename files. */
export function pictureKind(bytes: Uint8Array): PictureKind {
  if (has(bytes, 128, 'DICM')) return 'dicom';
  if (has(bytes, 0, '\x89PNG\r\n\x1a\n')) return 'png';
  if (has(bytes, 0, '\xff\xd8\xff')) return 'jpeg';
  if (has(bytes, 0, 'RIFF') && has(bytes, 8, 'WEBP')) return 'webp';
  if (has(bytes, 0, 'GIF87a') || has(bytes, 0, 'GIF89a')) return 'gif';
  if (['II*\0', 'MM\0*', 'II+\0', 'MM\0+'].some((start) => has(bytes, 0, start))) return 'tiff';
  return 'unknown';
}

/** Why a file of no kind that is read here cannot be used, with what to do about it where its kind is known. */
export function whyUnknown(bytes: Uint8Array): string {
  if (bytes.length === 0) return t('The file is empty.');
  if (has(bytes, 4, 'ftyp'))
    return t('This is a photograph in the HEIC or AVIF format, which is not read here. Export it as JPEG or PNG.');
  if (has(bytes, 0, '%PDF')) return t('This is a PDF document, not a picture. Export the film from it as PNG.');
  if (has(bytes, 0, 'BM')) return t('This is a Windows bitmap, which is not read here. Save it as PNG.');
  return t('This is not a picture that can be read here. PNG, JPEG, WebP, GIF, TIFF and DICOM are.');
}

function has(bytes: Uint8Array, at: number, text: string): boolean {
  return bytes.length >= at + text.length && [...text].every((letter, i) => bytes[at + i] === letter.charCodeAt(0));
}
