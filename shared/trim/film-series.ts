import { dayNumber } from '../notation/dates.ts';
import type { StudiedFilm } from './study.ts';

/** The films (no photographs) of each foot and view in the order of their days; of one day, in the order of the text. */
export class FilmSeries {
  private readonly byKey = new Map<string, { readonly day: number; readonly studied: StudiedFilm }[]>();

  constructor(films: readonly StudiedFilm[]) {
    for (const studied of films) {
      const day = dayOfFilm(studied);
      if (studied.film.kind !== 'film' || day === null) continue;
      const key = keyOf(studied.film.foot, studied.film.view);
      const those = this.byKey.get(key) ?? [];
      this.byKey.set(key, those);
      those.push({ day, studied });
    }
    for (const those of this.byKey.values()) those.sort((a, b) => a.day - b.day);
  }

  /** All of a foot and view. */
  of(foot: string, view: string): StudiedFilm[] {
    return this.list(foot, view).map(({ studied }) => studied);
  }

  /** The newest film that is not later than `day`. */
  upTo(foot: string, view: string, day: number): StudiedFilm | null {
    return this.list(foot, view)[this.after(foot, view, day) - 1]?.studied ?? null;
  }

  /** The oldest film that is later than `day`. */
  following(foot: string, view: string, day: number): StudiedFilm | null {
    return this.list(foot, view)[this.after(foot, view, day)]?.studied ?? null;
  }

  private list(foot: string, view: string): readonly { readonly day: number; readonly studied: StudiedFilm }[] {
    return this.byKey.get(keyOf(foot, view)) ?? [];
  }

  /** How many films are not later than `day`. */
  private after(foot: string, view: string, day: number): number {
    const those = this.list(foot, view);
    let low = 0;
    let high = those.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((those[middle]?.day ?? Infinity) <= day) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

const keyOf = (foot: string, view: string): string => `${foot} ${view}`;

/** The day a film was taken: its own, else that of its visit. */
export function dayOfFilm({ film, visit }: StudiedFilm): number | null {
  const date = film.taken ?? visit.is.date;
  return date === null ? null : dayNumber(date);
}
