import { spoken } from '../language/rows.ts';
import { wordList } from '../notation/word-list.ts';
import { t } from '../language/words.ts';
import type { FootInput } from '../geometry/foot-input.ts';
import type { XY } from '../geometry/vector.ts';
import { sidesOf, type StudiedSides } from '../trim/side-cut.ts';
import type { Prediction } from '../trim/predict.ts';
import type { CutFigures } from '../trim/cut-limits.ts';
import type { CutSize, Footing, SideSize } from '../trim/stand.ts';
import { sizeOf } from '../trim/trim-series.ts';
import type { StudiedCut, StudiedFilm, StudiedReading } from '../trim/study.ts';
import { findingsWithin, type Inspection } from '../findings/inspect.ts';
import { cutOutcome, sideOutcome, type CutOutcome } from './cut-outcome.ts';
import { grouped } from './grouped.ts';
import type { Finding, Severity } from '../findings/finding.ts';
import { inTextOrder } from '../findings/engine/text-order.ts';
import { footWords, sentence } from '../findings/wording/wording.ts';
import { cutFigures } from '../findings/limits/cut-limits.ts';
import { counts } from '../findings/limits/fitting-units.ts';
import { findMeasure } from '../measures/registry.ts';
import type { Taking, Values } from '../measures/take.ts';
import type { View } from '../notation/landmarks.ts';
import { LineMap } from '../notation/line-map.ts';
import type { FootName } from '../notation/choices.ts';
import { scaleOrigin } from './scale-origin.ts';
import { missingIn, rowsOf, type MeasureRow } from './measure-rows.ts';
import type { Cut } from '../record/schema.ts';
import { staysOn, Wearing } from '../record/wearing.ts';
import { setupWords } from './setup-words.ts';
import { shodWords, wornKindsWords } from '../findings/wording/shod-words.ts';
import { yardstickKey, yardsticksOf, type Yardstick } from './yardsticks.ts';

export type { XY } from '../geometry/vector.ts';
export type { MeasureRow } from './measure-rows.ts';

/** What a text says of a film beside what is placed on it: words and lines, whatever the numbers. */
export interface AboutFilm {
  /** Which of the yardsticks its measures are held against. */
  readonly yardsticks: string;
  /** `Left fore, lateral film, 2026-03-03`. */
  readonly title: string;
  readonly foot: FootName;
  readonly kind: 'film' | 'photo';
  readonly date: string | null;
  readonly reader: string | null;
  /** First and last line of the film's block, from 0. */
  readonly line: number;
  readonly endLine: number;
  /** As written, relative to the case file. */
  readonly picture: string;
  /** Length of the scale's marker, as written; null without one. */
  readonly markerWords: string | null;
  /** What the scale rests on, in a sentence: the bone, or what the picture’s file says; null where its line says it all. */
  readonly scaleWords: string | null;
  /** Whether the foot wears something on it that stays on for a picture. */
  readonly isShod: boolean;
  /** Whether it is bare by what is written. */
  readonly isBare: boolean;
  /** `shoe and pad`; null where it is bare, or nobody knows. */
  readonly worn: string | null;
  /** What else is said of the picture, a sentence each: what the foot wore, and how it was taken. */
  readonly said: readonly string[];
  /** What a hand took of the same foot at the same visit, by measure, as written. */
  readonly tapes: Readonly<Record<string, string>>;
  readonly notes: readonly Note[];
  /** What the limits of cuts are on this foot. */
  readonly limits: CutFigures;
}

/**
 * One film as a person looks at it: what is placed, what it measures, what there is to say. Plain data, the same for
 * the preview pane, the report and the terminal; all words are ready to be shown, all numbers rounded in them.
 */
