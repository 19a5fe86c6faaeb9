import { bounding, concernsOf, type Closed, type Concern } from '../../course/care.ts';
import type { CaseRemark, Rule } from '../rule.ts';
import { sayDate } from '../wording/say-day.ts';
import { footWords, list } from '../wording/wording.ts';

export const redFlag: Rule = {
  code: 'visit/call-the-vet',
  severity: 'error',
  title: 'For the vet at once',
  about:
    'Fever, an animal that will not rise or move, discharge, a gap above the coronet, and grave lameness are for the vet at once, before anything is trimmed. It stays told until a line `vet seen` with a date says that the vet has seen the animal; lameness also until a later visit finds it clearly better. To agree to a plan, or not to answer, is no visit.',
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
  } = concern;
  const what = kind === 'signs' ? signWords(visit.signs) : lamenessWords(concern);
  const first = visit.signs[0];
  const at =
    kind === 'signs' && first
      ? { start: first.at.start, end: (visit.signs.at(-1) ?? first).at.end }
      : ((visit.obelBeyond ?? visit.obel)?.at ?? visit.head);
  const when = visit.date === null ? '' : ` on ${sayDate(visit.date)}`;
  const heading = kind === 'signs' ? `Signs${when}: ${what}.` : `Lame${when}: ${what}.`;
  const grade = visit.obelBeyond ?? visit.obel;
  const number = kind === 'lameness' && grade ? { value: grade.value, limit: 2, source: OBEL } : {};
  if (closed) return { start, at, severity: 'hint', message: `${heading} ${how(closed)}`, ...number };
  const now = kind === 'signs' ? `Call the vet now: ${what}.` : `Call the vet today: ${what}.`;
  return {
    start,
    at,
    message: `${now} Do not trim before the vet has seen the animal.`,
    ...number,
  };
}

const OBEL = 'Obel 1948; the line is a judgement of ours';

function signWords(signs: Concern['visit']['is']['signs']): string {
  return list(signs.map(({ word }) => word.replace(/-/g, ' ')));
}

function lamenessWords({ visit: { is } }: Concern): string {
  const feet = [...bounding(is.pulses)].map((foot) => footWords[foot]);
  const pulses = feet.length === 0 ? '' : `, bounding ${feet.length > 1 ? 'pulses' : 'pulse'} ${list(feet)}`;
  const beyond = is.obelBeyond ? ' (the scale ends at 4)' : '';
  return `Obel grade ${(is.obelBeyond ?? is.obel)?.value ?? ''}${beyond}${pulses}`;
}

function how({ by, date }: Closed): string {
  return by === 'seen'
    ? `Seen by the vet on ${sayDate(date)}.`
    : `Better since: under Obel grade 2 on ${sayDate(date)}.`;
}
