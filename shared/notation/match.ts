import { dateExists, readDate, type DateParts } from './dates.ts';
import { nearest } from './nearest.ts';
import type { Fix, NotationCode, Problem } from './problems.ts';
import { findUnit, isUnit, toBase, unitsOf } from './units.ts';
import { writeArgument, type Argument, type Form } from './signature.ts';
import type { Item, ItemOf, Leaf, Span } from './tree.ts';
import { feet } from './vocabulary.ts';

/** A line's items held against the forms that its word may take. */

export interface Match {
  readonly args: ReadonlyMap<string, readonly Item[]>;
  readonly problem: Problem | null;
}

export interface Asked {
  /** The line's first word, and an example of a whole line, for the wording. */
  readonly head: Leaf;
  readonly example: string;
}

interface Attempt extends Match {
  readonly reached: number;
}

class Mismatch extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.message);
    this.problem = problem;
  }
}

export function matchForms(forms: readonly Form[], items: readonly Item[], asked: Asked): Match {
  const attempts: Attempt[] = [];
  for (const form of forms) {
    const attempt = matchForm(form, items, asked);
    if (!attempt.problem) return attempt;
    attempts.push(attempt);
  }
  const furthest = Math.max(...attempts.map((attempt) => attempt.reached));
  const near = attempts.filter((attempt) => attempt.reached === furthest);
  // An item of the right kind with something wrong about it says more than one of another kind.
  const best = near.find((attempt) => attempt.problem?.code !== 'notation/unexpected') ?? near[0];
  if (!best?.problem) return { args: new Map(), problem: null };
  const { problem } = best;
  const fixes = near.flatMap((attempt) => (attempt.problem?.code === problem.code ? attempt.problem.fixes : []));
  return { args: best.args, problem: { ...problem, fixes } };
}

function matchForm(form: Form, items: readonly Item[], asked: Asked): Attempt {
  const args = new Map<string, Item[]>();
  let index = 0;
  try {
    for (const argument of form) {
      let taken = 0;
      for (;;) {
        const item = items[index];
        const wanted = taken === 0 && !argument.optional;
        const found = item ? take(argument, items, index, asked) : 0;
        if (found === 0 && item && wanted) throw new Mismatch(wrong(argument, items, index, asked));
        if (found === 0 && !item && wanted) throw new Mismatch(missing(argument, items, asked));
        if (found === 0) break;
        const matched = args.get(argument.name) ?? [];
        args.set(argument.name, matched);
        for (let end = index + found; index < end; index++) matched.push(items[index] as Item);
        taken += 1;
        if (!argument.many) break;
      }
    }
    const extra = items[index];
    if (extra) throw new Mismatch(leftover(form, args, items, index, asked));
    return { args, problem: null, reached: index };
  } catch (error) {
    if (!(error instanceof Mismatch)) throw error;
    return { args, problem: error.problem, reached: index };
  }
}

/** How many items the argument takes from `index` on; 0 where the item is not of its kind. Throws where it nearly is. */
function take(argument: Argument, items: readonly Item[], index: number, asked: Asked): number {
  const item = items[index];
  if (!item) return 0;
  switch (argument.take) {
    case 'text':
      if (item.kind !== 'text') return 0;
      checkEscapes(item, argument.name === 'path');
      return 1;
    case 'date':
      if (item.kind !== 'date') return 0;
      checkDate(item, argument.partial === true);
      return 1;
    case 'number':
      if (item.kind !== 'number') return 0;
      if (item.unit) throw fail('notation/unexpected', item.unit, `«${asked.head.image}» takes a plain number, without a unit.`, [remove('Remove the unit', item.unit)]);
      checkRange(item, argument);
      return 1;
    case 'quantity':
      if (item.kind !== 'number') return 0;
      if (!item.unit) throw missingUnit(item, unitsOf(argument.dimension).map((unit) => unit.word));
      if (!findUnit(item.unit.image, argument.dimension)) throw wrongUnit(item, item.unit, unitsOf(argument.dimension).map((unit) => unit.word));
      checkHands(item, item.unit);
      return 1;
    case 'measured':
      if (item.kind !== 'number') return 0;
      // Whether a bare number will do is for the measure to say, and that is not known here.
      if (item.unit && !isUnit(item.unit.image)) throw wrongUnit(item, item.unit, ['mm', 'deg', '%']);
      return 1;
    case 'foot':
      return item.kind === 'word' && (feet as readonly string[]).includes(item.image) ? 1 : 0;
    case 'choice':
      return item.kind === 'word' && argument.of.includes(item.image) ? 1 : 0;
    case 'word':
    case 'measure':
      return item.kind === 'word' && item.image !== 'because' ? 1 : 0;
    case 'relation':
      return item.kind === 'sign' && /^(?:>=|<=|≥|≤)$/.test(item.image) ? 1 : 0;
    case 'code':
      return takeCode(argument, items, index, asked);
    case 'point':
      return item.kind === 'point' ? 1 : 0;
    case 'segment':
      return item.kind === 'segment' ? 1 : 0;
    case 'spread':
      return takeSpread(argument, items, index, asked);
    case 'mark':
      return (item.kind === 'sign' || item.kind === 'word') && item.image === argument.text ? 1 : 0;
  }
}

