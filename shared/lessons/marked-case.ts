import type { FootName } from '../notation/choices.ts';
import type { View } from '../notation/landmarks.ts';
import { studyCase, type StudiedCut, type StudiedFilm, type StudiedReading, type Study } from '../trim/study.ts';
import { markedPlans, type MarkedPlans } from './marked-plan.ts';
import { isSameFilm, type FilmAcross } from './same-film.ts';
import { markedReading, type MarkedReading } from './marked-reading.ts';
import { markedValues, type MarkedValue } from './marked-value.ts';

/** A film of the key with what a student has read on it. */
export interface MarkedFilm {
  readonly foot: FootName;
  readonly view: View;
  /** As the key writes it. */
  readonly picture: string;
  /** The student's file has the film. */
  readonly there: boolean;
  /** Null where it has not, or nothing is placed on it. */
  readonly marked: MarkedReading | null;
  /** What is read off it and written down; empty where the key asks for nothing and nothing is written. */
  readonly values: readonly MarkedValue[];
  /** Null where nobody plans on it and nothing speaks against planning. */
  readonly plans: MarkedPlans | null;
}

/** Every film of the key that has places, in the order of its text. */
export interface KeyFilm {
  readonly film: StudiedFilm;
  readonly reading: StudiedReading;
  /** The key with its reader's places alone, and the film in it: what plans are judged on. Made when first asked for. */
  asRead(): { readonly study: Study; readonly film: StudiedFilm };
}

/** The readings of a key: those by `reader`, or where nobody is named the first of each film that places something. */
export function keyFilms(key: Study, reader: string | null): readonly KeyFilm[] {
  let made: Study | null = null;
  const asRead = (): Study => (made ??= reader === null ? key : readBy(key, reader));
  return key.films.flatMap((film, index) => {
    const reading = film.readings.find(
      (one) => one.input.landmarks.length > 0 && (reader === null || one.reading.reader === reader),
    );
    return reading ? [{ film, reading, asRead: () => ({ study: asRead(), film: asRead().films[index] ?? film }) }] : [];
  });
}

/** The case with one reader's places alone, so that plans are judged on them too. */
function readBy({ record, films, ...settings }: Study, reader: string): Study {
  const stored = new Map(films.map(({ film, stored: scale }) => [film.path.text, scale]));
  const visits = record.visits.map((visit) => ({
    ...visit,
    is: {
      ...visit.is,
      films: visit.is.films.map((film) => ({
        ...film,
        readings: film.readings.filter((one) => one.reader === reader),
      })),
    },
  }));
  return studyCase({ ...record, visits }, settings, (path) => stored.get(path) ?? null);
}

/**
 * A student's case held against a key. A film is the same where foot, view and the picture's name are: student and teacher keep
 * the picture in folders of their own. Of several readings of it the first
 * that places something counts, and never the key itself, where that stands in the same file.
 */
export function markedCase(
  key: readonly KeyFilm[],
  student: Pick<Study, 'films' | 'cuts'>,
  tolerance: number | null,
): readonly MarkedFilm[] {
  const plans = plansByFilm(key, student.cuts);
  const last = key.findLastIndex(({ film }) => isPlannedOn(film));
  return key.map((right, index): MarkedFilm => {
    const { film, reading } = right;
    const { foot, view } = film.film;
    const same = student.films.filter((one) => isSameFilm(filmAcross(one), filmAcross(film)));
    const read = same
      .flatMap(({ readings }) => readings)
      .find((one) => one.input.landmarks.length > 0 && one !== reading);
    return {
      foot,
      view,
      picture: film.film.path.text,
      there: same.length > 0,
      marked: read ? markedReading(reading, read, tolerance) : null,
      values: markedValues(
        askedOf(film, same),
        reading,
        same.flatMap((one) => one.film.expects),
      ),
      plans: isPlannedOn(film)
        ? markedPlans(
            { ...right.asRead(), isNewest: isNewest(film, key) },
            plans.get(index) ?? [],
            index === last ? (plans.get(NOWHERE) ?? []) : [],
          )
        : null,
    };
  });
}

/** What the key states; of a key that is a reading in the student's own file nobody can tell who stated it, and it is the student's. */
const askedOf = ({ film }: StudiedFilm, student: readonly StudiedFilm[]): StudiedFilm['film']['expects'] =>
  student.some((one) => one.film === film) ? [] : film.expects;

/** In place of a film of the key: of the plan's foot it has none. */
const NOWHERE = -1;

/** By the place of the key's film in the key. A plan on a film that the key does not have is one on the foot's last film. */
function plansByFilm(key: readonly KeyFilm[], cuts: readonly StudiedCut[]): ReadonlyMap<number, readonly StudiedCut[]> {
  const plans = new Map<number, StudiedCut[]>();
  for (const one of cuts) {
    if (one.cut.kind !== 'plan') continue;
    const of = key.findLastIndex(
      ({ film }) => one.film !== null && isPlannedOn(film) && isSameFilm(filmAcross(one.film), filmAcross(film)),
    );
    const at =
      of !== NOWHERE ? of : key.findLastIndex(({ film }) => isPlannedOn(film) && film.film.foot === one.cut.foot);
    plans.set(at, [...(plans.get(at) ?? []), one]);
  }
  return plans;
}

/** Of the films of its foot that plans can be made on, the last in the key. */
const isNewest = (film: StudiedFilm, key: readonly KeyFilm[]): boolean =>
  key.findLast((one) => isPlannedOn(one.film) && one.film.film.foot === film.film.foot)?.film === film;

const isPlannedOn = ({ film }: StudiedFilm): boolean => film.kind === 'film' && film.view === 'lateral';

export const filmAcross = ({ film }: StudiedFilm): FilmAcross => ({
  foot: film.foot,
  view: film.view,
  picture: film.path.text,
});
