import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import * as z from 'zod/mini';
import { lineOfText } from '../../shared/edits/placing-schema.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { filmBefore } from '../../shared/views/film-before.ts';
import { filmOf, filmToShow, type FilmLook } from '../../shared/views/film-choice.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { laidFilm } from '../../shared/views/laid-over.ts';
import { listedFilms, type FilmOfList } from '../../shared/views/listed-films.ts';
import { pairSheets } from '../../shared/views/pair-sheet.ts';
import { tapeSheets } from '../../shared/views/tape-sheet.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import type { SheetsResult } from '../../shared/protocol/sheets.ts';
import { isObject } from '../serving/params.ts';

/** The answer for a file that is not open. */
export const noSheets: SheetsResult = {
  version: null,
  caseName: null,
  animal: { kind: null, heightMm: null },
  alarms: [],
  films: [],
  sheet: null,
  over: null,
  before: null,
  sheets: [],
  visits: [],
  tapes: [],
  pairs: [],
};

const key = z.nullable(z.string().check(z.maxLength(1_000_000)));
const lookSchema = z.object({ film: key, line: z.nullable(lineOfText), moved: z.boolean(), over: key });

/** Parameters come from any client, so their shape is looked at before it is trusted. Null where all is asked for. */
export function askedLook(params: unknown): FilmLook | null {
  const look = isObject(params) ? params['look'] : undefined;
  if (look === undefined) return null;
  const read = z.safeParse(lookSchema, look);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new ResponseError(ErrorCodes.InvalidParams, `${['look', ...(issue?.path ?? [])].join('.')}: not as expected`);
}

/** Of every film, or of the one that is looked at: a case of years is not measured anew at each keystroke. */
export function sheets(
  { version }: Pick<TextDocument, 'version'>,
  inspection: Inspection,
  look: FilmLook | null = null,
): SheetsResult {
  const all = listedFilms(inspection);
  const films = all.map(({ listed }) => listed);
  const shown = look && oneOf(all, filmToShow(films, look));
  const over = look && oneOf(all, filmOf(films, look.over));
  const visits = visitSheets(inspection);
  const visit = shown && visits.find(({ line, endLine }) => line <= shown.listed.line && shown.listed.line <= endLine);
  const isHere = ({ line }: { readonly line: number }): boolean =>
    !visit || (visit.line <= line && line <= visit.endLine);
  return {
    version,
    caseName: inspection.study.record.animal?.is.name ?? null,
    animal: { kind: inspection.study.animal.kind, heightMm: inspection.study.animal.heightMm },
    alarms: alarmsOf(inspection),
    films,
    sheet: shown && sheetOf(shown, inspection),
    over: over && over !== shown ? laidFilmOf(over, inspection) : null,
    before: shown && filmBefore(inspection.study, shown.film, shown.reading),
    sheets: look ? [] : filmSheets(inspection),
    visits,
    tapes: tapeSheets(inspection).filter(isHere),
    pairs: pairSheets(inspection.study).filter(isHere),
  };
}

function oneOf(all: readonly FilmOfList[], listed: FilmOfList['listed'] | null): FilmOfList | null {
  return all.find((one) => one.listed === listed) ?? null;
}

function sheetOf({ film, reading }: FilmOfList, inspection: Inspection): FilmSheet | null {
  return filmSheets(inspection, (one, by) => one === film && by === reading)[0] ?? null;
}

function laidFilmOf(film: FilmOfList, inspection: Inspection): SheetsResult['over'] {
  const sheet = sheetOf(film, inspection);
  return sheet && laidFilm(sheet);
}
