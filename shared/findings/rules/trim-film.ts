import { shownDate } from '../../language/dates.ts';
import { t } from '../../language/words.ts';
import type { Related } from '../finding.ts';
import type { StudiedCut } from '../../trim/study.ts';

/** The film that a cut is predicted on, to be shown beside what is said of the cut. */
export function filmOf({ film }: StudiedCut): Related[] {
  if (!film) return [];
  const { start } = film.visit;
  return [
    {
      at: { start: start + film.film.head.start, end: start + film.film.head.end },
      message: t('Predicted on this film of {0}.', shownDate(film.film.taken ?? film.visit.is.date ?? '')),
    },
  ];
}

/** Where a cut is written: the number that does it, else the header. */
export function cutPlace({ cut }: StudiedCut, first: 'heel' | 'toe'): { start: number; end: number } {
  const heel = cut.heelDown;
  const toe = cut.toeDown ?? cut.toeBack ?? cut.insideDown ?? cut.outsideDown;
  return (first === 'heel' ? (heel ?? toe) : (toe ?? heel))?.at ?? cut.head;
}
