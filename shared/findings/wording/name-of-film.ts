import { t } from '../../language/words.ts';
import type { StudiedFilm } from '../../trim/study.ts';
import { sayDay } from './say-day.ts';

/** `the film of 3 March 2026`. */
export const nameOf = ({ day, film, visit }: StudiedFilm): string =>
  t('the film of {0}', day === null ? (film.taken ?? visit.is.date ?? t('no date')) : sayDay(day));
