import { fixed } from '../../language/figures.ts';
import { t } from '../../language/words.ts';
import type { CutJudge, Margin } from '../../trim/cut-limits.ts';
import { offSideAlone } from '../../trim/heels.ts';
import type { Goal, NoPlan } from '../../trim/plan.ts';
import { heelWords, sayStops } from './say-cut.ts';
import { list, say, sayLimit, sentence, toBearing } from './wording.ts';

/** Why nothing comes off, in the foot. */
export function sayNone(
  made: NoPlan,
  { goal, toeBack = 0 }: { readonly goal: Goal; readonly toeBack?: number },
  judge: CutJudge,
  foot: string,
): string {
  switch (made.kind) {
    case 'there':
      return goal.kind === 'palmar-angle'
        ? t(
            '{0} is {1} or less already.',
            sentence(toBearing(theAngle(foot), judge.foot.frame)),
            sayLimit(goal.angle, 'deg'),
          )
        : atLiveSole(judge);
    case 'out of reach':
      return t('No cut of the heel brings {0} there. Ask for as much as one visit may take.', theAngle(foot));
    case 'no more':
      return t('On two planes no more comes off the heel than on one: {0}.', sayLimit(made.onOne, 'mm'));
    case 'nothing':
      return sayNothing(made.stoppedBy, judge, { toeBack, foot });
  }
}

const theAngle = (foot: string): string => (foot.endsWith('H') ? t('the plantar angle') : t('the palmar angle'));

/** Of a foot that has lost more on one side since its film, which heel it is. */
function atLiveSole({ foot: { earlier } }: CutJudge): string {
  const [inside, outside] = [offSideAlone(earlier, 'inside'), offSideAlone(earlier, 'outside')];
  if (inside === outside) return t('The heel is at the live sole plane already, within half a millimetre.');
  return t(
    '{0} is at the live sole plane already, within half a millimetre: {1} came off its side since the film.',
    sentence(inside > outside ? heelWords.inside : heelWords.outside),
    say(Math.max(inside, outside), 'mm'),
  );
}

function sayNothing(
  stoppedBy: readonly Margin[],
  judge: CutJudge,
  { toeBack, foot }: { readonly toeBack: number; readonly foot: string },
): string {
  const [first] = stoppedBy;
  if (!first) return t('Nothing can come off the heel.');
  const uncut = judge
    .of({ heelDown: 0, toeDown: 0, toeBack: 0 })
    ?.margins.find(({ code, place }) => code === first.code && place === first.place);
  const stands = uncut?.value ?? first.value;
  const nothing =
    first.code === 'trim/wall-left'
      ? t('The toe cannot come back by {0}', sayLimit(toeBack, 'mm'))
      : t('Nothing can come off the heel');
  const why = ((): string => {
    switch (first.code) {
      case 'trim/live-sole':
      case 'trim/sole-depth': {
        const where =
          first.place === 'heel'
            ? t('beside the heel')
            : first.place === 'wing'
              ? t('under the wing')
              : t('under the tip');
        if (stands < -0.05) return t('the sole {0} already stands {1} below the wall', where, say(-stands, 'mm'));
        if (stands < 0.05) return t('the sole {0} stands on the ground already', where);
        return t('the sole {0} stands only {1} above the ground', where, say(stands, 'mm'));
      }
      case 'trim/below-sole-plane':
        if (first.value + 0.5 < 0.05) return t('the heel stands level with the live sole beside it');
        return t('the heel stands only {0} above the live sole beside it', say(Math.max(0, first.value + 0.5), 'mm'));
      case 'trim/palmar-angle': {
        const at = judge.figures.palmarAngle ?? 0;
        return t(
          '{0} is {1}, and {2} is the least',
          toBearing(theAngle(foot), judge.foot.frame),
          say(at + stands, 'deg'),
          sayLimit(at, 'deg'),
        );
      }
      case 'trim/wall-left':
        return t(
          'only {0} of horn would be left outside the lamellae, and {1} stay',
          say(Math.max(0, first.value + judge.figures.horn), 'mm'),
          sayLimit(judge.figures.horn, 'mm'),
        );
      default:
        return list(sayStops([first], judge.figures, judge.foot.frame));
    }
  })();
  const sure = stoppedBy.every(({ value }) => value >= 0)
    ? t(', and the placing is sure to ± {0} only', fixed(first.sd, 1))
    : '';
  return `${nothing}: ${why}${sure}.`;
}
