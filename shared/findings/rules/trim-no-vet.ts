import { t } from '../../language/words.ts';
import { gradeIn } from '../../course/care.ts';
import { hasVetWords } from '../../course/vet-agrees.ts';
import type { Rule } from '../rule.ts';

/** Obel: 3 is reluctant to walk, 4 moves only if forced (Obel 1948). */
const grave = 3;

export const trimWithoutVet: Rule = {
  code: 'trim/no-vet',
  severity: 'warning',
  title: 'Grave lameness without the vet',
  about:
    'An animal that will hardly walk is in pain and perhaps in danger. What is trimmed then is agreed with the vet, and the agreement is written down.',
  never: 'Call the vet, and write down under `vet` what was agreed.',
  *onVisit({ visit: { is: visit } }) {
    const [cut] = visit.cuts;
    const grade = gradeIn(visit);
    if (!cut || !grade || grade.value < grave || hasVetWords(visit) || visit.seen.length > 0) return;
    yield {
      at: cut.head,
      message: t(
        'The lameness is {0} and no vet line says what the vet {1}, and write it down: vet "…"',
        grade.said,
        cut.kind === 'trim'
          ? t('agreed to. Tell the vet what was cut')
          : t('agrees to. Call the vet before anything is cut'),
      ),
      value: grade.value,
      limit: grave,
      source: t('common practice, no source'),
      fixes: [
        {
          title: t('Add a vet line'),
          edits: [{ start: grade.at.end, end: grade.at.end, text: 'vet        ""', newLine: 'below' }],
        },
      ],
      related: [],
    };
  },
};
