import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { NewFilmsResult } from '../../shared/protocol/new-films.ts';
import { newFilms, type NewPicture } from '../../shared/edits/film-notation.ts';
import { rangeOf } from '../text/ranges.ts';
import { dateOf } from '../serving/today.ts';

/** As many as somebody can have meant to put down at once. */
const most = 100;
/** UTF-16 units of a name or a path: more than any file system has. */
const longest = 10_000;
/** File names in a folder that new names have to keep clear of. */
const mostTaken = 100_000;

/** Film blocks for pictures put down at `offset`. */
export function filmsFor(
  document: TextDocument,
  { tree, study }: Inspection,
  offset: number,
  params: unknown,
  now: Date,
): NewFilmsResult {
  const { pictures, taken } = asked(params);
  const caseName = nameOf(document.uri).replace(/\.hoof$/i, '');
  const made = newFilms(tree, study.record, offset, pictures, { today: dateOf(now), caseName, taken });
  return { range: rangeOf(document, made), snippet: made.snippet, copies: made.copies };
}

function asked(params: unknown): { pictures: NewPicture[]; taken: string[] } {
  const { pictures, taken } = (params ?? {}) as { pictures?: unknown; taken?: unknown };
  if (!Array.isArray(pictures) || pictures.length === 0 || pictures.length > most || !pictures.every(isPicture))
    throw new ResponseError(ErrorCodes.InvalidParams, `pictures needs 1 to ${most} of { name, path }`);
  return {
    pictures: pictures.map(writable),
    taken: Array.isArray(taken) ? taken.slice(0, mostTaken).filter(isText) : [],
  };
}

const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= longest;

/** A path that no text of a case file can hold, as it has a line end in it, is none: the picture is copied to one that can. */
function writable(picture: NewPicture): NewPicture {
  return picture.path !== null && /[\p{Cc}\u2028\u2029]/u.test(picture.path) ? { ...picture, path: null } : picture;
}

function isPicture(value: unknown): value is NewPicture {
  const { name, path } = (value ?? {}) as Record<keyof NewPicture, unknown>;
  return isText(name) && (path === null || isText(path));
}

function nameOf(uri: string): string {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
