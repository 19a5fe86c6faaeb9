import { dayNumber } from '../notation/dates.ts';
import { takeMeasures, usualSpread, type PlacingSpread, type StoredScale, type Taking } from '../measures/take.ts';
import type { Animal } from '../reference/bands.ts';
import type { OwnSet } from '../reference/own-set.ts';
import type { CaseRecord, Cut, Film, Placed, Reading, Visit } from '../record/schema.ts';
import { FilmSeries } from './film-series.ts';
import { foretell, type Prediction } from './predict.ts';
import { usualTrim, type TrimSettings } from './trim-settings.ts';
import { usualModel, type CutSize, type TrimModel } from './stand.ts';

/** One film as one reader placed it, measured. */
export interface StudiedReading {
  readonly reading: Reading;
  readonly taking: Taking;
}

export interface StudiedFilm {
  readonly visit: Placed<Visit>;
  readonly film: Film;
  readonly readings: readonly StudiedReading[];
  /** What the picture's file says of its scale; null where nobody has looked, or need not. */
  readonly stored: StoredScale | null;
}

/** A plan or trim with the film it is predicted on. */
export interface StudiedCut {
  readonly visit: Placed<Visit>;
  readonly cut: Cut;
  readonly size: CutSize;
  readonly film: StudiedFilm | null;
  readonly reading: StudiedReading | null;
  readonly prediction: Prediction | null;
}

/** A case with every film measured and every cut predicted: what findings, tables and drawings are made of. */
export interface Study {
  readonly record: CaseRecord;
  readonly animal: Animal;
  /** Sets of reference values of one's own, the first before the later ones. */
  readonly reference: readonly OwnSet[];
  readonly trim: TrimSettings;
  readonly films: readonly StudiedFilm[];
  readonly byVisit: ReadonlyMap<Placed<Visit>, readonly StudiedFilm[]>;
  readonly series: FilmSeries;
  readonly cuts: readonly StudiedCut[];
}

export interface StudySettings {
  readonly spread: PlacingSpread;
  readonly model: TrimModel;
  readonly trim: TrimSettings;
  readonly reference: readonly OwnSet[];
}

export const usualStudy: StudySettings = { spread: usualSpread, model: usualModel, trim: usualTrim, reference: [] };

/** Tells what the file of a picture says of its scale, by its path as written; null where it cannot be looked at. */
export type StoredScales = (path: string) => StoredScale | null;

const measured = new WeakMap<
  Reading,
  { readonly spread: PlacingSpread; readonly stored: StoredScale | null; readonly taking: Taking }
>();

export function studyCase(
  record: CaseRecord,
  settings: StudySettings = usualStudy,
  scales: StoredScales = () => null,
): Study {
  const byVisit = new Map(
    record.visits.map((visit) => [
      visit,
      visit.is.films.map((film) =>
        studyFilm(visit, film, settings, film.scale?.kind === 'dicom' ? scales(film.path.text) : null),
      ),
    ]),
  );
  const films = [...byVisit.values()].flat();
  const series = new FilmSeries(films);
  const cuts = record.visits.flatMap((visit) => visit.is.cuts.map((cut) => studyCut(visit, cut, series, settings)));
  const { kind = null, height = null } = record.animal?.is ?? {};
  return {
    record,
    animal: { kind, heightMm: height?.base ?? null },
    reference: settings.reference,
    trim: settings.trim,
    films,
    byVisit,
    series,
    cuts,
  };
}

function studyFilm(
  visit: Placed<Visit>,
  film: Film,
  { spread }: StudySettings,
  stored: StoredScale | null,
): StudiedFilm {
  const readings = film.readings.map((reading) => {
    const known = measured.get(reading);
    if (known?.spread === spread && known.stored === stored) return { reading, taking: known.taking };
    const taking = takeMeasures(film, reading, spread, stored);
    measured.set(reading, { spread, stored, taking });
    return { reading, taking };
  });
  return { visit, film, readings, stored };
}

function studyCut(visit: Placed<Visit>, cut: Cut, series: FilmSeries, { model }: StudySettings): StudiedCut {
  const size = { heelDown: cut.heelDown?.base ?? 0, toeDown: cut.toeDown?.base ?? 0, toeBack: cut.toeBack?.base ?? 0 };
  const day = visit.is.date === null ? null : dayNumber(visit.is.date);
  const film = day === null ? null : series.upTo(cut.foot, 'lateral', day);
  const reading = film?.readings.find(({ taking }) => taking.frame) ?? film?.readings[0] ?? null;
  return { visit, cut, size, film, reading, prediction: reading && predictOnce(cut, reading, size, model) };
}

const predicted = new WeakMap<
  Cut,
  { readonly taking: Taking; readonly model: TrimModel; readonly prediction: Prediction | null }
>();

function predictOnce(cut: Cut, { taking }: StudiedReading, size: CutSize, model: TrimModel): Prediction | null {
  const known = predicted.get(cut);
  if (known?.taking === taking && known.model === model) return known.prediction;
  const prediction = taking.frame && foretell(taking.frame, size, model);
  predicted.set(cut, { taking, model, prediction });
  return prediction;
}
