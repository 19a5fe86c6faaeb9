import { linesFor, passed } from '../limits/limits.ts';
import type { Rule } from '../rule.ts';
import { say, sayPlusMinus } from '../wording/wording.ts';
import { filmOf } from './trim-film.ts';

const practice = ' To spare its height is common practice, without a source.';

export const toeShortened: Rule = {
  code: 'trim/toe-shortened',
  severity: 'warning',
  title: 'Toe lowered while a wedge grows out',
  about:
    'Where bone and wall have parted, the toe carries little and hides a wedge of lamellar horn. Lowering it from below thins the sole in front of the bone; bringing it back from in front does not. Schools differ on how soon to realign.',
  *onCut(studied, study) {
    const { cut, reading, film } = studied;
    const done = cut.kind === 'trim';
    const rotation = reading?.taking.values.get('capsular-rotation');
    if (!cut.toeDown || cut.toeDown.base <= 0 || !rotation) return;
    const line = passed(rotation.value, linesFor('capsular-rotation', cut.foot, study, film?.day).lines);
    if (!line) return;
    yield {
      at: cut.toeDown.at,
      message: done
        ? `${say(cut.toeDown.base, 'mm')} of the toe's height were taken while bone and wall part by ${sayPlusMinus(rotation)}. Protect the sole under the tip.${practice}`
        : `The toe is lowered while bone and wall part by ${sayPlusMinus(rotation)}. Leave the toe's height alone until the new wall is down; bring it back from in front if need be.${practice}`,
      measure: 'capsular-rotation',
      value: rotation.value,
      limit: line.at,
      source: line.source,
      related: filmOf(studied),
      fixes: done ? [] : [{ title: 'Leave the toe’s height alone', edits: [{ ...cut.toeDown.at, text: '0 mm' }] }],
    };
  },
};
