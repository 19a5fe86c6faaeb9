import type { XY } from '../geometry/vector.ts';
import { spreadInPixels } from '../geometry/foot-input.ts';
import type { Measure } from '../measures/registry.ts';
import { changesByPlacing } from '../measures/take.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import { once } from '../notation/once.ts';
import type { Placing } from '../record/schema.ts';
import type { FilmSeries } from '../trim/film-series.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { isFollowing } from './following.ts';

/**
 * What films of a foot share of their errors. A landmark that was followed from the film before carries the error of that placing
 * on: the same way and as far, in mm along the axes of the foot. So in a difference of the two films it cancels.
 */

/** A landmark on one film as one reader placed it, and the placing that it was followed from. */
export interface PlacingOfSeries {
  readonly film: StudiedFilm;
  readonly studied: StudiedReading;
  readonly placing: Placing;
  /** Null where it was not followed, or where no earlier film has the landmark. */
  readonly from: PlacingOfSeries | null;
}

type PlacingsOfReading = ReadonlyMap<LandmarkName, PlacingOfSeries>;
type PlacingsOfView = ReadonlyMap<StudiedReading, PlacingsOfReading>;

const none: PlacingsOfView = new Map();

const placingsByView = once<FilmSeries, Map<string, PlacingsOfView>>(() => new Map());

/** The placings of all films of a foot and view, looked at once for a study; none where no landmark was followed. */
function placingsOf({ film: { foot, view } }: StudiedFilm, series: FilmSeries): PlacingsOfView {
  const known = placingsByView(series);
  const key = `${foot} ${view}`;
  let placings = known.get(key);
  if (!placings) known.set(key, (placings = inOrder(series.of(foot, view))));
  return placings;
}

/**
 * A reader follows what is placed last under the same name (or under none, as this reading); where there is no such placing,
 * that of whoever is named first on the newest film that has the landmark.
 */
function inOrder(films: readonly StudiedFilm[]): PlacingsOfView {
  if (!films.some(({ film }) => film.readings.some(isFollowing))) return none;
  const all = new Map<StudiedReading, PlacingsOfReading>();
  const byReader = new Map<string | null, Map<LandmarkName, PlacingOfSeries>>();
  const byAnybody = new Map<LandmarkName, PlacingOfSeries>();
  for (const film of films) {
    const here = film.readings.map((studied) => {
      const { reader, placings } = studied.reading;
      const before = byReader.get(reader);
      const placed = new Map<LandmarkName, PlacingOfSeries>();
      for (const placing of placings) {
        const { name, followed } = placing;
        const from = followed ? (before?.get(name) ?? byAnybody.get(name) ?? null) : null;
        placed.set(name, { film, studied, placing, from });
      }
      all.set(studied, placed);
      return { reader, placed };
    });
    // What stands on one film was not followed from it.
    for (const { reader, placed } of here) {
      let before = byReader.get(reader);
      if (!before) byReader.set(reader, (before = new Map()));
      for (const [name, placing] of placed) before.set(name, placing);
    }
    for (const { placed } of here.toReversed()) for (const [name, placing] of placed) byAnybody.set(name, placing);
  }
  return all;
}

/** A landmark that was followed, with what it was followed from; undefined for one that was not. */
export function followedPlacing(
  name: LandmarkName,
  film: StudiedFilm,
  studied: StudiedReading,
  series: FilmSeries,
): PlacingOfSeries | undefined {
  const placing = placingsOf(film, series).get(studied)?.get(name);
  return placing?.placing.followed ? placing : undefined;
}

/** One standard deviation of a placing, mm; null on a film without a scale. */
export function placingMm({ studied, placing }: PlacingOfSeries): number | null {
  const { scale } = studied.taking;
  if (scale === null) return null;
  return placing.spread === null ? usualMm(studied) : placing.spread * scale;
}

const usualMm = once((studied: StudiedReading): number => {
  const { scale } = studied.taking;
  return scale === null ? NaN : spreadInPixels(studied.input, scale) * scale;
});

