import { isFollowing } from '../course/following.ts';
import { footAxes, intoFrame, lineOf, placedIn, type FootAxes } from '../geometry/foot-axes.ts';
import type { XY } from '../geometry/vector.ts';
import type { MeasureName } from '../measures/names.ts';
import { measures } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import { landmarks } from '../notation/landmarks.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import { samePath } from '../picture/same-path.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { mean } from './mean-squares.ts';

/** How the reader is called in whose name nothing is written. */
export const UNNAMED = '';

/** What one person placed on one film at one time: numbers alone, so that nothing of a case's text is kept for it. */
export interface OneReading {
  /** By a measure's place in the registry; no number where it was not measured. */
  readonly values: Float64Array;
  /** x, then y, in pixels of the picture, by a landmark's place in the table; no numbers where it was not placed. */
  readonly places: Float64Array;
  /** Those that have a spread of their own, so that the reader's does not go for them. */
  readonly fitted: readonly LandmarkName[];
  /** mm/px; null without a scale. */
  readonly scale: number | null;
}

const measureAt: ReadonlyMap<MeasureName, number> = new Map(measures.map(({ name }, at) => [name, at]));
const landmarkAt: ReadonlyMap<LandmarkName, number> = new Map(landmarks.map(({ word }, at) => [word, at]));

/** The value of a measure; null where it was not measured. */
export function valueIn({ values }: OneReading, measure: MeasureName): number | null {
  const value = values[measureAt.get(measure) ?? -1] ?? Number.NaN;
  return Number.isNaN(value) ? null : value;
}

/** Where a landmark was placed, px; null where it was not. */
export function placeIn({ places }: OneReading, landmark: LandmarkName): XY | null {
  const at = 2 * (landmarkAt.get(landmark) ?? -1);
  const [x = Number.NaN, y = Number.NaN] = [places[at], places[at + 1]];
  return Number.isNaN(x) ? null : { x, y };
}

/** Where a film stands that was read. */
export interface FilmPlace {
  /** As the case file was named where it was read; null for the file that is looked at. */
  readonly file: string | null;
  readonly date: string | null;
  readonly foot: FootName;
  /** Of the film's header in its file, from 0. */
  readonly line: number;
}

/** One picture, with all that was read on it. */
export interface ReadFilm extends FilmPlace {
  readonly kind: 'film' | 'photo';
  readonly view: View;
  readonly ground: readonly [XY, XY] | null;
  /** By the reader's name (`UNNAMED` for who has none), each person's in the order of the text. */
  readonly readings: ReadonlyMap<string, readonly OneReading[]>;
}

/** All that was read, and what was left out of it. */
export interface FilmsRead {
  /** Those on which anything was placed, in the order in which they came. */
  readonly films: readonly ReadFilm[];
  readonly copies: number;
  readonly followed: number;
}

/** One film of one file, with what was read on it there. */
export interface TakenFilm extends Omit<FilmPlace, 'file'>, Pick<ReadFilm, 'kind' | 'view' | 'ground'> {
  /** Of the picture, as the film writes it. */
  readonly path: string;
  readonly readings: readonly {
    readonly reader: string;
    /** It followed the film before, and shares its errors. */
    readonly followed: boolean;
    readonly one: OneReading;
  }[];
}

/** What was read in one file, as numbers and names of their own: no piece of a text, which would keep the whole of it. */
export function takenFilms(films: readonly StudiedFilm[]): readonly TakenFilm[] {
  return films.map(({ film: { kind, view, foot, path, bearing, ground, line }, readings, visit }) => ({
    kind,
    view,
    foot,
    date: visit.is.date && own(visit.is.date),
    line: visit.line + line,
    path: own(path.text),
    ground: plain(
      lineOf({ bearing: bearing && [bearing.from, bearing.to], ground: ground && [ground.from, ground.to] }),
    ),
    readings: readings
      .filter(({ reading }) => reading.placings.length > 0)
      .map((one) => ({
        reader: own(one.reading.reader ?? UNNAMED),
        followed: isFollowing(one.reading),
        one: taken(one),
      })),
  }));
}

const own = (text: string): string => JSON.parse(JSON.stringify(text)) as string;

/**
 * The films of several case files. One picture is one film, also where each reader keeps a file of his own: a picture is known by
 * where it lies (as in `case/same-picture`). Nobody knows who the unnamed readers of several files are: they count as one person.
 */
export class ReadFilms {
  private readonly byPicture = new Map<string, ReadFilm & { readonly readings: Map<string, OneReading[]> }>();

