import { checkDate, checkEscapes, isYear, takeCode, takeYear } from './check-items.ts';
import { checkSignOfFraction } from './fraction-signs.ts';
import { checkCoordinate, checkMeasured, checkQuantity, takeNumber, takeSpread } from './check-numbers.ts';
import { denied, leftover, missing, sayWanted, wanted as wantedWords, wrong } from './complaints.ts';
import { Mismatch, type ExpectedForm } from './mismatch.ts';
import type { Fix, Problem } from './problems.ts';
import { MatchedArguments, noArguments } from './matched-arguments.ts';
import { markBefore, type Argument, type Form } from './signature.ts';
import type { Arguments, Item } from './tree.ts';
import { feet } from './choices.ts';
import { findUnit } from './units.ts';

/** A line's items held against the forms that its word may take; the first item is the word itself. */

export interface Match {
  readonly args: Arguments;
  readonly problem: Problem | null;
}

interface Attempt extends Match {
  readonly problem: Problem;
  readonly wants: string | null;
  readonly reached: number;
}

const none = (): number => 0;

export function matchForms(forms: readonly Form[], items: readonly Item[], asked: ExpectedForm): Match {
  // Nearly every line fits its first form.
  let failed: Attempt[] | null = null;
  for (const form of forms) {
    const taken = form.map(none);
    const args = new MatchedArguments(form, items, taken);
    const mismatch = mismatchOf(form, items, asked, taken, args);
    if (!mismatch) return { args, problem: null };
    const reached = taken.reduce((sum, count) => sum + count, 0);
    (failed ??= []).push({ args, problem: mismatch.problem, wants: mismatch.wants, reached });
  }
  const attempts = failed ?? [];
  const furthest = Math.max(...attempts.map((attempt) => attempt.reached));
  const near = attempts.filter((attempt) => attempt.reached === furthest);
  // An item of the right kind with something wrong about it says more than one of another kind, and one that is right but
  // for its size says most.
  const best =
    near.find((attempt) => attempt.problem.code === 'notation/number-range') ??
    near.find(({ problem }) => problem.code === 'notation/date-form' && problem.fixes.length > 0) ??
    near.find((attempt) => attempt.problem.code !== 'notation/unexpected') ??
    near[0];
  if (!best) return { args: noArguments, problem: null };
  const { problem } = best;
  const fixes = withoutTwins(
    near.flatMap((attempt) => (attempt.problem.code === problem.code ? attempt.problem.fixes : [])),
  );
  const wants = [...new Set(near.flatMap((attempt) => attempt.wants ?? []))];
  const open = wants.length > 1 && near.every((attempt) => attempt.problem.code === 'notation/unexpected');
  const message = open ? sayWanted(wants, asked) : problem.message;
  return { args: best.args, problem: { ...problem, message, fixes } };
}

/** Forms that begin alike fail alike, and offer the same. */
function withoutTwins(fixes: readonly Fix[]): readonly Fix[] {
  return fixes.filter(({ title }, index) => fixes.findIndex((one) => one.title === title) === index);
}

/** Null where the items are as the form wants them. Writes into `taken` how many items each argument took until then. */
function mismatchOf(
  form: Form,
  items: readonly Item[],
  asked: ExpectedForm,
  taken: number[],
  args: Arguments,
): Mismatch | null {
  let index = 1;
  try {
    for (let place = 0; place < form.length; place++) {
      const argument = form[place] as Argument;
      const mark = markBefore(form, place);
      if (mark && taken[place - 1] === 0) continue;
      let count = 0;
      do {
        const item = items[index];
        const found = item ? take(argument, items, index, asked) : 0;
        if (found === 0) {
          if (count > 0 || (argument.optional && !mark)) break;
          return item
            ? new Mismatch(wrongHere(form, place, items, index, asked), wantedWords(argument))
            : new Mismatch(missing(argument, items, asked));
        }
        index += found;
        count += found;
        taken[place] = count;
      } while (argument.many);
    }
    return index < items.length ? new Mismatch(leftover(form, args, items, index, asked)) : null;
  } catch (error) {
    if (!(error instanceof Mismatch)) throw error;
    return error;
  }
}

/** A word that would be put before a number whose unit it does not take is not offered. */
function wrongHere(form: Form, place: number, items: readonly Item[], index: number, asked: ExpectedForm): Problem {
  const problem = wrong(form[place] as Argument, items, index, asked);
  const [next, item] = [form[place + 1], items[index]];
  const isOther =
    form[place]?.take === 'mark' &&
    next?.take === 'quantity' &&
    item?.kind === 'number' &&
    item.unit !== null &&
    !findUnit(item.unit.image, next.dimension);
  return isOther ? { ...problem, fixes: [] } : problem;
}

/** How many items the argument takes from `index` on; 0 where the item is not of its kind. Throws where it nearly is. */
function take(argument: Argument, items: readonly Item[], index: number, asked: ExpectedForm): number {
  const item = items[index];
  if (!item) return 0;
  if (item.kind === 'number') checkSignOfFraction(item, items[index + 1]);
  switch (argument.take) {
    case 'text':
      if (item.kind !== 'text') return 0;
      checkEscapes(item, argument.name === 'path');
      return 1;
    case 'date':
      if (item.kind === 'number' && argument.partial && isYear(item)) return takeYear(item);
      if (item.kind !== 'date') return 0;
      checkDate(item, argument.partial === true);
      return 1;
    case 'number':
      if (item.kind !== 'number') return 0;
      return takeNumber(argument, items, index, asked);
    case 'quantity':
      if (item.kind !== 'number') return 0;
      checkQuantity(item, argument, asked);
      return 1;
    case 'measured':
      if (item.kind !== 'number') return 0;
      checkMeasured(item, argument.ranges);
      return 1;
    case 'foot':
      return item.kind === 'word' && (feet as readonly string[]).includes(item.image) ? 1 : 0;
    case 'choice':
      return item.kind === 'word' && argument.of.includes(item.image) ? 1 : 0;
    case 'word':
      if (item.kind === 'word' && argument.denials.has(item.image.toLowerCase()))
        throw new Mismatch(denied(items, index));
      return item.kind === 'word' && item.image !== 'because' ? 1 : 0;
    case 'measure':
    case 'finding':
      return item.kind === 'word' && item.image !== 'because' ? 1 : 0;
    case 'relation':
      return item.kind === 'sign' && /^(?:>=|<=|≥|≤)$/.test(item.image) ? 1 : 0;
    case 'code':
      return takeCode(argument, items, index, asked);
    case 'point':
      if (item.kind !== 'point') return 0;
      checkCoordinate(item.x, argument.range);
      checkCoordinate(item.y, argument.range);
      return 1;
    case 'segment':
      if (item.kind !== 'segment') return 0;
      for (const end of [item.from, item.to]) for (const leaf of end) checkCoordinate(leaf, argument.range);
      return 1;
    case 'spread':
      return takeSpread(argument, items, index, asked);
    case 'mark':
      return (item.kind === 'sign' || item.kind === 'word') && item.image === argument.text ? 1 : 0;
  }
}
