import { counted } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { sayTrims } from '../wording/say-trims.ts';
import { sentence } from '../wording/wording.ts';

export const trimUnmeasured: Rule = {
  code: 'trim/unmeasured',
  severity: 'info',
  title: 'An earlier trim without millimetres',
  about:
    'A cut is laid on the foot as it stands: the newest film before it, and what each trim since has taken. A trim that gives no millimetres cannot be counted, so the foot stands otherwise than is reckoned.',
  *onCut({ cut, unmeasured, foot }) {
    if (!foot || unmeasured.length === 0) return;
    yield {
      at: cut.head,
      message: counted(
        unmeasured.length,
        '{1} gives no millimetres, and counts as nothing here: the foot stands otherwise than is reckoned. Write what was taken, or take a new film.',
        '{1} give no millimetres, and count as nothing here: the foot stands otherwise than is reckoned. Write what was taken, or take a new film.',
        sentence(sayTrims(unmeasured)),
      ),
    };
  },
};
