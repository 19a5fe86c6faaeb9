import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import * as z from 'zod/mini';
import { lineOfText } from '../../shared/edits/placing-schema.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { filmBefore } from '../../shared/views/film-before.ts';
import { filmKey, filmOf, filmToShow, type FilmLook } from '../../shared/views/film-choice.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { lessonPart, lessonSheet, withheldSheet, type FoundKey } from '../../shared/views/lesson-sheet.ts';
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
  lesson: null,
  keepsBack: false,
  sheets: [],
  visits: [],
  tapes: [],
  pairs: [],
};

const key = z.nullable(z.string().check(z.maxLength(1_000_000)));
const shown = z.exactOptional(z.array(z.string().check(z.maxLength(1_000_000))).check(z.maxLength(10_000)));
const lookSchema = z.object({ film: key, line: z.nullable(lineOfText), moved: z.boolean(), over: key, shown });

/** Parameters come from any client, so their shape is looked at before it is trusted. Null where all is asked for. */
export function askedLook(params: unknown): FilmLook | null {
  const look = isObject(params) ? params['look'] : undefined;
  if (look === undefined) return null;
  const read = z.safeParse(lookSchema, look);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new ResponseError(ErrorCodes.InvalidParams, `${['look', ...(issue?.path ?? [])].join('.')}: not as expected`);
}

/**
 * Of every film, or of the one that is looked at: a case of years is not measured anew at each keystroke. Of a lesson, `key` is what its
 * films are held against; a film whose key is not shown comes without a value.
 */
export function sheets(
  { version }: Pick<TextDocument, 'version'>,
  inspection: Inspection,
  look: FilmLook | null = null,
  key: FoundKey = null,
): SheetsResult {
  const part = lessonPart(inspection, key);
  const every = listedFilms(inspection).map((one) => ({ ...one, part: part(one.film, one.reading) }));
  const isShown = ({ listed }: FilmOfList): boolean => look?.shown?.includes(filmKey(listed)) === true;
  /** The key's own reading is there once that of a student beside it is held against it. */
  const all = every.filter(
    (one) => one.part !== 'key' || every.some((other) => other.film === one.film && other !== one && isShown(other)),
  );
  const isKeptBack = (one: PartOfLesson): boolean => one.part === 'student' && !isShown(one);
  const keepsBack = all.some(isKeptBack);
  const films = all.map(({ listed }) => listed);
  const shown = look && oneOf(all, filmToShow(films, look));
  const over = look && oneOf(all, filmOf(films, look.over));
  const visits = visitSheets(inspection);
  const visit = shown && visits.find(({ line, endLine }) => line <= shown.listed.line && shown.listed.line <= endLine);
  const isHere = ({ line }: { readonly line: number }): boolean =>
    !visit || (visit.line <= line && line <= visit.endLine);
  const sheetFor = (one: PartOfLesson): FilmSheet | null => {
    const sheet = sheetOf(one, inspection);
    return sheet && isKeptBack(one) ? withheldSheet(sheet) : sheet;
  };
  return {
    version,
    caseName: inspection.study.record.animal?.is.name ?? null,
    animal: { kind: inspection.study.animal.kind, heightMm: inspection.study.animal.heightMm },
    alarms: alarmsOf(inspection, keepsBack),
    films,
    sheet: shown && sheetFor(shown),
    over: over && over !== shown && !keepsBack ? laidFilmOf(over, inspection) : null,
    before: shown && !isKeptBack(shown) ? filmBefore(inspection.study, shown.film, shown.reading) : null,
    lesson: shown?.part === 'student' ? lessonSheet(inspection, key, shown.film, shown.reading, isShown(shown)) : null,
    keepsBack,
    sheets: look ? [] : keepsBack ? all.flatMap((one) => sheetFor(one) ?? []) : filmSheets(inspection),
    visits,
    tapes: tapeSheets(inspection).filter(isHere),
    pairs: keepsBack ? [] : pairSheets(inspection.study).filter(isHere),
  };
}

interface PartOfLesson extends FilmOfList {
  readonly part: 'student' | 'key' | null;
}

function oneOf<T extends FilmOfList>(all: readonly T[], listed: FilmOfList['listed'] | null): T | null {
  return all.find((one) => one.listed === listed) ?? null;
}

function sheetOf({ film, reading }: FilmOfList, inspection: Inspection): FilmSheet | null {
  return filmSheets(inspection, (one, by) => one === film && by === reading)[0] ?? null;
}

function laidFilmOf(film: FilmOfList, inspection: Inspection): SheetsResult['over'] {
  const sheet = sheetOf(film, inspection);
  return sheet && laidFilm(sheet);
}
