import { t } from '../../language/words.ts';
import { SURELY } from '../../course/change.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { Rule } from '../rule.ts';
import { counts } from '../limits/fitting-units.ts';
import { say, sayPlusMinus } from '../wording/wording.ts';
import { whatLacks } from '../wording/what-lacks.ts';

export const expectDiffers: Rule = {
  code: 'expect/differs',
  severity: 'warning',
  title: 'Computed value differs from the stated one',
  about:
    'A stated value, from a teacher or a paper, differs from what the placed landmarks give by more than its tolerance (without one: by more than 1.96 standard deviations).',
  *onReading({ film }, { reading, taking }) {
    for (const expectation of film.expects) {
      const measure = findMeasure(expectation.measure);
      const value = measure && taking.values.get(measure.name);
      if (!measure || !value || !counts(measure, expectation.quantity)) continue;
      const off = value.value - expectation.quantity.base;
      const tolerance = expectation.tolerance?.base ?? SURELY * value.sd;
      if (Math.abs(off) <= tolerance) continue;
      const reader = reading.reader === null ? '' : t(' for reader {0}', reading.reader);
      yield {
        at: expectation.at,
        measure: measure.name,
        value: value.value,
        limit: expectation.quantity.base,
        message: t(
          'Stated: {0}, computed{1}: {2}. They differ by {3}; allowed are {4}.',
          say(expectation.quantity.base, value.unit),
          reader,
          sayPlusMinus(value),
          say(Math.abs(off), value.unit),
          say(tolerance, value.unit),
        ),
      };
    }
  },
};

export const expectAbsent: Rule = {
  code: 'expect/absent',
  severity: 'warning',
  title: 'Stated value that cannot be checked',
  about: 'A value is stated for a measure whose landmarks are not all placed.',
  *onReading({ film }, reading) {
    for (const expectation of film.expects) {
      const measure = findMeasure(expectation.measure);
      if (!measure || reading.taking.values.has(measure.name)) continue;
      const lack = whatLacks(measure, reading);
      yield {
        at: expectation.at,
        measure: measure.name,
        message: t('{0} cannot be computed here. {1}', measure.words, lack),
      };
    }
  },
};
