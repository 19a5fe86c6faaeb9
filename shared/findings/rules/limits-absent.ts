import { findMeasure } from '../../measures/registry.ts';
import { fits } from '../limits/fitting-units.ts';
import type { Rule } from '../rule.ts';
import { wordsFor } from '../wording/wording.ts';
import { whatLacks } from '../wording/what-lacks.ts';

export const limitAbsent: Rule = {
  code: 'limits/absent',
  severity: 'hint',
  title: 'Limit that this film cannot be held to',
  about:
    'The case has a limit for a measure that this film does not give, because a landmark or the scale is missing. As long as it is, nobody sees whether the limit is kept.',
  *onReading({ film, readings }, reading, study) {
    // What a film lacks is said once, and not where it lacks everything: another rule says so already.
    if (film.kind !== 'film' || reading !== readings.find(({ taking }) => taking.frame)) return;
    const told = new Set<string>();
    for (const { start, is } of study.record.limits) {
      const measure = findMeasure(is.measure);
      if (!measure || measure.view !== film.view || !fits(measure, is.quantity) || told.has(measure.name)) continue;
      if (readings.some(({ taking }) => taking.values.has(measure.name))) continue;
      told.add(measure.name);
      yield {
        at: film.head,
        measure: measure.name,
        message: `The limit for ${wordsFor(measure, film.foot)} (${measure.name}) cannot be checked on this film. ${whatLacks(measure, reading)}`,
        related: [{ at: { start: start + is.at.start, end: start + is.at.end }, message: 'The limit of the case.' }],
      };
    }
  },
};
