import { t } from '../../language/words.ts';
import { cutRule, type BrokenCut } from '../limits/cut-rule.ts';
import { linesFor, type LimitLine } from '../limits/limits.ts';
import type { MeasureName } from '../../measures/names.ts';
import type { Value } from '../../measures/take.ts';
import { surelyBeyond } from '../../trim/cut-limits.ts';
import { offToe, seenAfter } from '../../trim/stand.ts';
import type { StudiedCut } from '../../trim/study.ts';
import type { RuleContext } from '../rule.ts';
import { say, sayLimit, sayPlusMinus } from '../wording/wording.ts';
import { cutPlace, filmOf } from './trim-film.ts';

const practice = (): string => t(' To spare its height is common practice, without a source.');

export const toeShortened = cutRule({
  code: 'trim/toe-shortened',
  severity: 'warning',
  title: 'Toe lowered while a wedge grows out',
  about:
    'Where bone and wall have parted, the toe carries little and hides a wedge of lamellar horn. Lowering it from below thins the sole in front of the bone; bringing it back from in front does not. So the toe keeps its height until the rotation is surely under its line and the sole under the tip surely over 12 mm. Schools differ on how soon to realign.',
  *say(studied, outcome, study, done) {
    const { cut } = studied;
    if (!studied.foot) return;
    const lowered = offToe(seenAfter(studied.foot, outcome.size));
    const rotation = lineOf('capsular-rotation', 'high', studied, outcome, study);
    const sole = lineOf('sole-depth.tip', 'low', studied, outcome, study);
    const isParted = rotation !== null && !surelyBeyond(rotation.value, rotation.line.at, 'under');
    const why = isParted ? rotation : sole;
    if (!why) return;
    // What was taken is taken: only a wedge that is there is worth telling.
    if (done && !(isParted && rotation.value.value > rotation.line.at)) return;
    yield {
      at: cutPlace(studied, 'toe'),
      message: done
        ? t(
            "{0} of the toe's height were taken while bone and wall part by {1}. Protect the sole under the tip.{2}",
            say(lowered, 'mm'),
            sayPlusMinus(why.value),
            practice(),
          )
        : isParted
          ? t(
              "The toe is lowered while bone and wall part by {0}{1}. Leave the toe's height alone until the new wall is down; bring it back from in front if need be.{2}",
              sayPlusMinus(why.value),
              why.value.value > why.line.at ? '' : t(', not surely less than {0}', sayLimit(why.line.at, 'deg')),
              practice(),
            )
          : t(
              "The toe is lowered while the sole under the tip is {0}, not surely over {1}. Leave the toe's height alone; bring it back from in front if need be.{2}",
              sayPlusMinus(why.value),
              sayLimit(why.line.at, 'mm'),
              practice(),
            ),
      measure: why.value.measure.name,
      value: why.value.value,
      limit: why.line.at,
      source: why.line.source,
      related: filmOf(studied),
      fixes:
        done || !cut.toeDown
          ? []
          : [{ title: t('Leave the toe’s height alone'), edits: [{ ...cut.toeDown.at, text: '0 mm' }] }],
    };
  },
});

/** A value of the foot before the cut with the innermost line on one side; null where either is missing. */
function lineOf(
  name: MeasureName,
  side: 'low' | 'high',
  { cut, film }: StudiedCut,
  { before }: BrokenCut,
  study: RuleContext,
): { value: Value; line: LimitLine } | null {
  const value = before.get(name);
  const lines = linesFor(name, cut.foot, study, film?.day ?? null).lines.filter((one) => one.side === side);
  const [line] = lines.toSorted((a, b) => (side === 'low' ? b.at - a.at : a.at - b.at));
  return value && line ? { value, line } : null;
}
