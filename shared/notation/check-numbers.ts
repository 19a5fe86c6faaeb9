import { inLanguage, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { decimalComma } from './check-items.ts';
import { decimal } from './decimal.ts';
import { inBase, inUnit, isOut, measuredKind, outside, sayRange } from './in-range.ts';
import { fail, insert, list, quoted, remove, replace, type ExpectedForm, type Mismatch } from './mismatch.ts';
import { nearestMeaning } from './meanings.ts';
import { checkLength } from './number-length.ts';
import { stepWords } from './range-words.ts';
import { fittingUnits, hundredTimes, meant, worthOfNumber, worthOfQuantity, type Worth } from './slips.ts';
import { findUnit, isUnit, toBase, unitsOf } from './units.ts';
import type { Argument, Dimension, MeasuredRanges, Range } from './signature.ts';
import type { Item, ItemOf, Leaf, Span } from './tree.ts';

/** Numbers of every kind looked at closely: their length, their unit, their range. Throws a Mismatch where one does not do. */

function missingUnit(item: ItemOf<'number'>, units: readonly string[]): Mismatch {
  const written = item.number.image;
  return fail(
    'notation/missing-unit',
    item,
    t('The number {0} has no unit. Write {1}.', written, list(units.map((unit) => `${written} ${unit}`))),
    units.map((unit) => insert(t('Write {0} {1}', written, unit), item.number.end, ` ${unit}`)),
  );
}

/** A unit of something else is no slip for one of these: with another it would be another thing, so that nothing is offered. */
function wrongUnit(item: ItemOf<'number'>, unit: Leaf, units: readonly string[]): Mismatch {
  const written = item.number.image;
  if (isUnit(unit.image))
    return fail('notation/wrong-unit', unit, t('{0} It takes {1}.', unitProblem(unit), list(units)));
  return fail(
    'notation/wrong-unit',
    unit,
    t('{0} Write {1}.', unitProblem(unit), list(units.map((word) => `${written} ${word}`))),
    units.map((word) => replace(t('Write {0} {1}', written, word), unit, word)),
  );
}

const unitProblem = ({ image }: Leaf): string =>
  isUnit(image) ? t('The unit {0} does not fit here.', image) : t('There is no unit «{0}».', quoted(image));

export function checkQuantity(
  item: ItemOf<'number'>,
  { dimension, range }: Extract<Argument, { take: 'quantity' }>,
  asked: ExpectedForm,
): void {
  const { number, unit } = item;
  checkLength(number);
  if (!unit) throw missingUnit(item, fittingUnits(number.image, range, dimension));
  if (!findUnit(unit.image, dimension))
    throw metres(item, unit, dimension, range) ?? otherUnit(item, unit, dimension, range);
  checkHands(item, unit);
  checkBounds(item, range, dimension, `«${asked.head.image}»`);
}

function otherUnit(item: ItemOf<'number'>, unit: Leaf, dimension: Dimension, range: Range): Mismatch {
  return wrongUnit(item, unit, fittingUnits(item.number.image, range, dimension));
}

/** Animals are measured in metres too, which the notation does not have. */
function metres(item: ItemOf<'number'>, unit: Leaf, dimension: Dimension, range: Range): Mismatch | null {
  const image = hundredTimes(item.number.image);
  if (unit.image !== 'm' || worthOfQuantity(range, dimension)({ image, unit: 'cm' }) === null) return null;
  const written = `${image} cm`;
  return fail('notation/wrong-unit', unit, t('{0} Write {1}.', unitProblem(unit), written), [
    replace(t('Write {0}', written), { start: item.number.start, end: unit.end }, written),
  ]);
}

function checkHands(item: ItemOf<'number'>, unit: Leaf): void {
  const known = findUnit(unit.image, 'stature');
  const hands = known?.word === 'hh' ? known : undefined;
  if (hands && item.number.fraction !== undefined)
    throw fail(
      'notation/unexpected',
      item.number,
      t('Hands are written with the inches behind a point: 14.2 hh is 14 hands and 2 inches.'),
    );
  if (hands && toBase(item.number.image, hands) === undefined)
    throw fail(
      'notation/number-range',
      item.number,
      t('After the point, hands count inches from 0 to 3: 14.2 hh is 14 hands and 2 inches.'),
    );
}

/** A quantity whose unit is one of its dimension. */
function checkBounds(item: ItemOf<'number'>, range: Range, dimension: Dimension, subject: string): void {
  const unit = item.unit && findUnit(item.unit.image, dimension);
  const base = unit && toBase(item.number.image, unit);
  if (!unit || typeof base !== 'number') return;
  const bounds = inBase(range, dimension);
  if (!isOut(item.number.image, base, bounds)) return;
  throw outOfRange(item, {
    subject,
    range: inUnit(range, dimension, unit),
    side: outside(base, bounds),
    worth: worthOfQuantity(range, dimension),
    units: unitsOf(dimension).map(({ word }) => word),
  });
}

/** A plain number, whatever stands behind it. */
function checkPlain(item: ItemOf<'number'>, range: Range, subject: string): void {
  const { number } = item;
  const value = decimal(number.image);
  if (isOut(number.image, value, range))
    throw outOfRange(
      { number, unit: null },
      { subject, range, side: outside(value, range), worth: worthOfNumber(range), units: [] },
    );
}

interface OutOfRange {
  readonly subject: string;
  /** In the unit that is written. */
  readonly range: Range;
  readonly side: 'below' | 'above' | null;
  readonly worth: Worth;
  readonly units: readonly string[];
}

function outOfRange(
  { number, unit }: Pick<ItemOf<'number'>, 'number' | 'unit'>,
  { subject, range, side, worth, units }: OutOfRange,
): Mismatch {
  const written = unit ? `${number.image} ${unit.image}` : number.image;
  const other = meant({ image: number.image, unit: unit?.image ?? null }, worth, units);
  const instead = other && (other.unit === null ? other.image : `${other.image} ${other.unit}`);
  const how =
    side === null ? t('leave the minus out') : t('{0} is {1}', written, side === 'below' ? t('less') : t('more'));
  const fixes =
    other === null
      ? []
      : [
          other.image === number.image && unit && other.unit !== null
            ? replace(t('Write {0}', instead), unit, other.unit)
            : replace(t('Write {0}', instead), number, other.image),
        ];
  return fail(
    'notation/number-range',
    number,
    t(
      '{0} goes from {1}; {2}.{3}',
      subject,
      sayRange(range),
      how,
      instead === null ? '' : t(' Did you mean {0}?', instead),
    ),
    fixes,
  );
}

/** Between a grade and the highest one of its scale. */
export const ofScale = 'of';

/** How many items a plain number takes: `2 of 5` is three pieces in two. */
export function takeNumber(
  argument: Extract<Argument, { take: 'number' }>,
  items: readonly Item[],
  index: number,
  asked: ExpectedForm,
): number {
  const item = items[index] as ItemOf<'number'>;
  const { number, unit } = item;
  const scale = items[index + 1];
  if (scale?.kind === 'broken' && scale.start === number.end && /^\/\d+$/.test(scale.image))
    throw ofHowMany({ start: number.start, end: scale.end }, `${number.image}${scale.image}`, argument);
  if (unit?.image !== ofScale || scale?.kind !== 'number' || argument.step === undefined) {
    checkNumber(item, argument, asked);
    return 1;
  }
  const { high } = argument.range;
  checkLength(scale.number);
  if (scale.unit || decimal(scale.number.image) !== high)
    throw fail(
      'notation/number-range',
      { start: number.start, end: scale.end },
      t(
        '«{0}» goes up to {1}, not to {2}: that is another scale. Write the grade of this one, or the word of the other.',
        asked.head.image,
        high,
        quoted(scale.number.image),
      ),
    );
  checkNumber({ ...item, unit: null, end: number.end }, argument, asked);
  return 2;
}

/** `2/5` for the second grade of five: the scale is known, and elsewhere it is a fraction. */
function ofHowMany(at: Span, written: string, { range }: Extract<Argument, { take: 'number' }>): Mismatch {
  const [, grade, high] = /^(\d+)\/(\d+)$/.exec(written) ?? [];
  const meantGrade = grade !== undefined && Number(high) === range.high ? grade : null;
  return fail(
    'notation/unexpected',
    at,
    t(
      'This is a plain number, without a fraction.{0}',
      meantGrade === null ? '' : t(' Write {0} alone: the scale is known.', meantGrade),
    ),
    meantGrade === null ? [] : [replace(t('Write {0}', meantGrade), at, meantGrade)],
  );
}

export function checkNumber(
  item: ItemOf<'number'>,
  argument: Extract<Argument, { take: 'number' }>,
  asked: ExpectedForm,
): void {
  const { number, unit } = item;
  checkLength(number);
  if (number.fraction !== undefined) throw ofHowMany(number, number.fraction, argument);
  if (unit)
    throw fail('notation/unexpected', unit, t('«{0}» takes a plain number, without a unit.', asked.head.image), [
      remove(t('Remove the unit'), unit),
    ]);
  const { range, step } = argument;
  const worth = worthOfNumber(range, step);
  if (worth({ image: number.image, unit: null }) !== null) return;
  const other = meant({ image: number.image, unit: null }, worth, []);
  throw fail(
    'notation/number-range',
    number,
    `${argument.grades ? inLanguage(argument.grades) : t('This goes from {0}{1}; {2} is not one of them.', sayRange(range), stepWords(step), number.image)}${other ? t(' Did you mean {0}?', other.image) : ''}`,
    other ? [replace(t('Write {0}', other.image), number, other.image)] : [],
  );
}

const kindWords: Readonly<Record<keyof MeasuredRanges, string>> = spoken({
  length: 'A length here',
  angle: 'An angle here',
  share: 'A share here',
  plain: 'A plain number here',
});

/** Whether a bare number will do, or one with this unit, is for the measure to say, and that is not known here. */
export function checkMeasured(item: ItemOf<'number'>, ranges: MeasuredRanges, words = kindWords): void {
  const { number, unit } = item;
  checkLength(number);
  const kind = measuredKind(unit?.image ?? null);
  if (unit && !kind) throw wrongUnit(item, unit, ['mm', 'deg', '%']);
  if (!kind || kind === 'plain') checkPlain(item, ranges.plain, words.plain);
  else checkBounds(item, ranges[kind], kind, words[kind]);
}

export function checkCoordinate(leaf: Leaf, range: Range): void {
  checkLength(leaf);
  const side = outside(decimal(leaf.image), range);
  if (side !== null)
    throw fail(
      'notation/number-range',
      leaf,
      t(
        'A coordinate goes from {0}; {1} is {2}.',
        sayRange(range),
        leaf.image,
        side === 'below' ? t('less') : t('more'),
      ),
    );
}

const toleranceWords: typeof kindWords = spoken({
  length: 'A tolerance',
  angle: 'A tolerance',
  share: 'A tolerance',
  plain: 'A tolerance',
});

export function takeSpread(
  argument: Extract<Argument, { take: 'spread' }>,
  items: readonly Item[],
  index: number,
  asked: ExpectedForm,
): number {
  const sign = items[index];
  if (sign?.kind !== 'sign' || (sign.image !== '+-' && sign.image !== '±')) return 0;
  const value = items[index + 1];
  if (!value)
    throw fail(
      'notation/missing-argument',
      sign,
      t('After {0} comes how far off it may be, for example: {1}', sign.image, asked.example),
    );
  if (value.kind === 'point') throw decimalComma(value);
  if (value.kind !== 'number') throw fail('notation/unexpected', value, t('After {0} comes a number.', sign.image));
  checkLength(value.number);
  if (argument.measured) {
    checkMeasured(value, argument.ranges, toleranceWords);
    return 2;
  }
  if (value.unit && nearestMeaning(value.unit.image, ['followed']) !== undefined)
    throw fail(
      'notation/unknown-choice',
      value.unit,
      t('Did you mean {0}? For example: {1}', 'followed', asked.example),
      [replace(t('Write {0}', 'followed'), value.unit, 'followed')],
    );
  if (value.unit && value.unit.image !== 'px') {
    throw fail(
      'notation/wrong-unit',
      value.unit,
      t('How well a point is placed is given in pixels: leave the unit out.'),
      [remove(t('Remove the unit'), value.unit)],
    );
  }
  checkPlain(value, argument.range, t('A spread'));
  return 2;
}