export interface FilmSheet extends AboutFilm {
  /** What all numbers are measured from: enough to measure anew where a place of it moves. */
  readonly input: FootInput;
  readonly view: View;
  readonly placed: Readonly<Record<string, { readonly x: number; readonly y: number; readonly line: number }>>;
  readonly ground: readonly [XY, XY] | null;
  /** The plane between hoof and shoe. */
  readonly bearing: readonly [XY, XY] | null;
  readonly marker: readonly [XY, XY] | null;
  /** mm/px. */
  readonly scale: number | null;
  readonly rows: readonly MeasureRow[];
  /** The landmarks whose placing would give the most measures that are still absent. */
  readonly missing: readonly string[];
  readonly cuts: readonly CutSheet[];
}

export interface Note {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  /** Why somebody lives with it; the message says so too. */
  readonly accepted?: string;
  readonly line: number;
}

/** A plan or trim as a text says it, without what it would leave. */
export interface WrittenCut {
  readonly kind: 'plan' | 'trim';
  /** First and last line of its block, from 0. */
  readonly line: number;
  readonly endLine: number;
  readonly date: string | null;
  /** `heel down 8 mm, toe back 3 mm`. */
  readonly cut: string;
  readonly size: CutSize;
  /** What comes off each side; null for one that is told of on a lateral film. */
  readonly sides: SideSize | null;
  /** What came off the foot between the film and this cut, in order; null where it cannot be followed. */
  readonly earlier: readonly CutSize[] | null;
  /** What is to be left alone, as written. */
  readonly leave: readonly string[];
  readonly notes: readonly Note[];
}

export interface CutSheet extends WrittenCut, CutOutcome {}

/** A sheet for each reading of each film, in the order of the text. */
export function filmSheets({ study, findings, tree }: Inspection): FilmSheet[] {
  const map = new LineMap(tree.text);
  const wearing = new Wearing(study.record.visits);
  // By the film, not by its reading alone: two visits of one text may share their readings.
  const cutsOn = grouped(study.cuts, ({ film }) => film);
  const sidesOn = grouped(
    study.cuts.flatMap((cut) => {
      const sides = sidesOf(cut, study.series);
      return sides ? [{ cut, sides }] : [];
    }),
    ({ sides }) => sides.film,
  );
  const tapesAt = new Map<StudiedFilm['visit'], Map<FootName, AboutFilm['tapes']>>();
  const tapesFor = (film: StudiedFilm): AboutFilm['tapes'] => {
    const byFoot = tapesAt.get(film.visit) ?? new Map<FootName, AboutFilm['tapes']>();
    tapesAt.set(film.visit, byFoot);
    const tapes = byFoot.get(film.film.foot) ?? tapesOf(film);
    byFoot.set(film.film.foot, tapes);
    return tapes;
  };
  return study.films.flatMap((film) => {
    const toldOf = findingsByReading(film, findings);
    const cutsOf = grouped(cutsOn.get(film) ?? [], ({ reading }) => reading);
    const sidesIn = grouped(sidesOn.get(film) ?? [], ({ sides }) => sides.reading);
    return film.readings.map((reading) => {
      const about: AboutFilm = {
        ...aboutFilm(film, reading, map, wearing),
        tapes: tapesFor(film),
        notes: toldOf(reading).map((finding) => note(finding, map)),
        yardsticks: yardstickKey(film, study),
        limits: cutFigures(film.film.foot, study, film.day),
      };
      return filmSheet(about, reading.input, reading.taking, {
        lines: linesOf(film, reading, map),
        yardsticks: yardsticksOf(study, film),
        cuts: [
          ...(cutsOf.get(reading) ?? []).map((cut) =>
            cutSheet(writtenCut(cut, findings, map), about, { foot: cut.foot, values: cut.before }, cut.prediction),
          ),
          ...(sidesIn.get(reading) ?? []).map(({ cut, sides }) =>
            sidesSheet(writtenCut(cut, findings, map), film.film.foot, reading.taking, sides),
          ),
        ],
      });
    });
  });
}

