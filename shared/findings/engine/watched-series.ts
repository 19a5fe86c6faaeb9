import type { FilmsByDay } from '../../trim/film-series.ts';
import type { StudiedFilm } from '../../trim/study.ts';

/** A film that was asked for by its day, and what the answer was. */
export interface Look {
  readonly ask: keyof FilmsByDay;
  readonly foot: string;
  readonly view: string;
  readonly day: number;
  readonly film: StudiedFilm | null;
}

/** Films by day for rules. Notes every question, so that a remembered finding knows what it rests on. */
export class WatchedSeries implements FilmsByDay {
  private readonly series: FilmsByDay;
  private looks: Look[] = [];

  constructor(series: FilmsByDay) {
    this.series = series;
  }

  upTo(foot: string, view: string, day: number): StudiedFilm | null {
    return this.look('upTo', foot, view, day);
  }

  following(foot: string, view: string, day: number): StudiedFilm | null {
    return this.look('following', foot, view, day);
  }

  /** The questions since the last call. */
  taken(): readonly Look[] {
    const { looks } = this;
    this.looks = [];
    return looks;
  }

  private look(ask: keyof FilmsByDay, foot: string, view: string, day: number): StudiedFilm | null {
    const asked = this.looks.find(
      (one) => one.ask === ask && one.day === day && one.foot === foot && one.view === view,
    );
    if (asked) return asked.film;
    const film = this.series[ask](foot, view, day);
    this.looks.push({ ask, foot, view, day, film });
    return film;
  }
}
