import type { CutSize } from '../trim/stand.ts';
import type { StudiedCut, StudiedFilm, StudiedReading } from '../trim/study.ts';
import { findingsWithin, type Inspection } from '../findings/inspect.ts';
import { cutOutcome, type CutOutcome } from './cut-outcome.ts';
import { grouped } from './grouped.ts';
import type { Finding, Severity } from '../findings/finding.ts';
import { inTextOrder } from '../findings/text-order.ts';
import { stateOf, type State } from '../findings/limits.ts';
import { footWords, sayWithSpread, sentence } from '../findings/wording.ts';
import { findMeasure, measuresIn } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/measure.ts';
import type { Value, Values } from '../measures/take.ts';
import { landmarks, type View } from '../notation/landmarks.ts';
import { LineMap } from '../notation/line-map.ts';
import type { FootName } from '../notation/vocabulary.ts';
import { yardsticksOf, type Yardstick } from './yardsticks.ts';

/**
 * One film as a person looks at it: what is placed, what it measures, what there is to say. Plain data, the same for
 * the preview pane, the report and the terminal; all words are ready to be shown, all numbers rounded in them.
 */
export interface FilmSheet {
  /** `Left fore, lateral film, 2026-03-03`. */
  readonly title: string;
  readonly foot: FootName;
  readonly view: 'lateral' | 'front' | 'solar';
  readonly kind: 'film' | 'photo';
  readonly date: string | null;
  readonly reader: string | null;
  /** First and last line of the film's block, from 0. */
  readonly line: number;
  readonly endLine: number;
  /** As written, relative to the case file. */
  readonly picture: string;
  readonly placed: Readonly<Record<string, { readonly x: number; readonly y: number; readonly line: number }>>;
  readonly ground: readonly [XY, XY] | null;
  readonly marker: readonly [XY, XY] | null;
  readonly markerWords: string | null;
  /** mm/px. */
  readonly scale: number | null;
  readonly rows: readonly MeasureRow[];
  /** The landmarks whose placing would give the most measures that are still absent. */
  readonly missing: readonly string[];
  readonly notes: readonly Note[];
  readonly cuts: readonly CutSheet[];
  readonly basis: Basis;
}

/** What the numbers rest on beside the places: enough to take the measures anew where one of those moves. */
export interface Basis {
  /** `pixel`: as stated, before it is divided by `magnify`; `marker`: its length in mm. */
  readonly scale:
    { readonly kind: 'pixel'; readonly mmPerPx: number } | { readonly kind: 'marker'; readonly mm: number } | null;
  readonly magnify: number;
  /** One standard deviation of a placing: the reader's own, px, and the setting's with and without a scale; `own`: of a landmark, px. */
  readonly spread: {
    readonly reader: number | null;
    readonly mm: number;
    readonly px: number;
    readonly own: Readonly<Record<string, number>>;
  };
  /** What a hand took of the same foot at the same visit, by measure, as written. */
  readonly tapes: Readonly<Record<string, string>>;
}

export interface XY {
  readonly x: number;
  readonly y: number;
}

export interface MeasureRow {
  readonly measure: string;
  readonly words: string;
  readonly value: number;
  readonly sd: number;
  readonly unit: MeasureUnit;
  /** `7.4° ± 0.6`. */
  readonly text: string;
  readonly usual: { readonly low: number | null; readonly high: number | null } | null;
  /** `2° to 10°`, `up to 8 mm`, or nothing. */
  readonly usualText: string;
  readonly source: string;
  /** What others have measured, a line each. */
  readonly published: readonly string[];
  readonly state: State;
  /** What a hand took of the same foot at the same visit, as written; null where nothing. */
  readonly tape: string | null;
  /** Line of the first landmark that it rests on, from 0. */
  readonly line: number | null;
}

export interface Note {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  /** Why somebody lives with it; the message says so too. */
  readonly accepted?: string;
  readonly line: number;
}

export interface CutSheet extends CutOutcome {
  readonly kind: 'plan' | 'trim';
  /** First and last line of its block, from 0. */
  readonly line: number;
  readonly endLine: number;
  readonly date: string | null;
  /** `heel down 8 mm, toe back 3 mm`. */
  readonly cut: string;
  readonly size: CutSize;
  /** What is to be left alone, as written. */
  readonly leave: readonly string[];
  readonly notes: readonly Note[];
}

