import type { CutSize } from '../trim/stand.ts';
import type { StudiedCut, StudiedFilm, StudiedReading } from '../trim/study.ts';
import { findingsWithin, type Inspection } from '../findings/inspect.ts';
import { cutOutcome, type CutOutcome } from './cut-outcome.ts';
import { grouped } from './grouped.ts';
import type { Finding, Severity } from '../findings/finding.ts';
import { linesFor, sayAgainst, stateOf, usualOf, type Line, type State } from '../findings/limits.ts';
import { publishedLines } from '../findings/published-lines.ts';
import { footWords, sayLimit, sayWithSpread, sentence, wordsFor } from '../findings/wording.ts';
import { findMeasure, measuresIn } from '../measures/registry.ts';
import type { MeasureUnit } from '../measures/measure.ts';
import type { Value } from '../measures/take.ts';
import { landmarks } from '../notation/landmarks.ts';
import { LineMap } from '../notation/line-map.ts';
import type { FootName } from '../notation/vocabulary.ts';

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
  const cutsOn = grouped(study.cuts, ({ reading }) => reading);
  return study.films.flatMap((film) =>
    film.readings.map((reading) => {
      const start = film.visit.start + film.film.at.start;
      const end = film.visit.start + film.film.at.end;
      const own = findingsWithin(findings, start, end).filter((finding) => concerns(finding, film, reading));
      return sheet(film, reading, {
        map,
        study,
        notes: own.map((finding) => note(finding, map)),
        cuts: (cutsOn.get(reading) ?? []).map((cut) => cutSheet(cut, film, findings, map)),
      });
    }),
  );
}

/** With several readers in one film, a finding at another reader's lines is not this sheet's. */
function concerns(finding: Finding, film: StudiedFilm, reading: StudiedReading): boolean {
  const others = film.readings
    .filter((one) => one !== reading)
    .flatMap((one) => one.reading.placings.map((placing) => placing.at.start + film.visit.start));
  return !others.includes(finding.at.start);
}

/** Landmarks that many feet do not have. */
const seldom = new Set(['p3.wing.other', 'wall.turn']);

interface Surroundings {
  readonly map: LineMap;
  readonly study: Inspection['study'];
  readonly notes: readonly Note[];
  readonly cuts: readonly CutSheet[];
}

function sheet(
  studied: StudiedFilm,
  { reading, taking }: StudiedReading,
  { map, study, notes, cuts }: Surroundings,
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
    rows: measuresIn(film.view).flatMap((measure) => {
      const value = taking.values.get(measure.name);
      return value ? [{ ...row(value, film.foot, study, placed), tape: tapeOf(measure.name, studied) }] : [];
    }),
    missing: landmarks
      .filter(({ view, word }) => view === film.view && !(word in placed) && !seldom.has(word))
      .map(({ word }) => word),
    notes,
    cuts,
  };
}

function row(
  value: Value,
  foot: FootName,
  study: Inspection['study'],
  placed: FilmSheet['placed'],
): Omit<MeasureRow, 'tape'> {
  const lines = linesFor(value.measure.name, foot, study);
  const usual = lines.lines.length > 0 ? usualOf(lines) : null;
  const inner = lines.lines.filter((line) => line.at === (line.side === 'low' ? usual?.low : usual?.high));
  return {
    measure: value.measure.name,
    words: wordsFor(value.measure, foot),
    value: value.value,
    sd: value.sd,
    unit: value.unit,
    text: sayWithSpread(value),
    usual,
    usualText: usual ? usualText(usual, value.unit) : '',
    source: sourcesOf(inner, value.unit),
    published: publishedLines(value.measure.name, foot, study),
    state: stateOf(value, lines),
    line: value.measure.needs.map((name) => placed[name]?.line).find((line) => line !== undefined) ?? null,
  };
}

/** What was taken by hand, of the same foot at the same visit. */
function tapeOf(measure: string, { film, visit }: StudiedFilm): string | null {
  for (const tape of visit.is.tapes) {
    if (tape.foot !== film.foot) continue;
    const taken = tape.values.find((one) => findMeasure(one.measure)?.name === measure);
    if (taken) return `${taken.quantity.value} ${taken.quantity.unit}`;
  }
  return null;
}

/** Each source once, with what stands against it. */
function sourcesOf(lines: readonly Line[], unit: MeasureUnit): string {
  const said = lines.map((line) => {
    const against = sayAgainst(line, unit);
    return against ? `${line.source}. ${against}` : line.source;
  });
  return [...new Set(said)].join('; ');
}

/** `2° to 10°`, `up to 8 mm`, or nothing. */
export function usualText({ low, high }: { low: number | null; high: number | null }, unit: MeasureUnit): string {
  if (low !== null && high !== null) return `${sayLimit(low, unit)} to ${sayLimit(high, unit)}`;
  if (high !== null) return `up to ${sayLimit(high, unit)}`;
  return low !== null ? `from ${sayLimit(low, unit)}` : '';
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
