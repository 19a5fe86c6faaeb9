import { once } from '../notation/once.ts';
import type { LessonKey, Placed, Reading, Visit } from './schema.ts';

/**
 * The visits of a lesson whose key is a reading in the same file. On a film that the key alone has read, the student begins with a
 * reading of their own, by nobody named, so that there is something to place on. Null `by` or another file: nothing to add.
 */
export function withBegun(visits: Placed<Visit>[], key: LessonKey | null): Placed<Visit>[] {
  const by = key?.file ? undefined : key?.by?.text;
  if (by === undefined) return visits;
  return visits.map((visit) => {
    const is = begunBy(by)(visit.is);
    return is === visit.is ? visit : { ...visit, is };
  });
}

/** One object for each visit and reader: what is made of a visit is remembered by it. */
const makers = new Map<string, (visit: Visit) => Visit>();

function begunBy(by: string): (visit: Visit) => Visit {
  const known = makers.get(by);
  if (known) return known;
  const made = once((visit: Visit): Visit => {
    if (!visit.films.some(({ readings }) => isKeyAlone(readings, by))) return visit;
    return {
      ...visit,
      films: visit.films.map((film) =>
        isKeyAlone(film.readings, by)
          ? { ...film, readings: [{ reader: null, spread: null, placings: [], at: film.head }, ...film.readings] }
          : film,
      ),
    };
  });
  // A name that is being typed leaves one behind at each letter.
  if (makers.size >= 20) makers.clear();
  makers.set(by, made);
  return made;
}

const isKeyAlone = (readings: readonly Reading[], by: string): boolean =>
  readings.length > 0 && readings.every(({ reader }) => reader === by);