  /** Readings that repeat one of the same person's to the last figure, as where a file was copied: they tell nothing, and are left out. */
  private copies = 0;

  /** Readings that followed the film before: they share its errors, so that two of them agree for another cause than care. Left out. */
  private followed = 0;

  /**
   * @param folder of the case file, as its films write theirs; empty or ended by a slash
   * @param file as it is called where its films are named; null for the one that is looked at
   */
  add(folder: string, films: readonly TakenFilm[], file: string | null = null): void {
    for (const { kind, view, foot, path, readings, date, line, ground } of films) {
      const key = JSON.stringify([kind, view, foot, samePath(path, folder)]);
      const known = this.byPicture.get(key) ?? {
        kind,
        view,
        foot,
        file,
        date,
        line,
        ground,
        readings: new Map<string, OneReading[]>(),
      };
      this.byPicture.set(key, known);
      for (const { reader, followed, one } of readings) {
        if (followed) {
          this.followed++;
          continue;
        }
        const before = known.readings.get(reader) ?? [];
        if (before.some((other) => isSame(other, one))) this.copies++;
        else known.readings.set(reader, [...before, one]);
      }
    }
  }

  all(): FilmsRead {
    const films = [...this.byPicture.values()].filter(({ readings }) => readings.size > 0);
    return { films, copies: this.copies, followed: this.followed };
  }
}

const plain = (line: readonly [XY, XY] | null): readonly [XY, XY] | null =>
  line && [
    { x: line[0].x, y: line[0].y },
    { x: line[1].x, y: line[1].y },
  ];

function taken({ reading, taking }: StudiedReading): OneReading {
  const values = new Float64Array(measures.length).fill(Number.NaN);
  for (const [name, { value }] of taking.values) values[measureAt.get(name) as number] = value;
  const places = new Float64Array(2 * landmarks.length).fill(Number.NaN);
  for (const { name, x, y } of reading.placings) places.set([x, y], 2 * (landmarkAt.get(name) as number));
  const fitted = reading.placings.filter(({ spread }) => spread !== null).map(({ name }) => name);
  return { values, places, fitted, scale: taking.scale };
}

/** No number is none of the other's. */
const isSame = (one: OneReading, other: OneReading): boolean =>
  one.places.every((value, at) => Object.is(value, other.places[at]) || value === other.places[at]);

/** The first reading of each person: who looks again has seen the first, and may know it. */
export const firstReadings = ({ readings }: ReadFilm): ReadonlyMap<string, OneReading> =>
  new Map([...readings].flatMap(([name, [first]]) => (first ? [[name, first] as const] : [])));

/** How a foot lies on its film, by the mean of several readings. */
export interface MeanFoot {
  readonly axes: FootAxes;
  /** mm/px. */
  readonly scale: number;
  /** In pixels of the picture. */
  readonly places: ReadonlyMap<LandmarkName, XY>;
}

/**
 * The mean of some readings of one film, and how the foot lies by it.
 *
 * @returns null without a scale, or where the places do not tell how the foot lies
 */
export function meanFoot({ view, ground }: ReadFilm, readings: readonly OneReading[]): MeanFoot | null {
  const scales = readings.flatMap(({ scale }) => scale ?? []);
  if (scales.length === 0) return null;
  const places = new Map<LandmarkName, XY>();
  for (const { word } of landmarks) {
    const placed = readings.flatMap((one) => placeIn(one, word) ?? []);
    if (placed.length > 0) places.set(word, { x: mean(placed.map(({ x }) => x)), y: mean(placed.map(({ y }) => y)) });
  }
  const axes = footAxes(view, placedIn(places), ground);
  return axes.lack === null ? { axes, scale: mean(scales), places } : null;
}

/**
 * Where readings of one film placed a landmark, in mm and in the axes of the foot (X to the toe, in the front view to the outer side;
 * Y up), which are laid through the mean of all places, so that they are the same for all readings. Null as of `meanFoot`.
 */
export function placesInFoot(
  film: ReadFilm,
  readings: readonly OneReading[],
): ((landmark: LandmarkName, of?: (reading: OneReading) => boolean) => readonly XY[]) | null {
  const foot = meanFoot(film, readings);
  if (!foot) return null;
  const { axes, scale } = foot;
  return (landmark, of = () => true) =>
    readings.filter(of).flatMap((one) => {
      const place = placeIn(one, landmark);
      if (!place) return [];
      const { x, y } = intoFrame(axes, place);
      return [{ x: x * scale, y: y * scale }];
    });
}
