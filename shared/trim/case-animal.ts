import { countWhile } from '../notation/count-while.ts';
import { dateOfDay, dayNumber, daysOf, readDate } from '../notation/dates.ts';
import type { JudgedAnimal } from '../reference/bands.ts';
import type { CaseRecord } from '../record/schema.ts';

/** The animal of a case over all its days. */
export interface CaseAnimal extends Pick<JudgedAnimal, 'kind' | 'heightMm'> {
  /** The day of its birth, as `dayNumber` counts; null where none is given. What is dated earlier is judged as of a grown animal. */
  readonly born: number | null;
  /** The day from which it counts as grown, as `dayNumber` counts; null where no birth date is given: it then always does. */
  readonly grownFrom: number | null;
  /** The same for its bones, which keep their size from then on. */
  readonly bonesGrownFrom: number | null;
  /** Every weight with a day, ascending. */
  readonly weights: readonly { readonly day: number; readonly kg: number }[];
}

/** Months from which an animal is judged by what is usual in grown ones. */
export const grownAt = 24;

/** Months from which the bones of the foot are taken to keep their size. A judgement of ours. */
const bonesGrownAt = 36;

export function caseAnimal({ animal, visits }: Pick<CaseRecord, 'animal' | 'visits'>): CaseAnimal {
  const { kind = null, height = null, foaled = null } = animal?.is ?? {};
  const weights = visits.flatMap(({ is: { date, weight } }) => {
    const day = date === null ? null : dayNumber(date);
    return day === null || !weight ? [] : [{ day, kg: weight.base }];
  });
  return {
    kind,
    heightMm: height?.base ?? null,
    born: foaled === null ? null : dayNumber(foaled),
    grownFrom: foaled === null ? null : dayOfAge(foaled, grownAt),
    bonesGrownFrom: foaled === null ? null : dayOfAge(foaled, bonesGrownAt),
    weights: weights.sort((a, b) => a.day - b.day),
  };
}

/** The day on which it is so many months old, whole years of them. */
function dayOfAge(foaled: string, months: number): number | null {
  // The last day that it may have been: an animal is taken for young rather too long than too short.
  const born = daysOf(foaled);
  const parts = born && readDate(dateOfDay(born.last));
  if (!parts) return null;
  const year = String(parts.year + months / 12).padStart(4, '0');
  const first = dayNumber(`${year}-${String(parts.month).padStart(2, '0')}`);
  // Counted from the first of the month, as the 29th of February is not in every year.
  return first === null ? null : first + (parts.day ?? 1) - 1;
}

/** What says how old it is. */
export type Ages = Pick<CaseAnimal, 'born' | 'grownFrom' | 'bonesGrownFrom'>;

/** Whether its bones keep their size on a day; also where no birth date, or no day, is given. */
export function hasGrownBones({ born, bonesGrownFrom }: Ages, day: number | null): boolean {
  return !isBetween(born, day, bonesGrownFrom);
}

/** Whether it is too young on a day to be judged by what is usual in grown ones. */
export function isYoung({ born, grownFrom }: Ages, day: number | null): boolean {
  return isBetween(born, day, grownFrom);
}

/** Before the birth nothing is known of the age: one of the dates is wrong, and the strict side is that of the grown. */
function isBetween(born: number | null, day: number | null, grown: number | null): boolean {
  return born !== null && grown !== null && day !== null && born <= day && day < grown;
}

/** What the animal is to be judged as on a day; without a day as grown, by its newest weight. */
export function animalOn(animal: Omit<CaseAnimal, 'weights'> & Partial<CaseAnimal>, day: number | null): JudgedAnimal {
  const { kind, heightMm, weights = [] } = animal;
  const weight = day === null ? weights.at(-1) : weights[countWhile(weights, (one) => one.day <= day) - 1];
  return {
    kind,
    heightMm,
    ...(isYoung(animal, day) && { young: true }),
    ...(weight && { weightKg: weight.kg }),
  };
}
