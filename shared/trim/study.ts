import { dayNumber } from '../notation/dates.ts';
import type { BoneScaleInput, FootInput } from '../geometry/foot-input.ts';
import {
  filmInput,
  looksIntoPicture,
  usualSpread,
  type PlacingSpread,
  type StoredScale,
} from '../measures/film-input.ts';
import { soundScale } from '../measures/sound-scale.ts';
import { takeMeasures, valuesIn, type Taking, type Values } from '../measures/take.ts';
import type { OwnSet } from '../reference/own-set.ts';
import { isWornAlike, staysOn, Wearing, type Shod } from '../record/wearing.ts';
import type { CaseRecord, Cut, Film, Placed, Reading, Visit } from '../record/schema.ts';
import { caseAnimal, type CaseAnimal } from './case-animal.ts';
import { FilmSeries } from './film-series.ts';
import { grown } from './growth.ts';
import { bareFoot } from '../geometry/planes.ts';
import { predict, predictAtOnce, type Prediction } from './predict.ts';
import { usualTrim, type TrimSettings } from './trim-settings.ts';
import { BoneScales, sameBoneScale } from './bone-scale.ts';
import type { StudiedFilm, StudiedReading } from './studied.ts';
import { usualChange, type ChangeSettings } from './change-settings.ts';
import type { CutSize } from './stand.ts';

export type { BoneScale, StudiedFilm, StudiedReading } from './studied.ts';

/** A plan or trim with the film it is predicted on. */
export interface StudiedCut {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
  /** Of the visit. */
  readonly day: number | null;
  readonly size: CutSize;
  readonly film: StudiedFilm | null;
  readonly reading: StudiedReading | null;
  /** What it would leave, with what the foot wears under it as before. */
  readonly prediction: Prediction | null;
  /** The same of the bare foot, by which limits go; null where it cannot be predicted. */
  readonly bare: BeforeAndAfter | null;
  /** The same cut on the bare foot with so many mm of wall grown since the film. */
  regrown(mm: number): BeforeAndAfter | null;
}

/** What a foot measures before a cut, and what the cut would leave. */
export interface BeforeAndAfter {
  readonly before: Values;
  readonly prediction: Prediction;
}

export interface StudiedVisit {
  readonly visit: Placed<Visit>;
  readonly day: number | null;
  readonly films: readonly StudiedFilm[];
  readonly cuts: readonly StudiedCut[];
}

/** A case with every film measured and every cut predicted: what findings, tables and drawings are made of. */
export interface Study {
  readonly record: CaseRecord;
  readonly animal: CaseAnimal;
  /** Sets of reference values of one's own, the first before the later ones. */
  readonly reference: readonly OwnSet[];
  readonly trim: TrimSettings;
  readonly change: ChangeSettings;
  readonly spread: PlacingSpread;
  readonly visits: readonly StudiedVisit[];
  readonly films: readonly StudiedFilm[];
  readonly series: FilmSeries;
  readonly cuts: readonly StudiedCut[];
  /** The pictures that somebody has looked for and not found, by their paths as written. */
  readonly missing: ReadonlySet<string>;
}

export interface StudySettings {
  readonly spread: PlacingSpread;
  readonly trim: TrimSettings;
  readonly change: ChangeSettings;
  readonly reference: readonly OwnSet[];
}

export const usualStudy: StudySettings = {
  spread: usualSpread,
  trim: usualTrim,
  change: usualChange,
  reference: [],
};

/** Tells what the file of a picture says of its scale, by its path as written; null where it cannot be looked at. */
export type StoredScales = (path: string) => StoredScale | null;

/** Whether a picture is known not to be there, by its path as written; false where nobody has looked. */
export type PicturesMissing = (path: string) => boolean;

/** What was made of a visit when it was last studied, and with which settings. */
interface Studied {
  readonly spread: PlacingSpread;
  readonly studied: StudiedVisit;
}

/**
 * The second of three caches: visit to study. A visit whose text has not changed is the same `Visit`, and keeps its measures for
 * as long as the spread of placings and what each picture's file says are the same, and its predictions for as long as
 * each rests on the same readings. Where it has not moved either it is the very same study as before.
 */
const studyOfVisit = new WeakMap<Visit, Studied>();

