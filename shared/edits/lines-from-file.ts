import { dayNumber, firstYear, readDate } from '../notation/dates.ts';
import type { SaidOfFilm } from '../picture/dicom-said.ts';

/**
 * What a picture's own file says of its film, as lines of the film that are proposed: left as they are, or deleted. Laid
 * out as the formatter would. A day of the visit
 * itself need not be said, and one to come is a clock that goes wrong.
 *
 * @param day of the visit @param today both `YYYY-MM-DD`
 */
export function linesFromFile(
  said: SaidOfFilm | null,
  { day, today }: { readonly day: string; readonly today: string },
): readonly string[] {
  if (!said) return [];
  const { taken, scale } = said;
  const isDay = taken !== null && readDate(taken)?.day !== null && dayNumber(taken) !== null;
  const isSaid = isDay && taken !== day && taken <= today && taken >= `${firstYear}-01-01`;
  return [...(isSaid ? [`    taken   ${taken}`] : []), ...(scale ? ['    scale   dicom'] : [])];
}

/** The same as a snippet to put below the line of the film, in an editor; null where nothing is proposed. */
export function snippetFromFile(
  said: SaidOfFilm | null,
  days: { readonly day: string; readonly today: string },
): string | null {
  const lines = linesFromFile(said, days);
  return lines.length === 0 ? null : `${lines.map((line, index) => `\${${index + 1}:${line}\n}`).join('')}$0`;
}
