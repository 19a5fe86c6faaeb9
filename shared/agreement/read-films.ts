import { isFollowing } from '../course/following.ts';
import { footAxes, intoFrame, lineOf, placedIn } from '../geometry/foot-axes.ts';
import type { XY } from '../geometry/vector.ts';
import type { MeasureName } from '../measures/names.ts';
import { samePath } from '../picture/same-path.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { mean } from './mean-squares.ts';

/** How the reader is called in whose name nothing is written. */
export const UNNAMED = '';

/** What one person placed on one film at one time, as plain data. */
export interface OneReading {
  readonly values: ReadonlyMap<MeasureName, number>;
  /** In pixels of the picture. */
  readonly places: ReadonlyMap<LandmarkName, XY>;
  /** mm/px; null without a scale. */
  readonly scale: number | null;
}

/** One picture, with all that was read on it. */
export interface ReadFilm {
  readonly kind: 'film' | 'photo';
  readonly view: View;
  readonly line: readonly [XY, XY] | null;
  /** By the reader's name (`UNNAMED` for who has none), each person's in the order of the text. */
  readonly readings: ReadonlyMap<string, readonly OneReading[]>;
}

/**
 * The films of several case files. One picture is one film, also where each reader keeps a file of his own: a picture is known by
 * where it lies (as in `case/same-picture`). Nobody knows who the unnamed readers of several files are: they count as one person.
 */
export class ReadFilms {
  private readonly byPicture = new Map<string, ReadFilm & { readonly readings: Map<string, OneReading[]> }>();

  /** Readings that repeat one of the same person's to the last figure, as where a file was copied: they tell nothing, and are left out. */
  copies = 0;

  /** Readings that followed the film before: they share its errors, so that two of them agree for another cause than care. Left out. */
  followed = 0;

  /** `folder`: of the case file, as its films write theirs; empty or ended by a slash. */
  add(folder: string, films: readonly StudiedFilm[]): void {
    for (const { film, readings } of films) {
      const { kind, view } = film;
      const key = JSON.stringify([kind, view, film.foot, samePath(film.path.text, folder)]);
      const line = lineOf({
        bearing: film.bearing && [film.bearing.from, film.bearing.to],
        ground: film.ground && [film.ground.from, film.ground.to],
      });
      const known = this.byPicture.get(key) ?? { kind, view, line, readings: new Map<string, OneReading[]>() };
      this.byPicture.set(key, known);
      for (const one of readings) {
        if (one.reading.placings.length === 0) continue;
        if (isFollowing(one.reading)) {
          this.followed++;
          continue;
        }
        const name = one.reading.reader ?? UNNAMED;
        const before = known.readings.get(name) ?? [];
        const now = taken(one);
        if (before.some((other) => isSame(other, now))) this.copies++;
        else known.readings.set(name, [...before, now]);
      }
    }
  }

  /** Those on which anything was placed, in the order in which they came. */
  all(): readonly ReadFilm[] {
    return [...this.byPicture.values()].filter(({ readings }) => readings.size > 0);
  }
}

function taken({ reading, taking }: StudiedReading): OneReading {
  return {
    values: new Map([...taking.values].map(([name, { value }]) => [name, value])),
    places: new Map(reading.placings.map(({ name, x, y }) => [name, { x, y }])),
    scale: taking.scale,
  };
}

const isSame = (one: OneReading, other: OneReading): boolean =>
  one.places.size === other.places.size &&
  [...one.places].every(([name, { x, y }]) => other.places.get(name)?.x === x && other.places.get(name)?.y === y);

/** The first reading of each person: who looks again has seen the first, and may know it. */
export const firstReadings = ({ readings }: ReadFilm): ReadonlyMap<string, OneReading> =>
  new Map([...readings].flatMap(([name, [first]]) => (first ? [[name, first] as const] : [])));

/**
 * Where readings of one film placed a landmark, in mm and in the axes of the foot (X to the toe, in the front view to the outer side;
 * Y up), which are laid through the mean of all places, so that they are the same for all readings.
 *
 * @returns null without a scale, or where the places do not tell how the foot lies
 */
export function placesInFoot(
  film: ReadFilm,
  readings: readonly OneReading[],
): ((landmark: LandmarkName) => readonly XY[]) | null {
  const scales = readings.flatMap(({ scale }) => scale ?? []);
  if (scales.length === 0) return null;
  const scale = mean(scales);
  const means = new Map<LandmarkName, XY>();
  const at = (name: LandmarkName): XY[] => readings.flatMap(({ places }) => places.get(name) ?? []);
  for (const name of new Set(readings.flatMap(({ places }) => [...places.keys()]))) {
    const places = at(name);
    means.set(name, { x: mean(places.map(({ x }) => x)), y: mean(places.map(({ y }) => y)) });
  }
  const axes = footAxes(film.view, placedIn(means), film.line);
  if (axes.lack !== null) return null;
  return (name) =>
    at(name).map((place) => {
      const { x, y } = intoFrame(axes, place);
      return { x: x * scale, y: y * scale };
    });
}
