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
import { takeMeasures, type Taking, type Values } from '../measures/take.ts';
import type { OwnSet } from '../reference/own-set.ts';
import { isBareAlike, isWornAlike, staysOn, Wearing, type Shod } from '../record/wearing.ts';
import type { Refusal } from '../picture/picture-files.ts';
import type { CaseRecord, Cut, Film, Placed, Reading, Visit } from '../record/schema.ts';
import { caseAnimal, type CaseAnimal } from './case-animal.ts';
import type { KeyFiles, KeySeen } from '../lessons/key-seen.ts';
import { FilmSeries } from './film-series.ts';
import { grown } from './growth.ts';
import { bareFoot } from '../geometry/planes.ts';
import { predict, valuesOf, type Prediction } from './predict.ts';
import { usualTrim, type TrimSettings } from './trim-settings.ts';
import { BoneScales, sameBoneScale } from './bone-scale.ts';
import type { StudiedFilm, StudiedReading } from './studied.ts';
import { usualChange, type ChangeSettings } from './change-settings.ts';
import type { CutSize, Footing, TakenBefore } from './stand.ts';
import { sizeOf, takenBefore, TrimSeries, type CutBasis, type EarlierTrim, type LostFoot } from './trim-series.ts';

export type { BoneScale, StudiedFilm, StudiedReading } from './studied.ts';

/** A plan or trim with the film it is predicted on. */
export interface StudiedCut {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
  /** Of the visit. */
  readonly day: number | null;
  readonly size: CutSize;
  readonly film: StudiedFilm | null;
  /** What came off the foot between the film and this cut, in order. */
  readonly earlier: readonly EarlierTrim[];
  /** Trims between the film and this cut that give no millimetres, and count as nothing. */
  readonly unmeasured: readonly EarlierTrim[];
  /** Trims with millimetres at the same visit before it, by the day, in order. */
  readonly sameVisit: readonly EarlierTrim[];
  /** Why the foot cannot be followed from the film to this cut, so that nothing is predicted; null where it can. */
  readonly lost: LostFoot | null;
  readonly reading: StudiedReading | null;
  /** The foot that is cut, as it stands and without its shoe, by which limits go; null where the film has no frame for it. */
  readonly foot: Footing | null;
  /** What it measures then, with what it wears; null where that cannot be told. */
  readonly before: Values | null;
  /** What the cut would leave, with what the foot wears under it as before. */
  readonly prediction: Prediction | null;
  /** Both of the bare foot; null where it cannot be predicted. */
  readonly bare: BeforeAndAfter | null;
  /** Asks about the foot with so many mm of wall grown since the film, which is not there afterwards; null where there is no foot. */
  regrown<T>(mm: number, ask: (foot: Footing) => T): T | null;
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
  readonly trims: TrimSeries;
  readonly cuts: readonly StudiedCut[];
  /** What was found at the file of the lesson's key; null where none is named, or nobody has looked. */
  readonly key: KeySeen | null;
  /** The pictures that somebody has looked for and not found, by their paths as written. */
  readonly missing: ReadonlyMap<string, Refusal>;
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

/** Whether a picture is known not to be there, by its path as written, or why it is none; false where nobody has looked. */
export type PicturesMissing = (path: string) => boolean | Refusal;

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
  keys: KeyFiles = () => null,
): Study {
  const file = record.animal?.is.key?.file;
  const animal = caseAnimal(record);
  const wearing = new Wearing(record.visits);
  const measured = scaledByBone(
    record.visits.map((visit) => measureVisit(visit, settings, scales, wearing)),
    animal,
    settings,
  );
  const films = filmsOf(measured);
  const series = new FilmSeries(films);
  const trims = new TrimSeries(
    measured.map(({ visit }) => visit),
    series,
  );
  const visits = measured.map((visit) => predictCuts(visit, trims, settings));
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
    trims,
    cuts,
    key: file ? keys(file.text) : null,
    missing: isMissing ? missingIn(record, isMissing) : none,
  };
}

const none: ReadonlyMap<string, Refusal> = new Map();

