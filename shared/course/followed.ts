import { plus, type XY } from '../geometry/vector.ts';
import { spreadInPixels } from '../geometry/foot-input.ts';
import type { Measure } from '../measures/registry.ts';
import { changesByPlacing } from '../measures/take.ts';
import { lateralLandmark, type LandmarkName } from '../notation/landmarks.ts';
import { once } from '../notation/once.ts';
import type { Placing } from '../record/schema.ts';
import type { FilmSeries } from '../trim/film-series.ts';
import type { StudiedFilm, StudiedReading } from '../trim/study.ts';
import { isFollowing } from './following.ts';

/**
 * What films of a foot share of their errors. A landmark that was followed from the film before carries the error of that placing
 * on: the same way and as far, in mm along the axes of the foot. So in a difference of the two films it cancels. An end of a line
 * carries on the mean of what both ends of the line erred by.
 */

/** A landmark on one film as one reader placed it, and the placing that it was followed from. */
export interface PlacingOfSeries {
  readonly film: StudiedFilm;
  readonly studied: StudiedReading;
  readonly placing: Placing;
  /** Null where it was not followed, or where no earlier film has the landmark. */
  readonly from: PlacingOfSeries | null;
  /** How many placings lie before it on the way back to one that was not followed. */
  readonly depth: number;
  /** One standard deviation, mm; null on a film without a scale. */
  readonly mm: number | null;
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
 * that of whoever is named first on the newest film that has the landmark. Films of one day never follow one another.
 */
function inOrder(films: readonly StudiedFilm[]): PlacingsOfView {
  if (!films.some(({ film }) => film.readings.some(isFollowing))) return none;
  const all = new Map<StudiedReading, PlacingsOfReading>();
  const byReader = new Map<string | null, Map<LandmarkName, PlacingOfSeries>>();
  const byAnybody = new Map<LandmarkName, PlacingOfSeries>();
  let day: number | null = null;
  let ofDay: PlacedByReader[] = [];
  for (const film of films) {
    // What is placed on one day is followed from the next day on: films of one day tell how well a film is measured.
    if (film.day === null || film.day !== day) {
      pass(ofDay, byReader, byAnybody);
      ofDay = [];
      day = film.day;
    }
    const here = film.readings.map((studied) => {
      const { reader, placings } = studied.reading;
      const before = byReader.get(reader);
      const placed = new Map<LandmarkName, PlacingOfSeries>();
      const { scale } = studied.taking;
      const usual = scale === null ? null : spreadInPixels(studied.input, scale) * scale;
      for (const placing of placings) {
        const { name, spread, followed } = placing;
        const from = followed ? (before?.get(name) ?? byAnybody.get(name) ?? null) : null;
        const mm = scale === null || spread === null ? usual : spread * scale;
        placed.set(name, { film, studied, placing, from, depth: from ? from.depth + 1 : 0, mm });
      }
      all.set(studied, placed);
      return { reader, placed };
    });
    // Whoever is named first on a film is taken last, and so stays.
    ofDay.push(...here.toReversed());
  }
  return all;
}

interface PlacedByReader {
  readonly reader: string | null;
  readonly placed: PlacingsOfReading;
}

/** What was placed on a day that is over is there to be followed. */
function pass(
  ofDay: readonly PlacedByReader[],
  byReader: Map<string | null, Map<LandmarkName, PlacingOfSeries>>,
  byAnybody: Map<LandmarkName, PlacingOfSeries>,
): void {
  for (const { reader, placed } of ofDay) {
    let before = byReader.get(reader);
    if (!before) byReader.set(reader, (before = new Map()));
    for (const [name, placing] of placed) {
      before.set(name, placing);
      byAnybody.set(name, placing);
    }
  }
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

/** By how much a number changes for each mm that a placing is moved along X and Y of the foot. */
type ChangesByPlacing = ReadonlyMap<LandmarkName, XY>;

/** The error of one number on one film, held against that of the same number on other films of the foot. */
export class ErrorOnFilm {
  private readonly placings: PlacingsOfReading;
  private readonly changes: () => ChangesByPlacing | null;
  private readonly bounded: (mm: number) => number;
  private readonly follows: boolean;

  constructor(
    placings: PlacingsOfReading,
    follows: boolean,
    changes: () => ChangesByPlacing | null,
    bounded: (mm: number) => number,
  ) {
    this.placings = placings;
    this.follows = follows;
    this.changes = changes;
    this.bounded = bounded;
  }

  /** Covariance of the two numbers. */
  with(other: ErrorOnFilm): number {
    if (!this.follows && !other.follows) return 0;
    const [changes, theirChanges] = [this.changes(), other.changes()];
    if (!changes || !theirChanges) return 0;
    let sum = 0;
    // A number rests on a few of the landmarks.
    for (const name of changes.keys()) sum += this.sharedAt(name, changes, other, theirChanges);
    // Of a line, the other end may be all that a number rests on.
    for (const name of theirChanges.keys())
      if (!changes.has(name)) sum += this.sharedAt(name, changes, other, theirChanges);
    return sum;
  }

  private sharedAt(
    name: LandmarkName,
    changes: ChangesByPlacing,
    other: ErrorOnFilm,
    theirChanges: ChangesByPlacing,
  ): number {
    const [mine, theirs] = [this.placings.get(name), other.placings.get(name)];
    if (!mine || !theirs || (mine.from === null && theirs.from === null)) return 0;
    const partner = partnerOf(name);
    const isLine = partner !== null && this.placings.has(partner) && other.placings.has(partner);
    const change = changeAt(changes, name, isLine && mine.from === null ? partner : null);
    const theirChange = changeAt(theirChanges, name, isLine && theirs.from === null ? partner : null);
    const mm = change && theirChange ? this.bounded(inCommon(mine, theirs)) : 0;
    return change && theirChange ? mm * mm * (change.x * theirChange.x + change.y * theirChange.y) : 0;
  }
}

/** The other end of a line on which a landmark is followed; null for a landmark that is followed by itself. */
function partnerOf(name: LandmarkName): LandmarkName | null {
  const proposed = lateralLandmark(name)?.proposed;
  return proposed?.by === 'line' ? proposed.partner : null;
}

/**
 * By how much a number goes with what a later film carries on of a placing. Of a line placed by hand (`partner`) each end there
 * carries on the mean of both ends' errors, so that both count: which way the hand's line ran is in it no more.
 */
function changeAt(changes: ChangesByPlacing, name: LandmarkName, partner: LandmarkName | null): XY | undefined {
  const own = changes.get(name);
  const other = partner === null ? undefined : changes.get(partner);
  return own && other ? plus(own, other) : (own ?? other);
}

/** How much of the error of two placings is one and the same, mm: no placing on the way from one to the other has less. */
function inCommon(one: PlacingOfSeries, other: PlacingOfSeries): number {
  let a: PlacingOfSeries | null = one;
  let b: PlacingOfSeries | null = other;
  let least = Infinity;
  while (a && b && a !== b)
    if (a.depth >= b.depth) {
      least = Math.min(least, a.mm ?? Infinity);
      a = a.from;
    } else {
      least = Math.min(least, b.mm ?? Infinity);
      b = b.from;
    }
  return a && b ? Math.min(least, a.mm ?? Infinity) : 0;
}

/**
 * The error of a number on a film; null where no landmark of the foot's films was followed, or the film has no scale: what is
 * shared is so in mm. `bounded`: what counts of that, where not all.
 */
export function errorOnFilm(
  film: StudiedFilm,
  studied: StudiedReading,
  series: FilmSeries,
  changes: () => ChangesByPlacing | null,
  bounded: (mm: number) => number = (mm) => mm,
): ErrorOnFilm | null {
  const placings = placingsOf(film, series).get(studied);
  return placings && studied.taking.scale !== null
    ? new ErrorOnFilm(placings, isFollowing(studied.reading), changes, bounded)
    : null;
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
