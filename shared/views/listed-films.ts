import { shownDate } from '../language/dates.ts';
import { sayChoice } from '../language/choice-words.ts';
import { t } from '../language/words.ts';
import type { Inspection } from '../findings/inspect.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { LineMap } from '../notation/line-map.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { cutsOfReadings } from './cuts-of-readings.ts';
import type { FilmName, ListedFilm } from './film-choice.ts';

/** A film of the list with the reading that its sheet is made of. */
export interface FilmOfList {
  readonly listed: ListedFilm;
  readonly film: StudiedFilm;
  readonly reading: StudiedReading;
}

/** Every reading of every film in short, in the order of the text. Nothing is measured for it. */
export function listedFilms({ study, tree }: Pick<Inspection, 'study' | 'tree'>): FilmOfList[] {
  const map = new LineMap(tree.text);
  const cutsOf = cutsOfReadings(study);
  return study.films.flatMap((film) =>
    film.readings.map((reading) => {
      const { along, across } = cutsOf(film, reading);
      const cuts = [...along, ...across.map(({ cut }) => cut)].map(({ cut: { at }, visit: { start } }) => ({
        line: map.at(start + at.start).line,
        endLine: map.at(start + at.end).line,
      }));
      const lines =
        film.readings.length === 1
          ? []
          : reading.reading.placings.map(({ at }) => map.at(film.visit.start + at.start).line);
      return { film, reading, listed: { ...filmName(film, reading, map), view: film.film.view, lines, cuts } };
    }),
  );
}

/** What a film is called, and where it stands in the text. */
export function filmName(
  { film, visit }: StudiedFilm,
  { reading: { reader } }: StudiedReading,
  map: LineMap,
): Omit<FilmName, 'view'> {
  const date = film.taken ?? visit.is.date;
  const by = reader === null ? '' : t(', read by {0}', reader);
  return {
    title: `${sentence(footWords[film.foot])}, ${t('{0} {1}', sayChoice(film.view), sayChoice(film.kind))}${date ? `, ${shownDate(date)}` : ''}${by}`,
    foot: film.foot,
    kind: film.kind,
    date,
    reader,
    line: map.at(visit.start + film.at.start).line,
    endLine: map.at(visit.start + film.at.end).line,
    picture: film.path.text,
  };
}
