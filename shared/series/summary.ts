import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import type { CourseSource } from '../course/course-sources.ts';
import { feet, type FootName } from '../notation/choices.ts';
import type { Study } from '../trim/study.ts';
import { atOneTime, valuesOf, type FootValue } from './foot-values.ts';
import type { ReportedMeasure } from './reported-measures.ts';
import { RunningSum } from './running-sum.ts';

/** What feet are put in groups by. */
export const summaryGroups = ['time', 'kind', 'foot', 'breed', 'sex', 'visit-number'] as const;
export type SummaryBy = (typeof summaryGroups)[number];

/** One measure in one group. Each foot counts once in it. */
export interface SummaryRow {
  readonly measure: string;
  readonly words: string;
  readonly unit: ReportedMeasure['unit'];
  /** By time: `first`, `last`, `change`; else a word of the notation, a text of the case or a number; empty where nothing is said. */
  readonly group: string;
  readonly feet: number;
  /** Feet of one animal are no independent sample: how many animals they belong to. */
  readonly animals: number;
  readonly mean: number;
  /** Null of one foot. */
  readonly sd: number | null;
  readonly least: number;
  readonly greatest: number;
}

/** What stands for a group that is none of the case's own words. */
const times: Readonly<Record<string, string>> = spoken({
  first: 'first',
  last: 'last',
  change: 'last less first',
});

export const groupWords = (by: SummaryBy, group: string): string =>
  by === 'time'
    ? (times[group] ?? group)
    : group === ''
      ? t('not said')
      : by === 'visit-number'
        ? t('visit {0}', group)
        : group;

interface FeetGroup {
  readonly sum: RunningSum;
  animals: number;
}

/**
 * Means over the feet of many cases. Cases come one by one and are not kept: what is held grows with measures and groups alone, so a
 * median cannot be told.
 *
 * By time a foot is `first` on the first day on which it has the measure, `last` on the last one where that is another day, and
 * `change` is the difference of the two. By kind, sex, breed or foot it counts by its first day, by the number of the visit once at
 * each. Readings of one film are one value, their mean; films of one foot and day (at one visit) likewise.
 */
export class SeriesSummary {
  readonly by: SummaryBy;
  readonly source: CourseSource;
  /** All that were added, and those of them that count in some group. */
  cases = 0;
  counted = 0;
  readonly #measures: readonly ReportedMeasure[];
  readonly #groups = new Map<string, Map<string, FeetGroup>>();

  constructor(by: SummaryBy, source: CourseSource, measures: readonly ReportedMeasure[]) {
    this.by = by;
    this.source = source;
    this.#measures = measures;
  }

  add(study: Study): void {
    this.cases += 1;
    let counts = false;
    for (const { name } of this.#measures) {
      const placed = this.#placed(valuesOf(study, name, this.source), study);
      if (placed.length === 0) continue;
      counts = true;
      const groups = this.#groups.get(name) ?? new Map<string, FeetGroup>();
      this.#groups.set(name, groups);
      const met = new Set<FeetGroup>();
      for (const [called, value] of placed) {
        const group = groups.get(called) ?? { sum: new RunningSum(), animals: 0 };
        groups.set(called, group);
        group.sum.add(value);
        met.add(group);
      }
      for (const group of met) group.animals += 1;
    }
    if (counts) this.counted += 1;
  }

  /** Each foot of a case in its groups, with its value there. */
  #placed(values: readonly FootValue[], study: Study): (readonly [group: string, value: number])[] {
    const { by } = this;
    if (by === 'visit-number')
      return atOneTime(values, ({ visit }) => visit).map(({ time, value }) => [String(time), value]);
    const days = atOneTime(
      values.filter(({ day }) => day !== null),
      ({ day }) => day as number,
    );
    const animal = study.record.animal?.is;
    return feet.flatMap((foot: FootName) => {
      const own = days.filter((one) => one.foot === foot);
      const [first] = own;
      const last = own.at(-1);
      if (!first || !last) return [];
      if (by === 'foot') return [[foot, first.value]];
      if (by !== 'time') return [[animal?.[by] ?? '', first.value]];
      if (last === first) return [['first', first.value]];
      return [
        ['first', first.value],
        ['last', last.value],
        ['change', last.value - first.value],
      ];
    });
  }

  /** In the order of the measures that were asked for, then of the groups. */
  rows(): SummaryRow[] {
    return this.#measures.flatMap(({ name, words, unit }) =>
      [...(this.#groups.get(name) ?? [])]
        .sort(([a], [b]) => placeOf(this.by, a) - placeOf(this.by, b) || (a < b ? -1 : a > b ? 1 : 0))
        .map(([group, { sum, animals }]) => ({
          measure: name,
          words,
          unit,
          group,
          feet: sum.n,
          animals,
          mean: sum.mean,
          sd: sum.sd,
          least: sum.least,
          greatest: sum.greatest,
        })),
    );
  }
}

function placeOf(by: SummaryBy, group: string): number {
  if (by === 'time') return Object.keys(times).indexOf(group);
  if (by === 'foot') return feet.indexOf(group as FootName);
  if (by === 'visit-number') return Number(group);
  // What is not said comes last; the rest by the letter.
  return group === '' ? 1 : 0;
}