/** By how much a number changes for each mm that a placing is moved along X and Y of the foot. */
type ChangesByPlacing = ReadonlyMap<LandmarkName, XY>;

/** The error of one number on one film, held against that of the same number on other films of the foot. */
export class ErrorOnFilm {
  private readonly placings: PlacingsOfReading;
  private readonly changes: () => ChangesByPlacing | null;
  private readonly mm: (placing: PlacingOfSeries) => number | null;
  /** For each landmark the placings whose error is in it, and how much of it is, mm. */
  private readonly errors = new Map<LandmarkName, ReadonlyMap<PlacingOfSeries, number>>();

  constructor(
    placings: PlacingsOfReading,
    changes: () => ChangesByPlacing | null,
    mm: (placing: PlacingOfSeries) => number | null,
  ) {
    this.placings = placings;
    this.changes = changes;
    this.mm = mm;
  }

  /** Covariance of the two numbers. */
  with(other: ErrorOnFilm): number {
    let sum = 0;
    for (const [name, placing] of this.placings) {
      const theirs = other.placings.get(name);
      if (!theirs || (placing.from === null && theirs.from === null)) continue;
      const mm = this.inCommon(placing, theirs);
      const change = mm > 0 && this.changes()?.get(name);
      const change2 = change && other.changes()?.get(name);
      if (change && change2) sum += mm * mm * (change.x * change2.x + change.y * change2.y);
    }
    return sum;
  }

  /** How much of the error of two placings is one and the same, mm: no placing on the way from one to the other has less. */
  private inCommon(mine: PlacingOfSeries, theirs: PlacingOfSeries): number {
    const errors = this.errorsIn(mine);
    let least = Infinity;
    for (let placing: PlacingOfSeries | null = theirs; placing; placing = placing.from) {
      least = Math.min(least, this.mm(placing) ?? Infinity);
      const inMine = errors.get(placing);
      if (inMine !== undefined) return Math.min(least, inMine);
    }
    return 0;
  }

  private errorsIn(mine: PlacingOfSeries): ReadonlyMap<PlacingOfSeries, number> {
    const { name } = mine.placing;
    const known = this.errors.get(name);
    if (known) return known;
    const errors = new Map<PlacingOfSeries, number>();
    let least = Infinity;
    for (let placing: PlacingOfSeries | null = mine; placing; placing = placing.from) {
      least = Math.min(least, this.mm(placing) ?? Infinity);
      errors.set(placing, least);
    }
    this.errors.set(name, errors);
    return errors;
  }
}

/**
 * The error of a number on a film; null where no landmark of the foot's films was followed, or the film has no scale: what is
 * shared is so in mm. `mm`: how far a placing counts as being off, where not by what is written.
 */
export function errorOnFilm(
  film: StudiedFilm,
  studied: StudiedReading,
  series: FilmSeries,
  changes: () => ChangesByPlacing | null,
  mm: (placing: PlacingOfSeries) => number | null = placingMm,
): ErrorOnFilm | null {
  const placings = placingsOf(film, series).get(studied);
  return placings && studied.taking.scale !== null ? new ErrorOnFilm(placings, changes, mm) : null;
}

/** The same of a measure. */
export function errorOfMeasure(
  measure: Measure,
  film: StudiedFilm,
  studied: StudiedReading,
  series: FilmSeries,
): ErrorOnFilm | null {
  return errorOnFilm(film, studied, series, () => changesOf(studied, measure));
}

const changesOfReading = once<StudiedReading, Map<Measure, ChangesByPlacing | null>>(() => new Map());

function changesOf(studied: StudiedReading, measure: Measure): ChangesByPlacing | null {
  const known = changesOfReading(studied);
  let changes = known.get(measure);
  if (changes === undefined) {
    const { frame } = studied.taking;
    known.set(measure, (changes = frame && changesByPlacing(frame, measure)));
  }
  return changes;
}
