import { once } from '../../notation/once.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';

/**
 * The pictures of each foot and view, the newest first; of one day the later in the text. Photographs stand apart: they
 * show the outside only, so that none of them makes a film past, nor a film a photograph. Those without a day come first.
 */
export function picturesBackwards({ films }: Pick<Study, 'films'>): readonly (readonly StudiedFilm[])[] {
  return byFootBackwards(films);
}

const byFootBackwards = once((films: readonly StudiedFilm[]): readonly (readonly StudiedFilm[])[] => {
  const byFoot = new Map<string, StudiedFilm[]>();
  for (const studied of films) {
    const { foot, view, kind } = studied.film;
    const key = `${foot} ${view} ${kind}`;
    const same = byFoot.get(key);
    if (same) same.push(studied);
    else byFoot.set(key, [studied]);
  }
  return [...byFoot.values()].map((same) =>
    same.reverse().sort((a, b) => Number(b.day ?? Infinity) - Number(a.day ?? Infinity) || 0),
  );
});