/** A sheet for each reading of each film, in the order of the text. */
export function filmSheets({ study, findings, tree }: Inspection): FilmSheet[] {
  const map = new LineMap(tree.text);
  // By the film, not by its reading alone: two visits of one text may share their readings.
  const cutsOn = grouped(study.cuts, ({ film }) => film);
  const tapesAt = new Map<StudiedFilm['visit'], Map<FootName, Basis['tapes']>>();
  const tapesFor = (film: StudiedFilm): Basis['tapes'] => {
    const byFoot = tapesAt.get(film.visit) ?? new Map<FootName, Basis['tapes']>();
    tapesAt.set(film.visit, byFoot);
    const tapes = byFoot.get(film.film.foot) ?? tapesOf(film);
    byFoot.set(film.film.foot, tapes);
    return tapes;
  };
  return study.films.flatMap((film) => {
    const toldOf = findingsByReading(film, findings);
    const cutsOf = grouped(cutsOn.get(film) ?? [], ({ reading }) => reading);
    return film.readings.map((reading) =>
      sheet(film, reading, {
        map,
        study,
        notes: toldOf(reading).map((finding) => note(finding, map)),
        cuts: (cutsOf.get(reading) ?? []).map((cut) => cutSheet(cut, film, findings, map)),
        tapes: tapesFor(film),
      }),
    );
  });
}

/** With several readers in one film, a finding at another reader's lines is not this sheet's. */
function findingsByReading(
  { film, visit, readings }: StudiedFilm,
  findings: readonly Finding[],
): (reading: StudiedReading) => readonly Finding[] {
  const told = findingsWithin(findings, visit.start + film.at.start, visit.start + film.at.end);
  if (readings.length === 1) return () => told;
  const readingAt = new Map(
    readings.flatMap((one) => one.reading.placings.map(({ at }) => [at.start + visit.start, one] as const)),
  );
  const byReading = grouped(told, ({ at }) => readingAt.get(at.start) ?? null);
  const ofAll = byReading.get(null) ?? [];
  return (reading) => inTextOrder([...ofAll, ...(byReading.get(reading) ?? [])]);
}

/** Landmarks that many feet do not have. */
const seldom = new Set(['p3.wing.other', 'wall.turn']);

interface Surroundings {
  readonly map: LineMap;
  readonly study: Inspection['study'];
  readonly notes: readonly Note[];
  readonly cuts: readonly CutSheet[];
  readonly tapes: Basis['tapes'];
}

function sheet(
  studied: StudiedFilm,
  { reading, taking }: StudiedReading,
  { map, study, notes, cuts, tapes }: Surroundings,
): FilmSheet {
  const { film, visit } = studied;
  const lineOf = (offset: number): number => map.at(visit.start + offset).line;
  const date = film.taken ?? visit.is.date;
  const marker = film.scale?.kind === 'marker' ? film.scale : null;
  const placed = Object.fromEntries(
    reading.placings.map(({ name, x, y, at }) => [name, { x, y, line: lineOf(at.start) }]),
  );
  const reader = reading.reader === null ? '' : `, read by ${reading.reader}`;
  return {
    title: `${sentence(footWords[film.foot])}, ${film.view} ${film.kind}${date ? `, ${date}` : ''}${reader}`,
    foot: film.foot,
    view: film.view,
    kind: film.kind,
    date,
    reader: reading.reader,
    line: lineOf(film.at.start),
    endLine: lineOf(film.at.end),
    picture: film.path.text,
    placed,
    ground: film.ground && [film.ground.from, film.ground.to],
    marker: marker && [marker.marker.from, marker.marker.to],
    markerWords: marker && `${marker.length.value} ${marker.length.unit}`,
    scale: taking.scale,
    rows: rowsOf(taking.values, {
      view: film.view,
      yardsticks: yardsticksOf(study, film.foot, film.view),
      placed,
      tapes,
    }),
    missing: missingIn(film.view, placed),
    notes,
    cuts,
    basis: {
      scale: basisOfScale(studied),
      magnify: film.magnify?.value ?? 1,
      spread: {
        reader: reading.spread,
        ...study.spread,
        own: Object.fromEntries(
          reading.placings.flatMap(({ name, spread }) => (spread === null ? [] : [[name, spread] as const])),
        ),
      },
      tapes,
    },
  };
}

