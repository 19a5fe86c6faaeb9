import { readdirSync, readFileSync } from 'node:fs';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';

const folder = new URL('../../examples/', import.meta.url);

/** Every reading of every film and photo of the examples that is placed on. */
export const exampleSheets = (): readonly FilmSheet[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.hoof') && name !== 'mistakes.hoof')
    .flatMap((name) => filmSheets(inspect(readFileSync(new URL(name, folder), 'utf8'))))
    .filter(({ placed }) => Object.keys(placed).length > 2);
