import { spoken } from '../../language/rows.ts';
import { counted, t } from '../../language/words.ts';
import { bounding, concernsOf, gradeIn, type Closed, type Concern, type Grade } from '../../course/care.ts';
import type { signs } from '../../notation/vocabulary.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDate } from '../wording/say-day.ts';
import { footWords, list } from '../wording/wording.ts';

export const redFlag: Rule = {
  code: 'visit/call-the-vet',
  severity: 'error',
  title: 'For the vet at once',
  about:
    'Fever, an animal that will not rise or move, discharge, a gap above the coronet, and grave lameness are for the vet at once, before anything is trimmed. It stays told until a line `vet seen` with a date says that the vet has seen the animal; lameness also until a later visit finds it clearly better (Obel under 2). Lameness over ground counts too: 5 of 5 as Obel 3, 4 as Obel 2 (a judgement of ours). To agree to a plan, or not to answer, is no visit. What is grave in a line that is not understood, or stands outside every visit, calls all the same: a slip of the pen silences nothing.',
  never: 'Call the vet, and write down with `vet seen` when the animal was seen.',
  *onCase(study) {
    for (const concern of concernsOf(study)) yield remark(concern);
  },
};

function remark(concern: Concern): CaseRemark {
  const {
    kind,
    visit: { start, is: visit },
    closed,
    outside,
  } = concern;
  const what = `${kind === 'signs' ? signWords(visit.signs) : lamenessWords(concern)}${asRead(concern)}`;
  const first = visit.signs[0];
  const grade = gradeIn(visit);
  const at =
    kind === 'signs' && first
      ? { start: first.at.start, end: (visit.signs.at(-1) ?? first).at.end }
      : (grade?.at ?? visit.head);
  const when = outside
    ? t(' in a part of the file that is no visit')
    : visit.date === null
      ? ''
      : t(' on {0}', sayDate(visit.date));
  const heading = kind === 'signs' ? t('Signs{0}: {1}.', when, what) : t('Lame{0}: {1}.', when, what);
  const number =
    kind === 'lameness' && grade
      ? { value: grade.value, limit: 2, source: grade.scale === 'obel' ? scales.obel : scales.ground }
      : {};
  if (closed) return { start, at, severity: 'hint', message: `${heading} ${how(closed)}`, ...number };
  const now = kind === 'signs' ? t('Call the vet now: {0}', what) : t('Call the vet today: {0}', what);
  return {
    start,
    at,
    message: t(
      '{0}{1}. {2} Do not trim before. When the vet has been, write: vet seen DATE.',
      now,
      when === '' ? '' : t(', seen{0}', when),
      sinceThen(concern),
    ),
    ...number,
  };
}

const scales = spoken({
  obel: 'Obel 1948; the line is a judgement of ours',
  ground: 'AAEP scale of lameness; which grade of Obel it counts as is a judgement of ours',
});

/** What is read out of a line that is not understood is said to be: what was meant may be something else. */
function asRead({ kind, visit: { is } }: Concern): string {
  const isUnread =
    kind === 'signs'
      ? is.signs.some(({ unread }) => unread)
      : is.pulses.some(({ unread, pulse }) => unread && pulse === 'bounding');
  return isUnread ? t(', as it is read out of a line that is not understood; mend the line') : '';
}

/** Why it is open, so that who reads it knows what would close it. */
function sinceThen({ before }: Concern): string {
  const none = t('No visit of the vet since then is written');
  return before === null ? `${none}.` : t('{0}; the one of {1} was before.', none, sayDate(before));
}

/** Signs as they are said aloud; of a word of one's own as it stands. */
const sayings: Readonly<Record<(typeof signs)[number], string>> = spoken({
  fever: 'fever',
  recumbent: 'lies and will not rise',
  discharge: 'discharge',
  'refuses-to-move': 'refuses to move',
  sweating: 'sweating',
  swelling: 'swelling',
  'coronet-gap': 'a gap above the coronet',
  'sole-bulge': 'a bulging sole',
  bleeding: 'bleeding',
});

function signWords(seen: Concern['visit']['is']['signs']): string {
  const known = new Map<string, string>(Object.entries(sayings));
  return list(seen.map(({ word }) => known.get(word) ?? word.replace(/-/g, ' ')));
}

function lamenessWords({ visit: { is } }: Concern): string {
  const feet = [...bounding(is.pulses)].map((foot) => footWords[foot]);
  const nameless =
    feet.length > 0 &&
    is.pulses.every(({ pulse, unread, feet: of }) => pulse !== 'bounding' || (unread && of.length === 4));
  const pulses =
    feet.length === 0
      ? ''
      : nameless
        ? t(', bounding pulses, of which feet cannot be read')
        : counted(feet.length, ', bounding pulse {1}', ', bounding pulses {1}', list(feet));
  const grade = gradeIn(is);
  return `${grade?.scale === 'ground' ? t('lameness ') : ''}${grade?.said ?? ''}${grade?.unread ? asWritten(grade) : ''}${pulses}`;
}

const asWritten = ({ scale }: Grade): string =>
  scale === 'obel' ? t(' (as written; the grades are 0 to 4)') : t(' (as written; the grades are 0 to 5)');

function how({ by, date }: Closed): string {
  return by === 'seen'
    ? t('Seen by the vet on {0}.', sayDate(date))
    : t('Better since: under Obel grade 2 on {0}.', sayDate(date));
}
