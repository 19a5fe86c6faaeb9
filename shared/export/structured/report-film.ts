import { footWords, sentence } from '../../findings/wording/wording.ts';
import type { StudiedFilm, Study } from '../../trim/study.ts';
import { dateOf } from './film-report.ts';

/** A film of which there can be a report: radiographs only, as a photo is nothing for the vet's archive. */
export interface ReportFilm {
  readonly film: StudiedFilm;
  /** As the command line names it: `LF/2026-03-03`. */
  readonly name: string;
  /** `Left fore, lateral, 2026-03-03`, for a person to choose by. */
  readonly title: string;
  /** Of the case's file, for the file that is written: `juniper-lf-lateral-2026-03-03.dcm`. */
  readonly fileName: string;
}

/** @param caseName of the case's file, without its folder */
export function reportFilms({ films }: Pick<Study, 'films'>, caseName: string): ReportFilm[] {
  const base = caseName.replace(/\.hoof$/, '').replace(/^-?$/, 'case');
  const taken = new Set<string>();
  return films
    .filter(({ film }) => film.kind === 'film')
    .map((film) => {
      const { foot, view } = film.film;
      const date = dateOf(film);
      const plain = [base, foot.toLowerCase(), view, date].filter((part) => part !== null).join('-');
      let fileName = `${plain}.dcm`;
      for (let n = 2; taken.has(fileName); n++) fileName = `${plain}-${n}.dcm`;
      taken.add(fileName);
      const title = [sentence(footWords[foot]), view, date].filter((part) => part !== null).join(', ');
      return { film, name: date === null ? foot : `${foot}/${date}`, title, fileName };
    });
}
