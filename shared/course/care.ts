import { t } from '../language/words.ts';
import { inOrderOfDays } from './order-of-days.ts';
import { countWhile } from '../notation/count-while.ts';
import { dayNumber } from '../notation/dates.ts';
import { once } from '../notation/once.ts';
import { pulses, type FootName } from '../notation/choices.ts';
import type { Placed, Visit } from '../record/schema.ts';
import type { Study } from '../trim/study.ts';
import { counted, type VetVisit } from './vet-seen.ts';

/**
 * What of an animal is for the vet at once, visit by visit, and what has closed it: the vet has seen the animal on that day
 * or later (`vet seen`), or it has clearly become better. Other `vet` lines close nothing: to agree to a plan is no visit.
 */
export interface Concern {
  readonly kind: 'signs' | 'lameness';
  readonly visit: Placed<Visit>;
  /** Whether it stands in a part of the file that is no visit. */
  readonly outside: boolean;
  readonly closed: Closed | null;
  /** The last time that the vet came before it, as written; null where nothing says so. */
  readonly before: string | null;
}

/** `seen`: by the vet. `better`: a later visit has an Obel grade under 2 and nothing graver. Dates as written. */
export interface Closed {
  readonly by: 'seen' | 'better';
  readonly date: string;
}

/** The days on which the vet has seen the animal, ascending; those that count. */
export function vetDays({ record }: Pick<Study, 'record'>): number[] {
  return counted(record.visits).map(({ day }) => day);
}

/** Obel: 3 is reluctant to walk, 4 moves only if forced (Obel 1948). */
const grave = 3;
/** Lame at the trot is 1; 2 is lame at the walk, moving willingly. */
const lame = 2;

/** Every visit with something for the vet, in the order of the text. */
export function concernsOf(study: Pick<Study, 'record'>): Concern[] {
  const { visits, outside } = study.record;
  const vet = counted(visits);
  const seenFrom = seenIn(vet);
  const betterAfter = betterIn(visits);
  const concerns: Concern[] = [];
  // What stands outside every visit is of no day, as what stands in a visit without a date.
  const placed = [
    ...visits.map((visit, index) => ({ visit, index, isOutside: false })),
    ...outside.map((visit) => ({
      visit,
      isOutside: true,
      index: countWhile(visits, ({ start }) => start < visit.start) - 0.5,
    })),
  ].sort((a, b) => a.index - b.index);
  placed.forEach(({ visit, index, isOutside }) => {
    const signs = visit.is.signs.length > 0;
    const lame = isGrave(visit.is);
    if (!signs && !lame) return;
    const day = visit.is.date === null ? null : dayNumber(visit.is.date);
    const before = day === null ? null : (vet[countWhile(vet, (one) => one.day < day) - 1]?.date ?? null);
    if (signs) concerns.push({ kind: 'signs', visit, outside: isOutside, closed: seenFrom(visit, index), before });
    if (lame) {
      const closed = seenFrom(visit, index) ?? betterAfter(visit, index);
      concerns.push({ kind: 'lameness', visit, outside: isOutside, closed, before });
    }
  });
  return concerns;
}

/** A grade of lameness as it counts, and as it is written. */
export interface Grade {
  /** Obel's, or what stands for it. */
  readonly value: number;
  /** `Obel grade 3`, `5 of 5 over ground` */
  readonly said: string;
  readonly scale: 'obel' | 'ground';
  /** From a line that gives no grade. */
  readonly unread: boolean;
  readonly at: NonNullable<Visit['obel']>['at'];
}

/** No scale of lameness goes so far: what is written there is no grade, and is not repeated. */
const beyond = 10;

/**
 * What a grade over ground, 0 to 5, counts as: 5, hardly bears weight, as Obel 3; 4, plain at the walk, as Obel 2; less as
 * Obel 1. The two scales are not the same; by what each says of the walk this is a judgement of ours.
 */
const asObel = (ground: number): number => (ground >= 5 ? grave : ground >= 4 ? lame : Math.min(ground, 1));

type Lameness = Pick<Visit, 'obel' | 'gradesUnread' | 'lameness'>;

/**
 * The grade of a visit. A line that gives none counts as the next higher grade of what stands in it: somebody meant it.
 * Of several lines the gravest counts. Null where nothing is written, or nothing that can be read.
 */
