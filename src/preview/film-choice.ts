import type { FilmSheet } from '../../shared/views/film-sheet.ts';

/** What a film is known by while its text changes. */
export function filmKey({ kind, foot, view, date, picture, reader }: FilmSheet): string {
  return [kind, foot, view, date, picture, reader].map((part) => part ?? '').join('\n');
}

/** The film that a line of the text belongs to: the block it is in, or the last film, plan or trim above it. */
export function sheetAt(sheets: readonly FilmSheet[], line: number): FilmSheet | null {
  const own = sheets.filter((sheet) => sheet.line <= line && line <= sheet.endLine);
  if (own.length > 0)
    return nearestAbove(own, line, (sheet) => Object.values(sheet.placed).map((place) => place.line)) ?? own[0] ?? null;
  return nearestAbove(sheets, line, (sheet) => [sheet.line, ...sheet.cuts.map((cut) => cut.line)]);
}

function nearestAbove(
  sheets: readonly FilmSheet[],
  line: number,
  linesOf: (sheet: FilmSheet) => readonly number[],
): FilmSheet | null {
  let nearest: FilmSheet | null = null;
  let at = -1;
  for (const sheet of sheets)
    for (const one of linesOf(sheet))
      if (one <= line && one > at) {
        nearest = sheet;
        at = one;
      }
  return nearest;
}

/** `chosen` is a film's key; where that film is gone, the cursor decides, then the newest lateral film, then the newest. */
export function currentSheet(
  sheets: readonly FilmSheet[],
  chosen: string | null,
  line: number | null,
): FilmSheet | null {
  const same = sheets.find((sheet) => filmKey(sheet) === chosen);
  return same ?? (line === null ? null : sheetAt(sheets, line)) ?? newest(sheets);
}

/** Of several of one day the first in the text, as its readers stand there. */
function newest(sheets: readonly FilmSheet[]): FilmSheet | null {
  const lateral = sheets.filter(({ view }) => view === 'lateral');
  const among = lateral.length > 0 ? lateral : sheets;
  return among.reduce<FilmSheet | null>(
    (best, sheet) => (best === null || (sheet.date ?? '') > (best.date ?? '') ? sheet : best),
    null,
  );
}

/** The landmark that is placed on this line. */
export function landmarkOn(sheet: FilmSheet, line: number | null): string | null {
  return Object.entries(sheet.placed).find(([, place]) => place.line === line)?.[0] ?? null;
}
