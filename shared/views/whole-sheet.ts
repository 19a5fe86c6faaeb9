import { t } from '../language/words.ts';
import type { FootInput } from '../geometry/foot-input.ts';
import type { Frame } from '../geometry/frame.ts';
import type { XY } from '../geometry/vector.ts';
import type { Severity } from '../findings/finding.ts';
import type { Taking, Values } from '../measures/take.ts';
import type { View } from '../notation/landmarks.ts';
import type { FootName } from '../notation/choices.ts';
import type { CutFigures } from '../trim/cut-limits.ts';
import type { Prediction } from '../trim/predict.ts';
import type { StudiedSides } from '../trim/side-cut.ts';
import type { CutSize, Footing, SideSize, TakenBefore } from '../trim/stand.ts';
import { cutOutcome, sideOutcome, type CutOutcome } from './cut-outcome.ts';
import type { FilmName } from './film-choice.ts';
import { missingIn, rowsOf, type MeasureRow } from './measure-rows.ts';
import type { Yardstick } from './yardsticks.ts';

/** The sheet of a film as it is put together of text and measures, by the server and, while somebody places, by the page. */

/** What a text says of a film beside what is placed on it: words and lines, whatever the numbers. */
export interface AboutFilm extends Omit<FilmName, 'view'> {
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
  /** What the measures that have no value yet are held against. */
  readonly unmeasured: readonly Yardstick[];
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
  /** What trims took off the sides since the front film; null for one that is told of on a lateral film. */
  readonly sidesBefore: SideSize | null;
  /** What came off the foot before this cut; null where it cannot be followed. */
  readonly taken: TakenBefore | null;
  /** What is to be left alone, as written. */
  readonly leave: readonly string[];
  readonly notes: readonly Note[];
}

export interface CutSheet extends WrittenCut, CutOutcome {}

interface Beside {
  /** Of each landmark that the text has, from 0. */
  readonly lines: Readonly<Record<string, number>>;
  /** Of every measure of the view. */
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
    ...rowsOf(values, { view, yardsticks, placed, tapes: about.tapes }),
    missing: missingIn(view, about.kind, placed),
    cuts,
  };
}

/** No foot is called bare whose film shows a bearing plane; one may be placed since. */
function saidOf({ isBare, said }: Pick<AboutFilm, 'isBare' | 'said'>, { bearing }: FootInput): readonly string[] {
  const bare = t('The foot is bare.');
  const others = said.filter((words) => words !== bare);
  return isBare && !bearing ? [bare, ...others] : others;
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
  frame: Frame | null,
  sides: Pick<StudiedSides, 'size' | 'earlier' | 'before' | 'prediction'>,
): CutSheet {
  return { ...written, sides: sides.size, sidesBefore: sides.earlier, ...sideOutcome(foot, frame, sides) };
}
