import { t } from '../../../shared/language/words.ts';
import { judgeOn } from '../../../shared/findings/limits/cut-limits.ts';
import { sayBroken, sayNoLowest, sayTurns } from '../../../shared/findings/wording/say-cut.ts';
import { sayTrims } from '../../../shared/findings/wording/say-trims.ts';
import { sentence } from '../../../shared/findings/wording/wording.ts';
import { isNothing } from '../../../shared/trim/stand.ts';
import type { StudiedCut, Study } from '../../../shared/trim/study.ts';
import { plain } from './markdown.ts';

/** What a plan does, and how surely it keeps its limits; empty where nothing is cut or nothing can be predicted. */
export function describeCut({ cut, foot, film, size, prediction, earlier }: StudiedCut, study: Study): string {
  if (!foot || !prediction || isNothing(size)) return '';
  const judge = judgeOn(foot, cut.foot, study, film?.day ?? null);
  const broken = sayBroken(judge.of(size)?.margins ?? [], foot.frame);
  const chance = judge.chance(size);
  const turn = sayTurns(prediction);
  return plain(
    [
      turn === '' ? '' : `${sentence(turn)}.`,
      prediction.onToe
        ? t('Limits are judged on the worse of the two; after it nothing is foretold until the next film.')
        : '',
      earlier.length === 0 ? '' : t('It is laid on the foot with {0} taken off it.', sayTrims(earlier)),
      broken.length > 0
        ? t('Breaks a limit: {0}.', broken.join('; '))
        : chance === null
          ? ''
          : t('Every limit is kept, in {0} of 100 placings.', Math.round(100 * chance)),
      broken.length === 0 && chance !== null ? sayNoLowest(judge.figures) : '',
    ]
      .filter((part) => part !== '')
      .join(' '),
  );
}
