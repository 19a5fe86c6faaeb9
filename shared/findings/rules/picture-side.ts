import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { footWords } from '../wording/wording.ts';

export const pictureSide: Rule = {
  code: 'picture/side',
  severity: 'warning',
  title: 'Picture of the other side',
  about:
    'A DICOM file may say which side the limb is of. Where it says the other side than the film, one of the two is wrong: the file as the machine was set, or the film as it was written. Left and right exchanged would put the films of two feet into one course.',
  *onVisit({ films }) {
    for (const { film, stored } of films) {
      const side = film.foot.startsWith('L') ? 'left' : 'right';
      if (!stored?.side || stored.side === side) continue;
      yield {
        at: film.path.at,
        message: t(
          'The file of this picture says that the limb is a {0} one, and the film that it is the {1}. One of the two is wrong: look at the marker letter on the picture.',
          stored.side,
          footWords[film.foot],
        ),
      };
    }
  },
};