function missingIn({ visits }: CaseRecord, isMissing: PicturesMissing): ReadonlyMap<string, Refusal> {
  const missing = new Map<string, Refusal>();
  for (const { is } of visits)
    for (const { path } of [...is.films, ...is.pictures]) {
      const why = isMissing(path.text);
      if (why !== false) missing.set(path.text, why === true ? 'not there' : why);
    }
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
    const at = visit.start + film.at.start;
    const worn = taken === null ? null : wearing.shoeOn(film.foot, taken, at);
    const bareBy = taken === null ? null : wearing.bareBy(film.foot, taken, at);
    if (was?.stored === stored && isWornAlike(was.worn, worn) && isBareAlike(was.bareBy, bareBy))
      return same ? was : { ...was, visit };
    same = false;
    const readings = film.readings.map((reading) => new LazyReading(film, reading, spread, stored, null, isShod(worn)));
    return { visit, film, day: taken, readings, stored, bone: null, worn, bareBy };
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

const nowhere: CutBasis = { film: null, earlier: [], unmeasured: [], sameVisit: [], lost: null };

function predictCuts(measured: StudiedVisit, trims: TrimSeries, { spread }: StudySettings): StudiedVisit {
  const { visit, day, films } = measured;
  const before = studyOfVisit.get(visit.is);
  let same = before?.studied === measured;
  const cuts = visit.is.cuts.map((cut, index) => {
    const basis = day === null ? nowhere : trims.basis(cut.foot, { day, at: visit.start + cut.head.start });
    const was = before && measured.cuts[index];
    if (was?.visit === visit && was.film === basis.film && sameTrims(was, basis)) return was;
    same = false;
    return new LazyCut(visit, cut, day, basis, was);
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
  readonly taken: TakenBefore | null;
  private chosen: StudiedReading | null | undefined = undefined;
  private predicted: Prediction | null | undefined = undefined;
  private was: Values | null | undefined = undefined;
  private unshod: BeforeAndAfter | null | undefined = undefined;

  /** `taken`: null where the foot cannot be followed. */
  constructor(size: CutSize, readings: readonly StudiedReading[] | null, taken: TakenBefore | null) {
    this.size = size;
    this.readings = readings;
    this.taken = taken;
  }

  get reading(): StudiedReading | null {
    if (this.chosen === undefined)
      this.chosen = this.readings?.find(({ taking }) => taking.frame) ?? this.readings?.[0] ?? null;
    return this.chosen;
  }

  /** With what it wears. */
  private get standing(): Footing | null {
    const frame = this.reading?.taking.frame;
    return frame && this.taken ? { frame, ...this.taken } : null;
  }

  get foot(): Footing | null {
    const { standing } = this;
    const frame = standing && bareFoot(standing.frame);
    return frame && { ...standing, frame };
  }

  get before(): Values | null {
    if (this.was === undefined) {
      const { standing: foot } = this;
      this.was = foot && foot.earlier.length > 0 ? valuesOf(foot) : (foot && this.reading?.taking.values) || null;
    }
    return this.was;
  }

  get prediction(): Prediction | null {
    if (this.predicted === undefined) this.predicted = this.standing && predict(this.standing, this.size);
    return this.predicted;
  }

  get bare(): BeforeAndAfter | null {
    if (this.unshod === undefined) this.unshod = this.ofBareFoot();
    return this.unshod;
  }

  private ofBareFoot(): BeforeAndAfter | null {
    const { foot, standing } = this;
    const isItself = foot?.frame === standing?.frame;
    const prediction = isItself ? this.prediction : foot && predict(foot, this.size);
    const before = isItself ? this.before : foot && valuesOf(foot);
    return prediction && before && { before, prediction };
  }

  regrown<T>(mm: number, ask: (foot: Footing) => T): T | null {
    const { foot } = this;
    return foot && foot.frame.graph.scratch(() => ask({ ...foot, frame: grown(foot.frame, mm) }));
  }
}

class LazyCut implements StudiedCut {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
  readonly day: number | null;
  readonly film: StudiedFilm | null;
  readonly earlier: readonly EarlierTrim[];
  readonly unmeasured: readonly EarlierTrim[];
  readonly sameVisit: readonly EarlierTrim[];
  readonly lost: LostFoot | null;
  readonly ground: PredictionBasis;

  /** `was`: the same cut when it was last studied; it is predicted anew only on another foot. */
  constructor(visit: Placed<Visit>, cut: Cut, day: number | null, basis: CutBasis, was: StudiedCut | undefined) {
    const { film, earlier, unmeasured, sameVisit, lost } = basis;
    const readings = film?.readings ?? null;
    this.visit = visit;
    this.cut = cut;
    this.day = day;
    this.film = film;
    const again = was instanceof LazyCut && was.ground.readings === readings && sameTrims(was, basis);
    this.earlier = earlier;
    this.unmeasured = unmeasured;
    this.sameVisit = sameVisit;
    this.lost = lost;
    this.ground = again
      ? was.ground
      : new PredictionBasis(sizeOf(cut), readings, lost ? null : takenBefore(cut, basis));
  }

  get size(): CutSize {
    return this.ground.size;
  }

  get reading(): StudiedReading | null {
    return this.ground.reading;
  }

  get foot(): Footing | null {
    return this.ground.foot;
  }

  get before(): Values | null {
    return this.ground.before;
  }

  get prediction(): Prediction | null {
    return this.ground.prediction;
  }

  get bare(): BeforeAndAfter | null {
    return this.ground.bare;
  }

  regrown<T>(mm: number, ask: (foot: Footing) => T): T | null {
    return this.ground.regrown(mm, ask);
  }
}

type Between = Pick<CutBasis, 'earlier' | 'unmeasured' | 'sameVisit' | 'lost'>;

/** Whether the same trims came between, in the same visits. */
function sameTrims(one: Between, other: Between): boolean {
  return (
    one.lost?.kind === other.lost?.kind &&
    sameList(one.earlier, other.earlier) &&
    sameList(one.unmeasured, other.unmeasured) &&
    sameList(one.sameVisit, other.sameVisit)
  );
}

function sameList(one: readonly EarlierTrim[], other: readonly EarlierTrim[]): boolean {
  return (
    one.length === other.length &&
    one.every(({ cut, visit }, index) => cut === other[index]?.cut && visit.is === other[index].visit.is)
  );
}

function isPlacedAlike(one: Placed<Visit>, other: Placed<Visit>): boolean {
  return one.start === other.start && one.line === other.line;
}