/** With several readers in one film, a finding at another reader's lines is not this sheet's; a range is told of all. */
function findingsByReading(
  { film, visit, readings }: StudiedFilm,
  findings: readonly Finding[],
): (reading: StudiedReading) => readonly Finding[] {
  const told = findingsWithin(findings, visit.start + film.at.start, visit.start + film.at.end);
  if (readings.length === 1) return () => told;
  const readingAt = new Map(
    readings.flatMap((one) => one.reading.placings.map(({ at }) => [at.start + visit.start, one] as const)),
  );
  const byReading = grouped(told, ({ at, code }) =>
    code.startsWith('range/') ? null : (readingAt.get(at.start) ?? null),
  );
  const ofAll = byReading.get(null) ?? [];
  return (reading) => inTextOrder([...ofAll, ...(byReading.get(reading) ?? [])]);
}

interface Beside {
  /** Of each landmark that the text has, from 0. */
  readonly lines: Readonly<Record<string, number>>;
  readonly yardsticks: readonly Yardstick[];
  readonly cuts: readonly CutSheet[];
}

/** The sheet of a film: what its text says, what is placed on it, and what was measured from that. */
export function filmSheet(
  about: AboutFilm,
  input: FootInput,
  { scale, values }: Pick<Taking, 'scale' | 'values'>,
  { lines, yardsticks, cuts }: Beside,
): FilmSheet {
  const { view, landmarks, ground, bearing } = input;
  const placed = Object.fromEntries(
    landmarks.map(({ name, x, y }) => [name, { x, y, line: lines[name] ?? about.line }]),
  );
  return {
    ...about,
    input,
    view,
    placed,
    ground,
    bearing,
    marker: input.scale?.kind === 'marker' ? input.scale.ends : null,
    said: saidOf(about, input),
    scale,
    rows: rowsOf(values, { view, yardsticks, placed, tapes: about.tapes }),
    missing: missingIn(view, about.kind, placed),
    cuts,
  };
}

/** A cut as its text says it, with what it would leave of the foot as it stands. */
export function cutSheet(
  written: WrittenCut,
  { foot, limits }: Pick<AboutFilm, 'foot' | 'limits'>,
  before: { readonly foot: Footing | null; readonly values: Values | null },
  prediction: Prediction | null,
): CutSheet {
  return { ...written, ...cutOutcome(foot, before, written.size, prediction, limits) };
}

/** The same of what comes off each side. */
export function sidesSheet(
  written: WrittenCut,
  foot: FootName,
  before: Pick<Taking, 'frame' | 'values'>,
  { size, prediction }: Pick<StudiedSides, 'size' | 'prediction'>,
): CutSheet {
  return { ...written, sides: size, ...sideOutcome(foot, before, size, prediction) };
}

function aboutFilm(
  studied: StudiedFilm,
  { reading: { reader }, taking }: StudiedReading,
  map: LineMap,
  wearing: Wearing,
): Omit<AboutFilm, 'yardsticks' | 'tapes' | 'notes' | 'limits'> {
  const { film, visit } = studied;
  const date = film.taken ?? visit.is.date;
  const by = reader === null ? '' : t(', read by {0}', reader);
  const start = visit.start + film.at.start;
  const end = visit.start + film.at.end;
  return {
    title: `${sentence(footWords[film.foot])}, ${film.view} ${film.kind}${date ? `, ${date}` : ''}${by}`,
    foot: film.foot,
    kind: film.kind,
    date,
    reader,
    line: map.at(start).line,
    endLine: map.at(end).line,
    picture: film.path.text,
    markerWords: film.scale?.kind === 'marker' ? `${film.scale.length.value} ${film.scale.length.unit}` : null,
    ...shodness(studied, wearing),
    scaleWords: taking.scale === null ? null : (scaleOrigin(studied)?.words ?? null),
  };
}

/** No foot is called bare whose film shows a bearing plane; one may be placed since. */
function saidOf({ isBare, said }: Pick<AboutFilm, 'isBare' | 'said'>, { bearing }: FootInput): readonly string[] {
  const bare = t('The foot is bare.');
  const others = said.filter((words) => words !== bare);
  return isBare && !bearing ? [bare, ...others] : others;
}

