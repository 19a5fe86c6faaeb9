import { t } from '../../language/words.ts';
import { onPlane } from '../../geometry/planes.ts';
import { limitsByMeasure } from '../limits/limits-by-measure.ts';
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
    for (const { measure, first } of limitsByMeasure(study.record.limits).values()) {
      if (measure.view !== film.view || readings.some(({ taking }) => taking.values.has(measure.name))) continue;
      // Of a plane that is not placed another rule speaks, for all measures at once.
      if (reading.taking.frame && !onPlane(reading.taking.frame, measure.plane)) continue;
      const { start, is } = first;
      yield {
        at: film.head,
        measure: measure.name,
        message: t(
          'The limit for {0} ({1}) cannot be checked on this film. {2}',
          wordsFor(measure, film.foot),
          measure.name,
          whatLacks(measure, reading),
        ),
        related: [{ at: { start: start + is.at.start, end: start + is.at.end }, message: t('The limit of the case.') }],
      };
    }
  },
};
