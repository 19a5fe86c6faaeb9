import type { MeasureName } from '../measures/names.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { MarkedFilm } from './marked-case.ts';

/** Of a class: how many of those who have put or written something are off the key there. */
export interface ClassMissed {
  readonly missed: number;
  readonly of: number;
}

/** What a class has missed, film by film added up, so that no student's file is kept. */
export class ClassTally {
  private count = 0;
  private off = 0;
  private readonly byPoint = new Map<LandmarkName, ClassMissed>();
  private readonly byMeasure = new Map<MeasureName, ClassMissed>();
  private planned: ClassMissed & { readonly broken: number } = { missed: 0, broken: 0, of: 0 };

  /** `isOff`: something of this student's is off the key. */
  add(films: readonly MarkedFilm[], isOff: boolean): void {
    this.count++;
    if (isOff) this.off++;
    for (const { marked, values, plans } of films) {
      for (const { landmark, off, agrees } of marked?.points ?? []) count(this.byPoint, landmark, off !== null, agrees);
      for (const { measure, student, agrees } of values) count(this.byMeasure, measure, student !== null, agrees);
      if (!plans || plans.agrees === null) continue;
      const { missed, broken, of } = this.planned;
      this.planned = {
        missed: missed + (plans.agrees ? 0 : 1),
        broken: broken + (plans.plans.some((plan) => plan.broken.length > 0) ? 1 : 0),
        of: of + 1,
      };
    }
  }

  get students(): number {
    return this.count;
  }

  /** How many of them have something off the key. */
  get studentsOff(): number {
    return this.off;
  }

  /** What was missed oftenest first. */
  get points(): readonly (ClassMissed & { readonly landmark: LandmarkName })[] {
    return inOrder(this.byPoint).map(([landmark, row]) => ({ landmark, ...row }));
  }

  get values(): readonly (ClassMissed & { readonly measure: MeasureName })[] {
    return inOrder(this.byMeasure).map(([measure, row]) => ({ measure, ...row }));
  }

  /** Of the films on which a plan, or none, is asked for; `broken`: with a plan that breaks a limit. */
  get plans(): ClassMissed & { readonly broken: number } {
    return this.planned;
  }
}

function count<K>(rows: Map<K, ClassMissed>, key: K, isThere: boolean, agrees: boolean): void {
  const { missed, of } = rows.get(key) ?? { missed: 0, of: 0 };
  rows.set(key, { missed: missed + (isThere && !agrees ? 1 : 0), of: of + (isThere ? 1 : 0) });
}

const inOrder = <K>(rows: ReadonlyMap<K, ClassMissed>): [K, ClassMissed][] =>
  [...rows].filter(([, { missed }]) => missed > 0).toSorted(([, a], [, b]) => b.missed / b.of - a.missed / a.of);