export function gradeIn({ obel, gradesUnread, lameness }: Lameness): Grade | null {
  const grades: Grade[] = [];
  if (obel)
    grades.push({
      value: obel.value,
      said: t('Obel grade {0}', obel.value),
      scale: 'obel',
      unread: false,
      at: obel.at,
    });
  for (const { scale, value, written, at } of gradesUnread) {
    if (value === null || scale === 'meier') continue;
    if (scale === 'obel') {
      const said = t('Obel grade {0}', value > beyond ? t('above 4') : written);
      grades.push({ value: Math.ceil(value), said, scale, unread: true, at });
    } else
      grades.push({
        value: asObel(value),
        said: t('{0} of 5 over ground', Math.min(value, 5)),
        scale,
        unread: true,
        at,
      });
  }
  for (const { grade, at } of lameness)
    grades.push({ value: asObel(grade), said: t('{0} of 5 over ground', grade), scale: 'ground', unread: false, at });
  return grades.reduce<Grade | null>((worst, one) => (worst && worst.value >= one.value ? worst : one), null);
}

/** From how much of 12 on a modified Obel score is told as clearly lame: a third of it, which is a judgement of ours. */
export const clearScore = 4;

/** A modified Obel score of lameness that no grade stands beside, or one that it does not agree with. */
export interface LoneScore {
  readonly visit: Placed<Visit>;
  readonly score: NonNullable<Visit['meier']>;
  /** The grade of the same visit that says sound, or nearly so, where the score says lame; the graver of the two counts. */
  readonly against: Grade | null;
}

/**
 * The newest modified Obel score, where it says lame and no grade stands at its visit or after it. A score of five criteria
 * is no grade of Obel, and none is made of it: the animal counts as neither graded nor sound. A grade of 0 beside a score from a third
 * of it on, or of 1 beside one from two thirds on, does not answer it: the two cannot both be right (a judgement of ours).
 */
export function loneScore(visits: readonly Placed<Visit>[]): LoneScore | null {
  const last = visits.findLastIndex(({ is }) => scoreIn(is) !== null);
  const visit = visits[last];
  const score = visit && scoreIn(visit.is);
  if (!visit || !score || score.value < 1) return null;
  const beside = gradeIn(visit.is);
  const against =
    beside !== null && beside.value < lame && score.value >= clearScore * (beside.value + 1) ? beside : null;
  const later = visits.slice(last + 1).some(({ is }) => gradeIn(is) !== null);
  return later || (beside !== null && against === null) ? null : { visit, score, against };
}

/** The modified Obel score of a visit: of several, and of what stands in a line that gives none, the largest. */
export function scoreIn({ meier, gradesUnread }: Pick<Visit, 'meier' | 'gradesUnread'>): Visit['meier'] {
  const scores = meier ? [meier] : [];
  for (const { scale, value, at } of gradesUnread) if (scale === 'meier' && value !== null) scores.push({ value, at });
  return scores.reduce<Visit['meier']>((worst, one) => (worst && worst.value >= one.value ? worst : one), null);
}

/** Obel 3 or 4, or 2 with bounding pulses in two feet or more. A grade above the scale is none, and calls too. */
export function isGrave(visit: Lameness & Pick<Visit, 'pulses'>): boolean {
  const grade = gradeIn(visit);
  return grade !== null && (grade.value >= grave || (grade.value >= lame && bounding(visit.pulses).size >= 2));
}

export function bounding(pulses: Visit['pulses']): Set<FootName> {
  return new Set(pulses.filter(({ pulse }) => pulse === 'bounding').flatMap(({ feet }) => feet));
}

/**
 * Of each visit the first `vet seen` on or after its day, wherever it is written. Of a visit without a date only one that is
 * written in it or after it.
 */
function seenIn(all: readonly VetVisit[]): (visit: Placed<Visit>, index: number) => Closed | null {
  return ({ is: { date } }, index) => {
    const from = date === null ? null : dayNumber(date);
    const seen =
      from === null ? all.find(({ place }) => place >= index) : all[countWhile(all, (one) => one.day < from)];
    return seen ? { by: 'seen', date: seen.date } : null;
  };
}