function shodness(studied: StudiedFilm, wearing: Wearing): Pick<AboutFilm, 'isShod' | 'isBare' | 'worn' | 'said'> {
  const { worn: shod, bareBy, film } = studied;
  const worn = shod ? [t('On the foot: {0}.', shodWords(shod))] : [];
  return {
    // Where a trim raised the heel by a wedge, nobody knows what it wears.
    isBare: shod === null && wearing.isTold(film.foot) && bareBy?.by !== 'wedge',
    isShod: shod !== null && staysOn(shod),
    worn: shod && wornKindsWords(shod),
    said: [...worn, ...setupWords(film.setup)],
  };
}

function linesOf({ visit }: StudiedFilm, { reading }: StudiedReading, map: LineMap): Record<string, number> {
  return Object.fromEntries(reading.placings.map(({ name, at }) => [name, map.at(visit.start + at.start).line]));
}

/** What was taken by hand, of the same foot at the same visit; of two tapes the first that has the measure. */
function tapesOf({ film, visit }: StudiedFilm): Record<string, string> {
  const taken: Record<string, string> = {};
  for (const tape of visit.is.tapes) {
    if (tape.foot !== film.foot) continue;
    for (const { measure, quantity } of tape.values) {
      const known = findMeasure(measure);
      if (known && counts(known, quantity)) taken[known.name] ??= `${quantity.value} ${quantity.unit}`;
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

function writtenCut(studied: StudiedCut, findings: readonly Finding[], map: LineMap): WrittenCut {
  const { cut, visit, size, earlier, lost } = studied;
  const start = visit.start + cut.at.start;
  const end = visit.start + cut.at.end;
  return {
    kind: cut.kind,
    line: map.at(start).line,
    endLine: map.at(end).line,
    date: visit.is.date,
    cut: cutWords(studied),
    size,
    sides: null,
    earlier: lost ? null : earlier.map((trim) => sizeOf(trim.cut)),
    leave: cut.leave,
    notes: findingsWithin(findings, start, end).map((finding) => note(finding, map)),
  };
}

export function cutWords({ cut }: Pick<StudiedCut, 'cut'>): string {
  const parts = [
    cut.heelDown &&
      (cut.heelFrom
        ? t(
            'heel down {0} {1} from {2} {3}',
            cut.heelDown.value,
            cut.heelDown.unit,
            cut.heelFrom.value,
            cut.heelFrom.unit,
          )
        : t('heel down {0} {1}', cut.heelDown.value, cut.heelDown.unit)),
    cut.toeDown && t('toe down {0} {1}', cut.toeDown.value, cut.toeDown.unit),
    cut.toeBack && t('toe back {0} {1}', cut.toeBack.value, cut.toeBack.unit),
    cut.heelUp && t('heel up {0} {1}', cut.heelUp.value, cut.heelUp.unit),
    cut.insideDown && t('inside down {0} {1}', cut.insideDown.value, cut.insideDown.unit),
    cut.outsideDown && t('outside down {0} {1}', cut.outsideDown.value, cut.outsideDown.unit),
    ...cut.dressed.map(dressedWords),
    cut.leave.length > 0 && t('leave {0}', wordList(cut.leave)),
  ];
  return parts.filter((part) => typeof part === 'string').join(', ') || t('nothing cut');
}

const dressingWords = spoken({ bevel: 'bevel', quarters: 'quarters', bars: 'bars' });
const dressedPlaces = spoken({ toe: 'toe', inner: 'inner', outer: 'outer', heel: 'heel', all: 'all' });

function dressedWords({ what, places, amount, text }: Cut['dressed'][number]): string {
  const where = places.length > 0 ? ` ${wordList(places.map((place) => dressedPlaces[place]))}` : '';
  return `${dressingWords[what]}${where}${amount ? ` ${amount.value} ${amount.unit}` : ''}${text === null ? '' : ` (${text})`}`;
}
