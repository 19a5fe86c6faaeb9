import type { animals } from '../notation/choices.ts';
import { notationVersion } from '../record/assemble.ts';
import { filmLine, type FilmOfFoot } from './film-of-foot.ts';
import { quoted } from './quoted.ts';

export interface NewCase {
  readonly name: string;
  readonly animal: (typeof animals)[number];
  /** `YYYY-MM-DD`, of the first visit. */
  readonly today: string;
  readonly film: FilmOfFoot | null;
}

/** The text of a case file with a first visit, laid out as the formatter would. */
export function newCaseText({ name, animal, today, film }: NewCase): string {
  const lines = [
    `hoof ${notationVersion}`,
    '',
    `case ${quoted(name)}`,
    `  animal    ${animal}`,
    '',
    `visit ${today} "first visit"`,
    ...(film ? ['', filmLine(film)] : []),
  ];
  return `${lines.join('\n')}\n`;
}

/**
 * `fern`, of a name as a person writes it: what a case file is called without its ending, with a number where there is one
 * already. @param taken names of files, in small letters
 */
export function caseFileName(name: string, taken: ReadonlySet<string>): string {
  const plain =
    name
      .trim()
      .toLowerCase()
      .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60) || 'case';
  for (let count = 1; ; count++) {
    const file = `${plain}${count === 1 ? '' : `-${count}`}`;
    if (!taken.has(`${file}.hoof`)) return file;
  }
}
