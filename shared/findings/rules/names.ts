import { t } from '../../language/words.ts';
import { outside, sayRange } from '../../notation/in-range.ts';
import { nearestMeaning } from '../../notation/meanings.ts';
import { plainNumber } from '../../notation/plain-number.ts';
import type { Fix } from '../../notation/problems.ts';
import { meant, worthOfNumber, worthOfQuantity, type WrittenNumber } from '../../notation/slips.ts';
import type { Span } from '../../notation/tree.ts';
import { unitsOf } from '../../notation/units.ts';
import { findMeasure, measureNames, measures } from '../../measures/registry.ts';
import { findHandMeasure, handMeasures } from '../../measures/by-hand.ts';
import type { Remark, Rule } from '../rule.ts';
import { fits, unitsFor } from '../limits/fitting-units.ts';
import { list, sentence } from '../wording/wording.ts';
import type { Quantity } from '../../record/schema.ts';

interface NamedMeasure {
  readonly measure: string;
  readonly measureAt: Span;
  readonly quantity: Quantity;
}

/** Measures named in limits, tape and expect: known ones, in a unit of theirs. */
export const unknownMeasure: Rule = {
  code: 'measure/unknown',
  severity: 'error',
  title: 'Unknown measure',
  about: 'Limits, tape lines and stated values name a measure. A name that is not known is not checked at all.',
  never: 'Write the name of a measure: what is not known is not checked.',
  *onVisit({ visit }) {
    for (const { values } of visit.is.tapes)
      for (const named of values) if (!findHandMeasure(named.measure)) yield* unknown(named, handNames);
    for (const { expects } of visit.is.films) for (const named of expects) yield* unknown(named);
  },
  *onCase(study) {
    for (const { start, is } of study.record.limits) for (const remark of unknown(is)) yield { ...remark, start };
  },
};

export const measureUnit: Rule = {
  code: 'measure/unit',
  severity: 'error',
  title: 'Unit that does not fit the measure',
  about: 'Angles are in degrees, lengths in millimetres, centimetres or inches, shares in per cent.',
  never: 'Write a unit that fits the measure: as it stands the line counts for nothing.',
  *onVisit({ visit }) {
    for (const named of namedIn(visit.is)) {
      yield* wrongUnit(named);
      yield* outOfRange(named);
    }
  },
  *onCase(study) {
    for (const { start, is } of study.record.limits) for (const remark of wrongUnit(is)) yield { ...remark, start };
  },
};

export const notByHand: Rule = {
  code: 'measure/not-by-hand',
  severity: 'warning',
  title: 'Measure that no hand can take',
  about: `Under \`tape\` stand the measures that are taken on the hoof itself: ${list(
    measures.filter((one) => one.byHand).map((one) => one.name),
  )}. What lies inside shows only on a film.`,
  *onVisit({ visit }) {
    for (const tape of visit.is.tapes)
      for (const { measure, measureAt } of tape.values) {
        const known = findMeasure(measure);
        if (known && !known.byHand)
          yield {
            at: measureAt,
            message: t('{0} is measured on a film, not by hand.', sentence(article(known.words))),
          };
      }
  },
};

/** `a palmar angle`; a mass noun such as `heel beyond the sole plane` takes none. */
const article = (words: string): string =>
  /\b(?:angle|length|distance|depth|height|width|ratio|rotation|deviation|share)$/.test(words)
    ? `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`
    : words;

function* namedIn(visit: {
  tapes: readonly { values: readonly NamedMeasure[] }[];
  films: readonly { expects: readonly NamedMeasure[] }[];
}): Iterable<NamedMeasure> {
  for (const tape of visit.tapes) yield* tape.values;
  for (const film of visit.films) yield* film.expects;
}

const handNames = handMeasures.map(({ name }) => name);

function* unknown({ measure, measureAt }: NamedMeasure, besides: readonly string[] = []): Iterable<Remark> {
  if (findMeasure(measure)) return;
  const byHand = findHandMeasure(measure);
  if (byHand) {
    yield {
      at: measureAt,
      message: t(
        '«{0}» is taken on the hoof by hand and stands under tape; no picture gives it, and no limit holds for it.',
        measure,
      ),
    };
    return;
  }
  const near = nearestMeaning(measure, [...measureNames(), ...besides]);
  const fixes: Fix[] = near ? [{ title: t('Write «{0}»', near), edits: [{ ...measureAt, text: near }] }] : [];
  yield {
    at: measureAt,
    fixes,
    message: t(
      'There is no measure «{0}».{1}',
      measure,
      near ? t(' Did you mean «{0}»?', near) : t(' Type the first letters and pick one from the list.'),
    ),
  };
}

/** A number that is written, in a unit of its measure, and that no hoof has. */
function* outOfRange({ measure, quantity }: NamedMeasure): Iterable<Remark> {
  const known = findMeasure(measure);
  if (!known?.byHand || !fits(known, quantity)) return;
  const { words, byHand, unit } = known;
  const { at, value, unit: written, base } = quantity;
  const side = outside(base, byHand);
  if (side === null) return;
  const dimension = dimensions[unit];
  const as = (one: WrittenNumber): string =>
    one.unit === null || one.unit === '1' ? one.image : `${one.image} ${one.unit}`;
  const now = { image: plainNumber(value), unit: dimension === null ? null : written };
  const other = meant(
    now,
    dimension === null ? worthOfNumber(byHand) : worthOfQuantity(byHand, dimension),
    dimension === null ? [] : unitsOf(dimension).map(({ word }) => word),
  );
  yield {
    at,
    code: 'notation/number-range',
    message: t(
      '{0} goes from {1}; {2} is {3}.{4}',
      sentence(words),
      sayRange(byHand),
      as(now),
      side === 'below' ? t('less') : t('more'),
      other ? t(' Did you mean {0}?', as(other)) : '',
    ),
    fixes: other ? [{ title: t('Write {0}', as(other)), edits: [{ ...at, text: as(other) }] }] : [],
  };
}

const dimensions = { deg: 'angle', mm: 'length', '%': 'share', '1': null } as const;

function* wrongUnit({ measure, quantity }: NamedMeasure): Iterable<Remark> {
  const known = findMeasure(measure) ?? findHandMeasure(measure);
  if (!known || fits(known, quantity)) return;
  const { at } = quantity;
  const value = plainNumber(quantity.value);
  const fitting = unitsFor(known);
  if (fitting.length === 0) {
    yield {
      at,
      message: t('{0} is a plain number, without a unit.', sentence(known.words)),
      fixes: [{ title: t('Write {0}', value), edits: [{ ...at, text: value }] }],
    };
    return;
  }
  const fixes = fitting.map((unit) => ({
    title: t('Write {0} {1}', value, unit),
    edits: [{ ...at, text: `${value} ${unit}` }],
  }));
  if (quantity.unit === '1')
    yield {
      at,
      code: 'notation/missing-unit',
      fixes,
      message: t(
        'The number {0} has no unit. Write {1}.',
        value,
        list(
          fitting.map((unit) => `${value} ${unit}`),
          'or',
        ),
      ),
    };
  else
    yield {
      at,
      fixes,
      message: t('{0} is given in {1}, not in {2}.', sentence(known.words), list(fitting, 'or'), quantity.unit),
    };
}
