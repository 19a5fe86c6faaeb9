import { t } from '../../language/words.ts';
import { newestState } from '../../course/care.ts';
import { SURELY } from '../../course/change.ts';
import { tapesOfFoot } from '../../course/taped-series.ts';
import { feet } from '../../notation/choices.ts';
import { animalOn } from '../../trim/case-animal.ts';
import { isGraver, oneLower, usualLines } from '../limits/limits.ts';
import type { Rule } from '../rule.ts';
import { footWords, sayLimit, sayPlusMinus } from '../wording/wording.ts';

/** Obel: lame at the walk. */
const lame = 2;

export const thinByUltrasound: Rule = {
  code: 'tape/thin-sole',
  severity: 'warning',
  title: 'Thin sole by ultrasound',
  about:
    'The newest sole by ultrasound of each foot is held against the published lines for the sole under the tip on a film, as both measure the same layer: an information under 12 mm, a warning under 7, an error under 7 with Obel 2 or more or where no grade is written. A value beyond its line by less than 1.96 of its own standard deviation is told one level lower, under 12 mm not at all. Ultrasound and film are sources of their own: nothing is compared from one to the other, and the limits that a case sets on its films hold for its films.',
  *onCase(study) {
    const { grade } = newestState(study);
    const isLame = grade !== null && grade.value >= lame;
    for (const foot of feet) {
      const taken = tapesOfFoot(foot, study.record.visits).flatMap(({ visit, day, values }) =>
        values.flatMap((value) => (value.measure.name === 'sole-ultrasound' ? [{ visit, day, ...value }] : [])),
      );
      const last = taken.at(-1);
      const [newest] = taken.filter(({ day }) => day === last?.day).toSorted((a, b) => a.value - b.value);
      if (!newest) continue;
      const { value, sd, at, visit, day, measure } = newest;
      const ground = { animal: animalOn(study.animal, day), reference: [] };
      const passed = usualLines('sole-depth.tip', foot, ground)
        .lines.filter((line) => line.side === 'low' && value < line.at)
        .map((line) => {
          const grave = line.severity === 'warning' && (grade === null || isLame) ? 'error' : line.severity;
          return { line, severity: value + SURELY * sd < line.at ? grave : oneLower(grave) };
        });
      const [first, ...others] = passed;
      if (!first) continue;
      const told = others.reduce((worst, one) => (isGraver(one.severity, worst.severity) ? one : worst), first);
      // A hair under the upper line is no news: sound horses have less.
      if (told.severity === 'hint') continue;
      const under = Math.min(...passed.map(({ line }) => line.at));
      const protect = passed.some(({ line }) => line.severity === 'warning');
      yield {
        start: visit.start,
        at,
        severity: told.severity,
        message: [
          t(
            'Sole by ultrasound, {0}: {1}, under {2}, the line of the same layer on a film.',
            footWords[foot],
            sayPlusMinus({ value, sd, unit: measure.unit }),
            sayLimit(under, 'mm'),
          ),
          ...(protect ? [t('Protect the foot, and take none of the sole.')] : []),
          ...(protect && grade !== null && isLame ? [t('The animal is lame ({0}).', grade.said)] : []),
          ...(protect && grade === null
            ? [t('No grade of lameness is known for this animal: write its Obel grade (obel 0 where it is sound).')]
            : []),
        ].join(' '),
        value,
        limit: under,
        source: told.line.source,
      };
    }
  },
};