export function studyCase(
  record: CaseRecord,
  settings: StudySettings = usualStudy,
  scales: StoredScales = () => null,
  isMissing: PicturesMissing | null = null,
): Study {
  const animal = caseAnimal(record);
  const wearing = new Wearing(record.visits);
  const measured = scaledByBone(
    record.visits.map((visit) => measureVisit(visit, settings, scales, wearing)),
    animal,
    settings,
  );
  const films = filmsOf(measured);
  const series = new FilmSeries(films);
  const visits = measured.map((visit) => predictCuts(visit, series, settings));
  const cuts: StudiedCut[] = [];
  for (const visit of visits) for (const cut of visit.cuts) cuts.push(cut);
  return {
    record: { ...record, visits: visits.map(({ visit }) => visit) },
    animal,
    reference: settings.reference,
    trim: settings.trim,
    change: settings.change,
    spread: settings.spread,
    visits,
    films,
    series,
    cuts,
    missing: isMissing ? missingIn(record, isMissing) : none,
  };
}

const none: ReadonlySet<string> = new Set();

function missingIn({ visits }: CaseRecord, isMissing: PicturesMissing): ReadonlySet<string> {
  const missing = new Set<string>();
  for (const { is } of visits)
    for (const { path } of [...is.films, ...is.pictures]) if (isMissing(path.text)) missing.add(path.text);
  return missing;
}

/** A visit with its films measured; its cuts as they were when it was last studied, if they were. */
function measureVisit(
  visit: Placed<Visit>,
  { spread }: StudySettings,
  scales: StoredScales,
  wearing: Wearing,
): StudiedVisit {
  const before = studyOfVisit.get(visit.is);
  const day = before ? before.studied.day : visit.is.date === null ? null : dayNumber(visit.is.date);
  let same = before !== undefined && isPlacedAlike(before.studied.visit, visit);
  const films = visit.is.films.map((film, index) => {
    const told = looksIntoPicture(film) ? scales(film.path.text) : null;
    const stored = told && soundScale(told);
    const was = before?.spread === spread ? before.studied.films[index] : undefined;
    const taken = film.taken === null ? day : dayNumber(film.taken);
    const worn = taken === null ? null : wearing.shoeOn(film.foot, taken, visit.start + film.at.start);
    if (was?.stored === stored && isWornAlike(was.worn, worn)) return same ? was : { ...was, visit };
    same = false;
    const readings = film.readings.map((reading) => new LazyReading(film, reading, spread, stored, null, isShod(worn)));
    return { visit, film, day: taken, readings, stored, bone: null, worn };
  });
  return before && same ? before.studied : { visit, day, films, cuts: before?.studied.cuts ?? [] };
}

const isShod = (worn: Shod | null): boolean => worn !== null && staysOn(worn);

/**
 * The films that take their scale from the bones, measured by what the others say now; one keeps its measures where that has not
 * changed. The others never rest on it: a film counts there only with a scale of its own.
 */
function scaledByBone(
  measured: readonly StudiedVisit[],
  animal: CaseAnimal,
  { spread }: StudySettings,
): readonly StudiedVisit[] {
  if (!measured.some(({ films }) => films.some(isScaledByBone))) return measured;
  const scales = new BoneScales(new FilmSeries(filmsOf(measured)), animal);
  return measured.map((visit) => {
    const films = visit.films.map((studied) => {
      if (!isScaledByBone(studied)) return studied;
      const bone = scales.of(studied);
      if (sameBoneScale(bone, studied.bone)) return studied;
      const { film, stored, worn } = studied;
      const input = 'input' in bone ? bone.input : null;
      const readings = film.readings.map(
        (reading) => new LazyReading(film, reading, spread, stored, input, isShod(worn)),
      );
      return { ...studied, bone, readings };
    });
    return films.every((film, index) => film === visit.films[index]) ? visit : { ...visit, films };
  });
}

const isScaledByBone = ({ film }: StudiedFilm): boolean => film.scale?.kind === 'bone';

function filmsOf(visits: readonly StudiedVisit[]): StudiedFilm[] {
  const films: StudiedFilm[] = [];
  for (const visit of visits) for (const film of visit.films) films.push(film);
  return films;
}

function predictCuts(measured: StudiedVisit, series: FilmSeries, { spread }: StudySettings): StudiedVisit {
  const { visit, day, films } = measured;
  const before = studyOfVisit.get(visit.is);
  let same = before?.studied === measured;
  const cuts = visit.is.cuts.map((cut, index) => {
    const film = day === null ? null : series.upTo(cut.foot, 'lateral', day);
    const was = before && measured.cuts[index];
    if (was?.visit === visit && was.film === film) return was;
    same = false;
    return studyCut({ visit, cut, day, film }, was);
  });
  if (same) return measured;
  const studied = { visit, day, films, cuts };
  studyOfVisit.set(visit.is, { spread, studied });
  return studied;
}

