import type { ListedFilm } from '../../../shared/views/film-choice.ts';
import type { VisitSheet } from '../../../shared/views/visit-sheet.ts';

const within = (line: number, { line: first, endLine }: VisitSheet): boolean => first <= line && line <= endLine;

/** The visit that a line of the text is in. */
export function visitOf(visits: readonly VisitSheet[], line: number | null): VisitSheet | null {
  return line === null ? null : (visits.find((visit) => within(line, visit)) ?? null);
}

/** The films of a visit; all where it is not known which. */
export function filmsOfVisit(films: readonly ListedFilm[], visit: VisitSheet | null): readonly ListedFilm[] {
  return visit ? films.filter(({ line }) => within(line, visit)) : films;
}
