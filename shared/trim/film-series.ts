import type { StudiedFilm } from './study.ts';

/** Asks for a film of a foot by its day. */
export interface FilmsByDay {
  /** The newest film that is not later than `day`. */
  upTo(foot: string, view: string, day: number): StudiedFilm | null;
  /** The oldest film that is later than `day`. */
  following(foot: string, view: string, day: number): StudiedFilm | null;
}

/** The films (no photographs) of each foot and view in the order of their days; of one day, in the order of the text. */
export class FilmSeries implements FilmsByDay {
  private readonly byFoot = new Map<string, Map<string, StudiedFilm[]>>();

  constructor(films: readonly StudiedFilm[]) {
    const unsorted = new Set<StudiedFilm[]>();
    for (const studied of films) {
      const { film, day } = studied;
      if (film.kind !== 'film' || day === null) continue;
      const those = this.listFor(film.foot, film.view);
      const last = those.at(-1);
      if (last && dayOf(last) > day) unsorted.add(those);
      those.push(studied);
    }
    for (const those of unsorted) those.sort((a, b) => dayOf(a) - dayOf(b));
  }

  upTo(foot: string, view: string, day: number): StudiedFilm | null {
    const those = this.byFoot.get(foot)?.get(view) ?? [];
    return those[countUpTo(those, day) - 1] ?? null;
  }

  following(foot: string, view: string, day: number): StudiedFilm | null {
    const those = this.byFoot.get(foot)?.get(view) ?? [];
    return those[countUpTo(those, day)] ?? null;
  }

  private listFor(foot: string, view: string): StudiedFilm[] {
    let byView = this.byFoot.get(foot);
    if (!byView) this.byFoot.set(foot, (byView = new Map<string, StudiedFilm[]>()));
    let those = byView.get(view);
    if (!those) byView.set(view, (those = []));
    return those;
  }
}

/** In a series every film has a day. */
const dayOf = ({ day }: StudiedFilm): number => day ?? Infinity;

/** How many films of a series are not later than `day`. */
function countUpTo(those: readonly StudiedFilm[], day: number): number {
  let low = 0;
  let high = those.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (dayOf(those[middle] as StudiedFilm) <= day) low = middle + 1;
    else high = middle;
  }
  return low;
}
