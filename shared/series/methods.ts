import { agreementOf, type Agreement } from '../agreement/agreement.ts';
import { ReadFilms, takenFilms, UNNAMED } from '../agreement/read-films.ts';
import type { CourseSource } from '../course/course-sources.ts';
import { tapesOfVisit } from '../course/taped-series.ts';
import { linesFor, type LimitLine } from '../findings/limits/limits.ts';
import { findMeasure, type Measure } from '../measures/registry.ts';
import type { FootName } from '../notation/choices.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { SourceName, Strength } from '../reference/sources.ts';
import type { ChangeSettings } from '../trim/change-settings.ts';
import type { PlacingSpread } from '../measures/film-input.ts';
import { usualStudy, type StudiedFilm, type StudiedReading, type Study } from '../trim/study.ts';
import { scaleOrigin, type ScaleOrigin } from '../views/scale-origin.ts';
import { atOneTime, valuesOf } from './foot-values.ts';
import type { ReportedMeasure } from './reported-measures.ts';

/** Of one landmark, on how many readings it was placed, and by how many people. */
export interface LandmarkUse {
  readonly readings: number;
  readonly readers: number;
}

/** A line that values were held against. */
export interface LimitUse {
  readonly measure: string;
  readonly side: LimitLine['side'];
  readonly feet: 'fore' | 'hind';
  /** Donkeys, whose feet are another shape, or all others. */
  readonly animals: 'donkeys' | 'others';
  /** As published; null where it was shrunk with the height of each animal. */
  readonly at: number | null;
  /** Null of a limit of the case, and of a set of one's own, which `named` names. */
  readonly published: { readonly source: SourceName; readonly strength: Strength } | null;
  readonly named: string | null;
  /** Values that were held against it. */
  values: number;
}

/** What one reported measure was taken on. */
export interface MeasureUse {
  readonly measure: ReportedMeasure;
  /** Films, photos or tapes with a value, and feet; feet with values of two days or more. */
  readonly films: number;
  readonly feet: number;
  readonly feetTwice: number;
}

/** How the standard deviation of a placing is known: written at the placing, of its reader, or the usual one. */
export interface SpreadUse {
  own: number;
  reader: number;
  /** With a scale the usual one in mm, without one in px. */
  usual: number;
  usualPx: number;
}

/**
 * What was really used in a series of cases, counted while they come one by one. Cases are not kept; the values of their films are,
 * as nobody knows before the last file whether somebody else has read the same picture.
 */
export class MethodsFacts {
  readonly source: CourseSource;
  readonly measures: readonly ReportedMeasure[];
  readonly change: ChangeSettings = usualStudy.change;
  readonly spread: PlacingSpread = usualStudy.spread;
  cases = 0;
  /** With something of this source. */
  animals = new Map<string, number>();
  visits = 0;
  feet = 0;
  /** Films, photos or tapes with a value of a reported measure. */
  films = 0;
  /** Of them, on a shoe or other wear. */
  shod = 0;
  /** With a value of a reported measure. */
  readings = 0;
  magnified = 0;
  unscaled = 0;
  readonly scales = new Map<ScaleOrigin['from'], number>();
  readonly spreads: SpreadUse = { own: 0, reader: 0, usual: 0, usualPx: 0 };
  /** What readings give as their reader's deviation, px, and whose. */
  readonly ofReaders = new Map<number, Set<string>>();
  readonly followed = { placings: 0, films: 0 };
  /** Films whose several readings are made one value, and times at which a foot has several films. */
  severalReadings = 0;
  severalFilms = 0;
  /** Cases with a limit of their own for a reported measure. */
  ownLimits = 0;
  readonly #readers = new Set<string>();
  readonly #landmarks = new Map<LandmarkName, { readings: number; readers: Set<string> }>();
  readonly #limits = new Map<string, LimitUse>();
  readonly #uses = new Map<string, { films: number; feet: number; feetTwice: number }>();
  readonly #read = new ReadFilms();

  constructor(source: CourseSource, measures: readonly ReportedMeasure[]) {
    this.source = source;
    this.measures = measures;
  }

