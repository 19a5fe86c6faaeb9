import { countWhile } from '../notation/count-while.ts';
import type { StudiedFilm } from './studied.ts';

/** Asks for a film of a foot by its day. */
export interface FilmsByDay {
  /** The newest film that is not later than `day`. */
  upTo(foot: string, view: string, day: number): StudiedFilm | null;
  /** The oldest film that is later than `day`. */
  following(foot: string, view: string, day: number): StudiedFilm | null;
}

/** Films with their days beside them, ascending: a search walks over the days alone. */
interface Series {
  readonly days: number[];
  readonly films: StudiedFilm[];
}

/** The films (no photographs) of each foot and view in the order of their days; of one day, in the order of the text. */
export class FilmSeries implements FilmsByDay {
  private readonly byFoot = new Map<string, Map<string, Series>>();

  constructor(films: readonly StudiedFilm[]) {
    const unsorted = new Set<Series>();
    for (const studied of films) {
      const { film, day } = studied;
      if (film.kind !== 'film' || day === null) continue;
      const series = this.seriesFor(film.foot, film.view);
      if ((series.days.at(-1) ?? day) > day) unsorted.add(series);
      series.days.push(day);
      series.films.push(studied);
    }
    for (const series of unsorted) sort(series);
  }

  upTo(foot: string, view: string, day: number): StudiedFilm | null {
    const series = this.byFoot.get(foot)?.get(view);
    return series?.films[countWhile(series.days, (one) => one <= day) - 1] ?? null;
  }

  following(foot: string, view: string, day: number): StudiedFilm | null {
    const series = this.byFoot.get(foot)?.get(view);
    return series?.films[countWhile(series.days, (one) => one <= day)] ?? null;
  }

  /** The newest film that comes before a moment; of its day, those that stand above it in the text. */
  before(foot: string, view: string, moment: When): StudiedFilm | null {
    const series = this.byFoot.get(foot)?.get(view);
    return series?.films[countBefore(series, moment) - 1] ?? null;
  }

  /** The oldest film that comes after a moment. */
  after(foot: string, view: string, moment: When): StudiedFilm | null {
    const series = this.byFoot.get(foot)?.get(view);
    return series?.films[countBefore(series, moment)] ?? null;
  }

  /** All of a foot and view, by day. */
  of(foot: string, view: string): readonly StudiedFilm[] {
    return this.byFoot.get(foot)?.get(view)?.films ?? [];
  }

  private seriesFor(foot: string, view: string): Series {
    let byView = this.byFoot.get(foot);
    if (!byView) this.byFoot.set(foot, (byView = new Map<string, Series>()));
    let series = byView.get(view);
    if (!series) byView.set(view, (series = { days: [], films: [] }));
    return series;
  }
}

/** A day, and within it a place in the text: what stands further down came later. */
export interface When {
  readonly day: number;
  readonly at: number;
}

export const isBefore = (one: When, other: When): boolean =>
  one.day < other.day || (one.day === other.day && one.at < other.at);

/** Null for a film without a day. */
export function momentOf({ day, visit, film }: StudiedFilm): When | null {
  return day === null ? null : { day, at: visit.start + film.head.start };
}

function countBefore({ days, films }: Series, moment: When): number {
  let count = countWhile(days, (one) => one <= moment.day);
  for (let film = films[count - 1]; film?.day === moment.day && !isBefore(momentOf(film) ?? moment, moment);)
    film = films[--count - 1];
  return count;
}

function sort({ days, films }: Series): void {
  films.sort((a, b) => (a.day ?? 0) - (b.day ?? 0));
  days.sort((a, b) => a - b);
}
