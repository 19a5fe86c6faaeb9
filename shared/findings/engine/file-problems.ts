import type { Finding, Severity } from '../finding.ts';

/** What can be wrong with a file before anything is read in it. */
export type FileCode = 'file/too-large' | 'file/not-utf-8';

/**
 * A case of 10 MB would hold some 5,000 visits with films. Counted in bytes where there is a file, in UTF-16 units where
 * there is only a text.
 */
export const largestFile = 10_000_000;

// prettier-ignore
export const fileCodes: Readonly<Record<FileCode, { severity: Severity; title: string; about: string }>> = {
  'file/too-large': { severity: 'info', title: 'File too large for a case', about: 'A file of more than 10 MB is not read as a case: nothing in it is checked or measured. Other files are not touched by it.' },
  'file/not-utf-8': { severity: 'warning', title: 'File not saved as UTF-8', about: 'Case files are saved as UTF-8. In another encoding letters beyond the English ones are lost or exchanged, in names most of all.' },
};

function fileFinding(code: FileCode, at: { start: number; end: number }, message: string): Finding {
  return { code, severity: fileCodes[code].severity, at, message, related: [], fixes: [] };
}

/** Told at the first line. */
export function tooLarge(text: string): Finding {
  const end = /[\r\n]/.exec(text)?.index ?? text.length;
  return fileFinding(
    'file/too-large',
    { start: 0, end: Math.min(end, 200) },
    'This file is larger than 10 MB, so it is not read as a case: nothing in it is checked or measured. If it is a case, move its older visits into a second file.',
  );
}

/** `at` counts UTF-16 units in the text as it was decoded; the place in the sentence counts from 1. */
export function notUtf8(at: number, place: { line: number; column: number }, byte: number): Finding {
  const written = byte.toString(16).toUpperCase().padStart(2, '0');
  return fileFinding(
    'file/not-utf-8',
    { start: at, end: at + 1 },
    `This file is not saved as UTF-8: the first letter that cannot be read stands in line ${place.line + 1}, column ${place.column + 1} (byte ${written}). Save the file as UTF-8, and look whether its names are still right.`,
  );
}

export function utf16(): Finding {
  return fileFinding(
    'file/not-utf-8',
    { start: 0, end: 0 },
    'This file is saved as UTF-16. Here it is read all the same, but the command line reads UTF-8 only: save the file as UTF-8.',
  );
}
