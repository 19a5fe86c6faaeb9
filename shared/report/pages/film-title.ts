import { spoken } from '../../language/rows.ts';
import { sayDate } from '../../findings/wording/say-day.ts';
import { footWords, sentence } from '../../findings/wording/wording.ts';
import type { FilmSheet } from '../../views/film-sheet.ts';

/** `Left fore, from the side, 26 May 2026.`; without its reader. */
export function titleOf({ foot, view, date }: Pick<FilmSheet, 'foot' | 'view' | 'date'>): string {
  return `${sentence(footWords[foot])}, ${viewWords[view]}${date === null ? '' : `, ${sayDate(date)}`}.`;
}

export const viewWords = spoken({ lateral: 'from the side', front: 'from in front', solar: 'from below' });
