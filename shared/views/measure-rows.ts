import { stateOf } from '../findings/limits/limits.ts';
import type { RangeState } from '../findings/limits/range-state.ts';
import { sayWithSpread } from '../findings/wording/wording.ts';
import type { MeasureUnit } from '../measures/unit.ts';
import { measuresIn } from '../measures/registry.ts';
import type { Value, Values } from '../measures/take.ts';
import type { LandmarkName, View } from '../notation/landmarks.ts';
import { landmarksShown } from '../notation/photo-landmarks.ts';
import type { Yardstick } from './yardsticks.ts';

export interface MeasureRow extends Yardstick {
  readonly value: number;
  readonly sd: number;
  readonly unit: MeasureUnit;
  /** `7.4° ± 0.6`. */
  readonly text: string;
  readonly state: RangeState;
  /** What a hand took of the same foot at the same visit, as written; null where nothing. */
  readonly tape: string | null;
  /** Line of the first landmark that it rests on, from 0. */
  readonly line: number | null;
}

/** Lines of the landmarks that are placed, from 0. */
type PlacedLines = Readonly<Record<string, { readonly line: number }>>;

/** The landmarks that a picture shows and that are not placed, without those that many feet do not have. */
export function missingIn(view: View, kind: 'film' | 'photo', placed: PlacedLines): LandmarkName[] {
  return landmarksShown(view, kind)
    .filter(({ word, seen }) => !(word in placed) && seen !== 'seldom')
    .map(({ word }) => word);
}

interface RowGround {
  readonly view: View;
  readonly yardsticks: readonly Yardstick[];
  readonly placed: PlacedLines;
  readonly tapes: Readonly<Record<string, string>>;
}

interface HeldRows {
  readonly rows: MeasureRow[];
  readonly unmeasured: Yardstick[];
}

/** A row for each measure that has a value, and what the others will be held against; in the order of the registry. */
export function rowsOf(values: Values, { view, yardsticks, placed, tapes }: RowGround): HeldRows {
  const held = new Map(yardsticks.map((one) => [one.measure, one]));
  const rows: MeasureRow[] = [];
  const unmeasured: Yardstick[] = [];
  for (const { name } of measuresIn(view)) {
    const value = values.get(name);
    const known = held.get(name);
    if (!known) continue;
    // What is given may be a row of an earlier sheet: of it only what it is held against stays.
    const { measure, words, lines, usual, usualText, source, published } = known;
    const yardstick = { measure, words, lines, usual, usualText, source, published };
    if (value) rows.push(row(value, yardstick, placed, tapes[name] ?? null));
    else unmeasured.push(yardstick);
  }
  return { rows, unmeasured };
}

function row(value: Value, yardstick: Yardstick, placed: PlacedLines, tape: string | null): MeasureRow {
  return {
    ...yardstick,
    value: value.value,
    sd: value.sd,
    unit: value.unit,
    text: sayWithSpread(value),
    state: stateOf(value, yardstick),
    line: value.measure.needs.map((need) => placed[need]?.line).find((line) => line !== undefined) ?? null,
    tape,
  };
}