/**
 * A reading that is measured when it is first asked what it gives: the rules then find its frame still laid out, and what
 * is made on the way is gone before the garbage collector has to carry it.
 */
class LazyReading implements StudiedReading {
  readonly reading: Reading;
  private readonly film: Film;
  private readonly spread: PlacingSpread;
  private readonly stored: StoredScale | null;
  private readonly bone: BoneScaleInput | null;
  private readonly isShod: boolean;
  private taken: Taking | null = null;

  constructor(
    film: Film,
    reading: Reading,
    spread: PlacingSpread,
    stored: StoredScale | null,
    bone: BoneScaleInput | null,
    isShod: boolean,
  ) {
    this.film = film;
    this.reading = reading;
    this.spread = spread;
    this.stored = stored;
    this.bone = bone;
    this.isShod = isShod;
  }

  get input(): FootInput {
    return filmInput(this.film, this.reading, this.spread, this.stored, this.bone, this.isShod);
  }

  get taking(): Taking {
    return (this.taken ??= takeMeasures(() => this.input));
  }
}

/** What a cut is predicted on, settled when it is first asked for. */
class PredictionBasis {
  readonly size: CutSize;
  readonly readings: readonly StudiedReading[] | null;
  private chosen: StudiedReading | null | undefined = undefined;
  private predicted: Prediction | null | undefined = undefined;
  private unshod: BeforeAndAfter | null | undefined = undefined;

  constructor(cut: Cut, readings: readonly StudiedReading[] | null) {
    this.size = { heelDown: cut.heelDown?.base ?? 0, toeDown: cut.toeDown?.base ?? 0, toeBack: cut.toeBack?.base ?? 0 };
    this.readings = readings;
  }

  get reading(): StudiedReading | null {
    if (this.chosen === undefined)
      this.chosen = this.readings?.find(({ taking }) => taking.frame) ?? this.readings?.[0] ?? null;
    return this.chosen;
  }

  get prediction(): Prediction | null {
    if (this.predicted === undefined) {
      const frame = this.reading?.taking.frame;
      this.predicted = frame ? predict(frame, this.size) : null;
    }
    return this.predicted;
  }

  get bare(): BeforeAndAfter | null {
    if (this.unshod === undefined) this.unshod = this.ofBareFoot();
    return this.unshod;
  }

  private ofBareFoot(): BeforeAndAfter | null {
    const taking = this.reading?.taking;
    const frame = taking?.frame && bareFoot(taking.frame);
    if (!frame) return null;
    const isItself = frame === taking.frame;
    const prediction = isItself ? this.prediction : predict(frame, this.size);
    return prediction && { before: isItself ? taking.values : valuesIn('lateral', frame), prediction };
  }

  regrown(mm: number): BeforeAndAfter | null {
    const shod = this.reading?.taking.frame;
    const frame = shod && bareFoot(shod);
    if (!frame) return null;
    return frame.graph.scratch(() => {
      const foot = grown(frame, mm);
      const prediction = predictAtOnce(foot, this.size);
      return prediction && { before: valuesIn('lateral', foot), prediction };
    });
  }
}

class LazyCut implements StudiedCut {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
  readonly day: number | null;
  readonly film: StudiedFilm | null;
  readonly ground: PredictionBasis;

  constructor({ visit, cut, day, film }: Pick<StudiedCut, 'visit' | 'cut' | 'day' | 'film'>, ground: PredictionBasis) {
    this.visit = visit;
    this.cut = cut;
    this.day = day;
    this.film = film;
    this.ground = ground;
  }

  get size(): CutSize {
    return this.ground.size;
  }

  get reading(): StudiedReading | null {
    return this.ground.reading;
  }

  get prediction(): Prediction | null {
    return this.ground.prediction;
  }

  get bare(): BeforeAndAfter | null {
    return this.ground.bare;
  }

  regrown(mm: number): BeforeAndAfter | null {
    return this.ground.regrown(mm);
  }
}

/** `was`: the same cut when it was last studied; it is predicted anew only on another film. */
function studyCut(cut: Pick<StudiedCut, 'visit' | 'cut' | 'day' | 'film'>, was: StudiedCut | undefined): StudiedCut {
  const readings = cut.film?.readings ?? null;
  const again = was instanceof LazyCut && was.ground.readings === readings;
  return new LazyCut(cut, again ? was.ground : new PredictionBasis(cut.cut, readings));
}

function isPlacedAlike(one: Placed<Visit>, other: Placed<Visit>): boolean {
  return one.start === other.start && one.line === other.line;
}
