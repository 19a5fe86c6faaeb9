import { t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import type { Finding, Severity } from '../finding.ts';

/** What can be wrong with a file before anything is read in it. */
export type FileCode = 'file/too-large' | 'file/not-utf-8';

/**
 * A case of 10 MB would hold some 5,000 visits with films. Counted in bytes where there is a file, in UTF-16 units where
 * there is only a text.
 */
export const largestFile = 10_000_000;

/**
 * Lines in a case: 10 MB of usual visits has some 350,000. A line takes about 1 KB of memory however short it is, so that the size
 * alone bounds nothing.
 */
export const mostLines = 400_000;

/** What a text has more of than is read as a case. */
export type TooMuch = 'bytes' | 'lines';

/** Null for a text that is read as a case. CR LF, LF and CR end a line; what stands behind the last end counts as one, too. */
export function tooMuchIn(text: string): TooMuch | null {
  if (text.length > largestFile) return 'bytes';
  if (text.length < mostLines) return null;
  let lines = 1;
  for (let at = 0; at < text.length; at++) {
    const sign = text.charCodeAt(at);
    if ((sign === LF || (sign === CR && text.charCodeAt(at + 1) !== LF)) && ++lines > mostLines) return 'lines';
  }
  return null;
}

const CR = 13;
const LF = 10;

// prettier-ignore
export const fileCodes: Readonly<Record<FileCode, { severity: Severity; title: string; about: string }>> = {
  'file/too-large': { severity: 'info', title: 'File too large for a case', about: 'A file of more than 10 MB, or of more than 400,000 lines, is not read as a case: nothing in it is checked or measured. Other files are not touched by it.' },
  'file/not-utf-8': { severity: 'warning', title: 'File not saved as UTF-8', about: 'Case files are saved as UTF-8. In another encoding letters beyond the English ones are lost or exchanged, in names most of all.' },
};

function fileFinding(code: FileCode, at: { start: number; end: number }, message: string): Finding {
  return { code, severity: fileCodes[code].severity, at, message, related: [], fixes: [] };
}

const tooMuchWords: Readonly<Record<TooMuch, string>> = spoken({
  bytes: 'is larger than 10 MB',
  lines: 'has more than 400,000 lines',
});

/** Told at the first line. */
export function tooLarge(text: string, tooMuch: TooMuch): Finding {
  const end = /[\r\n]/.exec(text)?.index ?? text.length;
  return fileFinding(
    'file/too-large',
    { start: 0, end: Math.min(end, 200) },
    t(
      'This file {0}, so it is not read as a case: nothing in it is checked or measured. If it is a case, move its older visits into a second file.',
      tooMuchWords[tooMuch],
    ),
  );
}

/** `at` counts UTF-16 units in the text as it was decoded; the place in the sentence counts from 1. */
export function notUtf8(at: number, place: { line: number; column: number }, byte: number): Finding {
  const written = byte.toString(16).toUpperCase().padStart(2, '0');
  return fileFinding(
    'file/not-utf-8',
    { start: at, end: at + 1 },
    t(
      'This file is not saved as UTF-8: the first letter that cannot be read stands in line {0}, column {1} (byte {2}). Save the file as UTF-8, and look whether its names are still right.',
      place.line + 1,
      place.column + 1,
      written,
    ),
  );
}

export function utf16(): Finding {
  return fileFinding(
    'file/not-utf-8',
    { start: 0, end: 0 },
    t(
      'This file is saved as UTF-16. Here it is read all the same, but the command line reads UTF-8 only: save the file as UTF-8.',
    ),
  );
}