/**
 * Of each visit the next one with a grade of lameness under 2: below it in the text and of a later day, so that a slip in
 * the year, or a second look on the same day, makes nobody better.
 */
function betterIn(visits: readonly Placed<Visit>[]): (visit: Placed<Visit>, index: number) => Closed | null {
  const days = visits.map(({ is: { date } }) => (date === null ? null : dayNumber(date)));
  const better = visits.flatMap(({ is }, index) => {
    // What cannot be read has made nobody better, nor has a grade that a score beside it gainsays.
    const isSure = is.obel !== null && is.gradesUnread.length === 0 && loneScore([{ start: 0, line: 0, is }]) === null;
    return isSure && (gradeIn(is)?.value ?? lame) < lame ? [index] : [];
  });
  return ({ is: { date } }, index) => {
    const day = date === null ? null : dayNumber(date);
    const found = better.find((later) => later > index && (day === null || (days[later] ?? day + 1) > day));
    return found === undefined ? null : { by: 'better', date: visits[found]?.is.date ?? t('a later visit') };
  };
}

/** The newest grade of lameness, and where bounding pulses were last told of a foot, over all visits. */
export interface NewestState {
  /** As it counts; null where none is written, or the newest line says none. */
  readonly grade: Grade | null;
  /** A line of lameness is written, and the newest says no grade that can be read. */
  readonly unread: boolean;
  /** Lameness is written, newest, by a score alone that stands for no grade of Obel; null where it is not. */
  readonly score: LoneScore['score'] | null;
  pulse(foot: FootName): Visit['pulses'][number]['pulse'] | null;
}

/**
 * Where the newest grade of lameness stands among visits in the order of their days; -1 where none does. A second visit of the same day
 * makes nobody better, so of one day the graver counts.
 */
export function newestGraded(visits: readonly Placed<Visit>[]): number {
  const isGraded = ({ is }: Placed<Visit>): boolean =>
    is.obel !== null || is.lameness.length > 0 || is.gradesUnread.some(({ scale }) => scale !== 'meier');
  let newest = visits.findLastIndex(isGraded);
  const found = visits[newest];
  if (!found) return -1;
  for (let index = newest - 1; index >= 0; index--) {
    const other = visits[index];
    if (!other || other.is.date === null || other.is.date !== found.is.date) break;
    if (isGraded(other) && valueOf(other) > valueOf(visits[newest])) newest = index;
  }
  return newest;
}

/** What cannot be read counts as the gravest. */
const valueOf = (visit: Placed<Visit> | undefined): number => (visit && gradeIn(visit.is)?.value) ?? Infinity;

/** Asked of each film, so it is looked for once for a record. */
export const newestState = ({ record }: Pick<Study, 'record'>): NewestState => stateIn(record.visits);

const stateIn = once((all: readonly Placed<Visit>[]): NewestState => {
  const visits = inOrderOfDays(all);
  const newest = visits[newestGraded(visits)]?.is;
  const written = newest ? gradeIn(newest) : null;
  const score = loneScore(visits)?.score ?? null;
  // A score after it has outdated a grade of sound or nearly so; a graver one stays until a better one is written.
  const grade = score !== null && written !== null && written.value < lame ? null : written;
  return {
    grade,
    unread: newest !== undefined && written === null,
    score,
    pulse(foot) {
      const told = (is: Visit): Visit['pulses'] => is.pulses.filter(({ feet }) => feet.includes(foot));
      const visit = visits.findLast(({ is }) => told(is).length > 0)?.is;
      // Of two that contradict each other the graver.
      return visit ? (pulses[Math.max(...told(visit).map(({ pulse }) => pulses.indexOf(pulse)))] ?? null) : null;
    },
  };
});

/** Lame at the walk or worse, by a grade or a clear score alone, a bounding pulse in that foot, or signs that the vet has not seen: what is unsure is then told as an error. */
export function isIll(foot: FootName, study: Pick<Study, 'record'>): boolean {
  const { grade, score, pulse } = newestState(study);
  return (
    (score !== null && score.value >= clearScore) ||
    (grade !== null && grade.value >= lame) ||
    pulse(foot) === 'bounding' ||
    concernsOf(study).some(({ kind, closed }) => kind === 'signs' && closed === null)
  );
}
