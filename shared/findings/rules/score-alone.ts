import { t } from '../../language/words.ts';
import { clearScore, loneScore } from '../../course/care.ts';
import type { Rule } from '../rule.ts';

export const scoreAlone: Rule = {
  code: 'visit/score-alone',
  severity: 'info',
  title: 'Lameness by a score alone',
  about: `The modified Obel score (Meier 2019) adds up five criteria and is no Obel grade, and none is made of it here. Alarms go by the Obel grade or by lameness over ground, so that an animal with a score alone raises none, however lame it is. Until a grade is written at that visit or after it, the animal does not count as sound: no plan is written down without a \`vet\` line. From ${clearScore} of 12 on, a third of the score, it is told as a warning; that line is a judgement of ours. A grade at the same visit that says sound, or hardly lame, does not answer such a score: Obel 0 from ${clearScore} on, Obel 1 from ${2 * clearScore} on. Both cannot be right, and the graver counts.`,
  *onCase({ record: { visits } }) {
    const alone = loneScore(visits);
    if (!alone) return;
    const { visit, score, against } = alone;
    const clear = score.value >= clearScore;
    yield {
      start: visit.start,
      at: score.at,
      severity: clear ? 'warning' : 'info',
      message: against
        ? t(
            'A modified Obel score of {0} and {1} at one visit do not agree. Keep the one that is right; until then the graver counts, by which this animal is lame: tell the vet.',
            score.value,
            against.said,
          )
        : t(
            'A modified Obel score of {0} is no Obel grade, and alarms go by the grade. Write it too: obel and 0, 1, 2, 3 or 4.{1}',
            score.value,
            clear
              ? t(
                  ' From {0} of 12 on this animal counts as clearly lame (a judgement of ours): tell the vet.',
                  clearScore,
                )
              : '',
          ),
      value: score.value,
      limit: 1,
      source: t('common practice, no source'),
    };
  },
};