function fail(code: NotationCode, at: Span, message: string, fixes: readonly Fix[] = []): Mismatch {
  return new Mismatch({ code, at: { start: at.start, end: at.end }, message, fixes });
}

const replace = (title: string, at: Span, text: string): Fix => ({ title, edits: [{ start: at.start, end: at.end, text }] });
const remove = (title: string, at: Span): Fix => replace(title, at, '');
const insert = (title: string, offset: number, text: string): Fix => ({ title, edits: [{ start: offset, end: offset, text }] });

function list(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

function missingUnit(item: ItemOf<'number'>, units: readonly string[]): Mismatch {
  const written = item.number.image;
  return fail('notation/missing-unit', item, `The number ${written} has no unit. Write ${list(units.map((unit) => `${written} ${unit}`))}.`,
    units.map((unit) => insert(`Write ${written} ${unit}`, item.number.end, ` ${unit}`)));
}

function wrongUnit(item: ItemOf<'number'>, unit: Leaf, units: readonly string[]): Mismatch {
  const written = item.number.image;
  const known = isUnit(unit.image) ? `The unit ${unit.image} does not fit here.` : `There is no unit «${unit.image}».`;
  return fail('notation/wrong-unit', unit, `${known} Write ${list(units.map((word) => `${written} ${word}`))}.`,
    units.map((word) => replace(`Write ${written} ${word}`, unit, word)));
}

function checkHands(item: ItemOf<'number'>, unit: Leaf): void {
  const hands = unit.image === 'hh' ? findUnit('hh', 'stature') : undefined;
  if (hands && toBase(item.number.image, hands) === undefined)
    throw fail('notation/number-range', item.number, `After the point, hands count inches from 0 to 3: 14.2 hh is 14 hands and 2 inches.`);
}

function checkRange(item: ItemOf<'number'>, argument: Extract<Argument, { take: 'number' }>): void {
  const value = Number(item.number.image);
  const { low = -Infinity, high = Infinity, step } = argument;
  const even = step === undefined || Number.isInteger(value / step);
  if (value >= low && value <= high && even) return;
  const steps = step === 0.5 ? ' in halves' : step === 1 ? ', whole numbers' : '';
  throw fail('notation/number-range', item.number, `This goes from ${low} to ${high}${steps}; ${item.number.image} is not one of them.`);
}

function checkDate(item: ItemOf<'date'>, partial: boolean): void {
  if (/[./]/.test(item.image)) throw writtenDate(item);
  const padded = item.image.split('-').map((part) => part.padStart(2, '0')).join('-');
  if (padded !== item.image)
    throw fail('notation/date-form', item, `Write the date with two digits for month and day: ${padded}.`, [replace(`Write ${padded}`, item, padded)]);
  const parts = readDate(item.image);
  if (!parts || !dateExists(parts)) throw fail('notation/no-such-date', item, `There is no ${item.image} in the calendar.`);
  if (parts.day === null && !partial) throw fail('notation/date-form', item, `The day is needed here too, as in ${item.image}-01.`);
}

/** 4.3.2026 can only be meant one way where the trade writes day.month; 3/4/2026 can be meant two ways, so no fix guesses. */
function writtenDate(item: ItemOf<'date'>): Mismatch {
  const dayFirst = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(item.image);
  const yearFirst = /^(\d{4})[./](\d{1,2})[./](\d{1,2})$/.exec(item.image);
  const parts = dayFirst ? [dayFirst[3], dayFirst[2], dayFirst[1]] : yearFirst ? yearFirst.slice(1) : null;
  const meant = parts?.map((part) => (part ?? '').padStart(2, '0')).join('-');
  const real = meant && readDate(meant) && dateExists(readDate(meant) as DateParts) ? meant : undefined;
  return fail('notation/date-form', item, `Write the date as year-month-day${real ? `: ${real}` : ', for example 2026-03-04'}.`,
    real ? [replace(`Write ${real}`, item, real)] : []);
}

function checkEscapes(item: ItemOf<'text'>, isPath: boolean): void {
  const bad = /\\(?!["\\])/.exec(item.value);
  if (!bad) return;
  const fixes = isPath
    ? [replace('Write / instead', item, `"${item.value.replace(/\\/g, '/').replace(/"/g, '\\"')}"`)]
    : [replace('Double the backslash', item, `"${item.value.replace(/\\/g, '\\\\').replace(/"/g, '\\"')}"`)];
  throw fail('notation/text-escape', item,
    isPath ? 'Write / between folders in a path, on every system.' : 'In a text a backslash stands only before " or another backslash. Write \\\\ for a backslash.', fixes);
}

function takeCode(argument: Extract<Argument, { take: 'code' }>, items: readonly Item[], index: number, asked: Asked): number {
  const first = items[index];
  if (!first) return 0;
  if (first.kind !== 'text' && first.kind !== 'word' && first.kind !== 'number') return 0;
  let end = index + 1;
  while (end < items.length && items[end]?.start === items[end - 1]?.end && ['word', 'number', 'date'].includes(items[end]?.kind ?? '')) end += 1;
  const image = codeImage(items.slice(index, end));
  const at = { start: first.start, end: items[end - 1]?.end ?? first.end };
  const { characters, digits } = argument;
  const wellFormed = (digits ? /^\d+$/ : /^[A-Za-z0-9][A-Za-z0-9._-]*$/).test(image) && (!characters || image.length === characters);
  if (wellFormed) return end - index;
  const what = digits ? 'digits' : 'letters and digits';
  throw fail('notation/code-form', at, characters
    ? `«${asked.head.image}» has ${characters} ${what} in one piece; here are ${image.replace(/\s/g, '').length}.`
    : `«${asked.head.image}» is ${what} in one piece, for example: ${asked.example}`);
}

/** The code that a run of adjoining items spells. */
export function codeImage(items: readonly Item[]): string {
  return items
    .map((item) => {
      switch (item.kind) {
        case 'text':
          return item.value;
        case 'number':
          return item.unit && item.unit.start > item.number.end
            ? `${item.number.image} ${item.unit.image}`
            : `${item.number.image}${item.unit?.image ?? ''}`;
        case 'word':
        case 'date':
        case 'sign':
        case 'broken':
          return item.image;
        default:
          return '';
      }
    })
    .join('');
}

function takeSpread(argument: Extract<Argument, { take: 'spread' }>, items: readonly Item[], index: number, asked: Asked): number {
  const sign = items[index];
  if (sign?.kind !== 'sign' || (sign.image !== '+-' && sign.image !== '±')) return 0;
  const value = items[index + 1];
  if (!value) throw fail('notation/missing-argument', sign, `After ${sign.image} comes how far off it may be, for example: ${asked.example}`);
  if (value.kind === 'point') throw decimalComma(value);
  if (value.kind !== 'number') throw fail('notation/unexpected', value, `After ${sign.image} comes a number.`);
  if (!argument.measured && value.unit && value.unit.image !== 'px') {
    throw fail('notation/wrong-unit', value.unit, `How well a point is placed is given in pixels: leave the unit out.`, [remove('Remove the unit', value.unit)]);
  }
  if (Number(value.number.image) < 0) throw fail('notation/number-range', value.number, 'A spread is never below 0.');
  return 2;
}

function decimalComma(item: ItemOf<'point'>): Mismatch {
  const number = `${item.x.image}.${item.y.image}`;
  return fail('notation/decimal-comma', item, `Write the number with a decimal point: ${number}. The comma parts x from y.`, [replace(`Write ${number}`, item, number)]);
}

const wantedWords: Readonly<Record<Argument['take'], string>> = {
  text: 'a text in quotes',
  date: 'a date such as 2026-03-04',
  number: 'a number',
  quantity: 'a number with its unit',
  measured: 'a number with its unit',
  foot: 'a foot: LF, RF, LH or RH',
  choice: 'one of the known words',
  word: 'a word',
  code: 'letters and digits in one piece',
  measure: 'the name of a measure',
  relation: '>= or <=',
  point: 'a point such as 1382, 1201',
  segment: 'two points such as 180, 1388 .. 1650, 1392',
  spread: '+- and a number',
  mark: 'a sign',
};

function wanted(argument: Argument): string {
  if (argument.take === 'choice') return list(argument.of);
  if (argument.take === 'mark') return `«${argument.text}»`;
  if (argument.take === 'quantity') return `a number with its unit, such as 12 ${unitsOf(argument.dimension)[0]?.word}`;
  return wantedWords[argument.take];
}

function missing(argument: Argument, items: readonly Item[], asked: Asked): Problem {
  const last = items.at(-1) ?? asked.head;
  return {
    code: 'notation/missing-argument',
    at: { start: last.start, end: last.end },
    message: `«${asked.head.image}» still needs ${wanted(argument)}. For example: ${asked.example}`,
    fixes: [],
  };
}

function wrong(argument: Argument, items: readonly Item[], index: number, asked: Asked): Problem {
  const item = items[index] as Item;
  const numeric = ['number', 'quantity', 'measured'].includes(argument.take);
  if (numeric && item.kind === 'point') return decimalComma(item).problem;
  if (argument.take === 'segment' && item.kind === 'point' && isComma(items[index + 1])) return strayComma(items[index + 1] as Item);
  if (item.kind === 'broken' && item.image.startsWith('"'))
    return {
      code: 'notation/open-text', at: item, message: 'This text has no closing quote. A text ends on the line on which it begins.',
      fixes: [insert('Close the quote', item.start + item.image.trimEnd().length, '"')],
    };
  if (argument.take === 'text' && (item.kind === 'word' || item.kind === 'number')) {
    const at = { start: item.start, end: (items.at(-1) ?? item).end };
    return { code: 'notation/unexpected', at: item, message: `Put the text in quotes. For example: ${asked.example}`, fixes: [
      { title: 'Put it in quotes', edits: [{ start: at.start, end: at.start, text: '"' }, { start: at.end, end: at.end, text: '"' }] },
    ] };
  }
  if (item.kind === 'word' && (argument.take === 'choice' || argument.take === 'foot')) {
    const known: readonly string[] = argument.take === 'choice' ? argument.of : feet;
    const near = nearest(item.image, known);
    return {
      code: 'notation/unknown-choice', at: item,
      message: `«${item.image}» is not one of ${list(known)}.${near ? ` Did you mean ${near}?` : ''}`,
      fixes: (near ? [near] : known.slice(0, 6)).map((word) => replace(`Write ${word}`, item, word)),
    };
  }
  if (argument.take === 'date' && (item.kind === 'number' || item.kind === 'broken'))
    return { code: 'notation/date-form', at: item, message: `Write the date as year, month, day: 2026-03-04.`, fixes: [] };
  const fixes = argument.take === 'mark' ? [insert(`Write «${argument.text}» before it`, item.start, `${argument.text} `)] : [];
  return { code: 'notation/unexpected', at: item, message: `Here «${asked.head.image}» wants ${wanted(argument)}. For example: ${asked.example}`, fixes };
}

const isComma = (item: Item | undefined): boolean => item?.kind === 'sign' && item.image === ',';

function strayComma(at: Item): Problem {
  return {
    code: 'notation/decimal-comma', at,
    message: 'One comma too many: a point is x, y, and a fraction is written with a decimal point, as in 1382.5, 1201.', fixes: [],
  };
}

function leftover(form: Form, args: ReadonlyMap<string, unknown>, items: readonly Item[], index: number, asked: Asked): Problem {
  const item = items[index] as Item;
  const before = items[index - 1];
  if (isComma(item) && (before?.kind === 'point' || before?.kind === 'segment')) return strayComma(item);
  if (item.kind === 'broken' && item.image.startsWith('"')) return wrong({ take: 'text', name: 'text' }, items, index, asked);
  const untaken = form.find((argument) => argument.take === 'choice' && argument.optional && !args.has(argument.name));
  if (untaken && item.kind === 'word') return wrong(untaken, items, index, asked);
  const optional = form.filter((argument) => argument.optional);
  const may = optional.length > 0 ? ` After it may come only ${optional.map(writeArgument).join(' ')}.` : '';
  return {
    code: 'notation/unexpected', at: { start: item.start, end: (items.at(-1) ?? item).end },
    message: `«${asked.head.image}» is complete before this.${may} For a remark put # before it.`,
    fixes: [insert('Make it a remark', item.start, '# ')],
  };
}