function basisOfScale({ film: { scale }, stored }: StudiedFilm): Basis['scale'] {
  switch (scale?.kind) {
    case 'marker':
      return { kind: 'marker', mm: scale.length.base };
    case 'pixel':
      return { kind: 'pixel', mmPerPx: scale.mmPerPx };
    case 'dicom':
      return stored && 'mmPerPx' in stored ? { kind: 'pixel', mmPerPx: stored.mmPerPx } : null;
    default:
      return null;
  }
}

/** The landmarks of a view that are not placed, without those that many feet do not have. */
export function missingIn(view: View, placed: FilmSheet['placed']): string[] {
  return landmarks
    .filter((one) => one.view === view && !(one.word in placed) && !seldom.has(one.word))
    .map(({ word }) => word);
}

interface RowGround {
  readonly view: View;
  readonly yardsticks: readonly Yardstick[];
  readonly placed: FilmSheet['placed'];
  readonly tapes: Basis['tapes'];
}

/** A row for each measure that has a value, in the order of the registry. */
export function rowsOf(values: Values, { view, yardsticks, placed, tapes }: RowGround): MeasureRow[] {
  const held = new Map(yardsticks.map((one) => [one.measure, one]));
  return measuresIn(view).flatMap(({ name }) => {
    const value = values.get(name);
    const yardstick = held.get(name);
    return value && yardstick ? [row(value, yardstick, placed, tapes[name] ?? null)] : [];
  });
}

function row(
  value: Value,
  { lines, ...yardstick }: Yardstick,
  placed: FilmSheet['placed'],
  tape: string | null,
): MeasureRow {
  return {
    ...yardstick,
    value: value.value,
    sd: value.sd,
    unit: value.unit,
    text: sayWithSpread(value),
    state: stateOf(value, { lines }),
    line: value.measure.needs.map((need) => placed[need]?.line).find((line) => line !== undefined) ?? null,
    tape,
  };
}

/** What was taken by hand, of the same foot at the same visit; of two tapes the first that has the measure. */
function tapesOf({ film, visit }: StudiedFilm): Record<string, string> {
  const taken: Record<string, string> = {};
  for (const tape of visit.is.tapes) {
    if (tape.foot !== film.foot) continue;
    for (const { measure, quantity } of tape.values) {
      const name = findMeasure(measure)?.name;
      if (name !== undefined) taken[name] ??= `${quantity.value} ${quantity.unit}`;
    }
  }
  return taken;
}

export function note(finding: Finding, map: LineMap): Note {
  return {
    severity: finding.severity,
    code: finding.code,
    message: finding.message,
    ...(finding.accepted !== undefined && { accepted: finding.accepted }),
    line: map.at(finding.at.start).line,
  };
}

function cutSheet(studied: StudiedCut, { film }: StudiedFilm, findings: readonly Finding[], map: LineMap): CutSheet {
  const { cut, visit, prediction, reading, size } = studied;
  const start = visit.start + cut.at.start;
  const end = visit.start + cut.at.end;
  const placed = Object.fromEntries((reading?.reading.placings ?? []).map(({ name, x, y }) => [name, { x, y }]));
  return {
    kind: cut.kind,
    line: map.at(start).line,
    endLine: map.at(end).line,
    date: visit.is.date,
    cut: cutWords(studied),
    size,
    leave: cut.leave,
    ...cutOutcome(prediction, size, cut.foot, {
      frame: reading?.taking.frame ?? null,
      placed,
      ground: film.ground && [film.ground.from, film.ground.to],
      before: (name) => reading?.taking.values.get(name)?.value,
    }),
    notes: findingsWithin(findings, start, end).map((finding) => note(finding, map)),
  };
}

export function cutWords({ cut }: Pick<StudiedCut, 'cut'>): string {
  const parts = [
    cut.heelDown && `heel down ${cut.heelDown.value} ${cut.heelDown.unit}`,
    cut.toeDown && `toe down ${cut.toeDown.value} ${cut.toeDown.unit}`,
    cut.toeBack && `toe back ${cut.toeBack.value} ${cut.toeBack.unit}`,
    cut.leave.length > 0 && `leave ${cut.leave.join(' and ')}`,
  ];
  return parts.filter((part) => typeof part === 'string').join(', ') || 'nothing cut';
}
