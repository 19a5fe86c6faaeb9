import { notationVersion } from '../record/assemble.ts';
import { filmLine, type FilmOfFoot } from './film-of-foot.ts';

/** The line of a visit of that day, from 0; null where there is none. @param day `YYYY-MM-DD` */
export function visitOn(text: string, day: string): number | null {
  const line = text.split(/\r\n|\r|\n/).findIndex((one) => /^visit[ \t]+(\S+)/.exec(one)?.[1] === day);
  return line < 0 ? null : line;
}

/** A visit of today behind all that is written, as text to put at an offset. */
export function newVisit(
  text: string,
  { today, film }: { readonly today: string; readonly film: FilmOfFoot | null },
): { readonly at: number; readonly text: string } {
  const lineEnd = /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
  const at = text.trimEnd().length;
  const lines = [
    ...(at === 0 ? [`hoof ${notationVersion}`, ''] : ['', '']),
    `visit ${today}`,
    ...(film ? ['', filmLine(film)] : []),
  ];
  // What stands behind it, blank lines at most, ends its last line.
  return { at, text: lines.join(lineEnd) + (/^[ \t]*[\r\n]/.test(text.slice(at)) ? '' : lineEnd) };
}
