import { severities } from '../reference/severity.ts';
import type { Note } from './film-sheet.ts';

/** The order in which notes are read: the gravest first, those of one severity by their lines. */
export function graverFirst(a: Note, b: Note): number {
  return severities.indexOf(a.severity) - severities.indexOf(b.severity) || a.line - b.line;
}