  /** `folder`: of the case file, as its films write their paths; so that one picture is known in several files. */
  add(study: Study, folder: string): void {
    this.cases += 1;
    const { source } = this;
    const films =
      source === 'hand' ? [] : study.films.filter((film) => film.film.kind === source && this.#isUsed(film));
    for (const film of films) this.#film(film);
    if (films.length > 0) this.#read.add(folder, takenFilms(films));
    const tapes =
      source === 'hand'
        ? study.record.visits
            .flatMap((visit) => tapesOfVisit(visit))
            .filter(({ values }) => values.some(({ measure }) => this.#isReported(measure.name)))
        : [];
    this.films += films.length + tapes.length;
    const feet = new Set<FootName>([...films.map(({ film }) => film.foot), ...tapes.map(({ foot }) => foot)]);
    const visits = new Set([...films, ...tapes].map(({ visit }) => visit.start));
    this.feet += feet.size;
    this.visits += visits.size;
    if (feet.size > 0) bump(this.animals, study.record.animal?.is.kind ?? '');
    for (const measure of this.measures) this.#measure(measure, study);
    this.#limitsOf(films, study);
  }

  #isReported(name: string): boolean {
    return this.measures.some((measure) => measure.name === name);
  }

  #gives({ taking }: StudiedReading): boolean {
    return [...taking.values.keys()].some((name) => this.#isReported(name));
  }

  /** What no reported measure is from is not told of, whatever else is placed on it. */
  #isUsed({ readings }: StudiedFilm): boolean {
    return readings.some((one) => this.#gives(one));
  }

  #film(film: StudiedFilm): void {
    const scale = scaleOrigin(film);
    if (scale && film.readings.some(({ taking }) => taking.scale !== null)) bump(this.scales, scale.from);
    else this.unscaled += 1;
    if (film.film.magnify) this.magnified += 1;
    if (film.worn) this.shod += 1;
    const read = film.readings.filter((one) => this.#gives(one));
    if (read.length > 1) this.severalReadings += 1;
    let follows = false;
    for (const one of read) follows = this.#reading(one) || follows;
    if (follows) this.followed.films += 1;
  }

  #reading({ reading, taking }: StudiedReading): boolean {
    const reader = reading.reader ?? UNNAMED;
    let follows = false;
    this.readings += 1;
    this.#readers.add(reader);
    if (reading.spread !== null) {
      const those = this.ofReaders.get(reading.spread) ?? new Set();
      this.ofReaders.set(reading.spread, those.add(reader));
    }
    for (const { name, spread, followed } of reading.placings) {
      const use = this.#landmarks.get(name) ?? { readings: 0, readers: new Set() };
      this.#landmarks.set(name, use);
      use.readings += 1;
      use.readers.add(reader);
      const by =
        spread !== null ? 'own' : reading.spread !== null ? 'reader' : taking.scale === null ? 'usualPx' : 'usual';
      this.spreads[by] += 1;
      if (followed) {
        this.followed.placings += 1;
        follows = true;
      }
    }
    return follows;
  }

  #measure({ name }: ReportedMeasure, study: Study): void {
    const values = valuesOf(study, name, this.source);
    if (values.length === 0) return;
    const days = atOneTime(
      values.filter(({ day }) => day !== null),
      ({ day }) => day as number,
    );
    const use = this.#uses.get(name) ?? { films: 0, feet: 0, feetTwice: 0 };
    this.#uses.set(name, use);
    use.films += values.length;
    const feet = new Set(values.map(({ foot }) => foot));
    use.feet += feet.size;
    use.feetTwice += [...feet].filter((foot) => days.filter((one) => one.foot === foot).length > 1).length;
    if (days.length < values.filter(({ day }) => day !== null).length) this.severalFilms += 1;
  }

  #limitsOf(films: readonly StudiedFilm[], study: Study): void {
    let own = false;
    for (const film of films)
      for (const { name } of this.measures) {
        const measure = findMeasure(name);
        const values = film.readings.filter(({ taking }) => measure && taking.values.has(measure.name)).length;
        if (!measure || values === 0) continue;
        for (const line of linesFor(measure.name, film.film.foot, study, film.day).lines) {
          own ||= line.own !== null;
          this.#limit(line, measure, { foot: film.film.foot, kind: study.animal.kind, values });
        }
      }
    if (own) this.ownLimits += 1;
  }

  #limit(line: LimitLine, { name }: Measure, { foot, kind, values }: HeldValues): void {
    if (line.own) return;
    const { side, published = null, set } = line;
    const feet = foot.endsWith('H') ? 'hind' : 'fore';
    const animals = kind === 'donkey' ? 'donkeys' : 'others';
    const at = line.scaled ? null : line.at;
    const named = set && line.source;
    const key = JSON.stringify([name, side, feet, animals, at, published, named]);
    const use = this.#limits.get(key) ?? { measure: name, side, feet, animals, at, published, named, values: 0 };
    this.#limits.set(key, use);
    use.values += values;
  }

  get readers(): number {
    return this.#readers.size;
  }

  /** Whether some reading names nobody; all such count as one reader. */
  get unnamed(): boolean {
    return this.#readers.has(UNNAMED);
  }

  /** Only landmarks that reported measures rest on, in the order of the measures. */
  get landmarks(): ReadonlyMap<LandmarkName, LandmarkUse> {
    const needed = this.uses.flatMap(({ measure }) => findMeasure(measure.name)?.needs ?? []);
    return new Map(
      [...new Set(needed)].flatMap((name) => {
        const use = this.#landmarks.get(name);
        return use ? [[name, { readings: use.readings, readers: use.readers.size }] as const] : [];
      }),
    );
  }

  /** Measures with a value, in the order in which they were asked for. */
  get uses(): readonly MeasureUse[] {
    return this.measures.flatMap((measure) => {
      const use = this.#uses.get(measure.name);
      return use ? [{ measure, ...use }] : [];
    });
  }

  get limits(): readonly LimitUse[] {
    const order = new Map(this.measures.map(({ name }, place) => [name, place]));
    const place = (use: LimitUse): number => order.get(use.measure) ?? 0;
    return [...this.#limits.values()].sort((a, b) => place(a) - place(b));
  }

  agreement(): Agreement {
    return agreementOf(this.#read.all());
  }
}

/** So many values of one film, and whose. */
interface HeldValues {
  readonly foot: FootName;
  readonly kind: Study['animal']['kind'];
  readonly values: number;
}

function bump<K>(counts: Map<K, number>, key: K): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}
