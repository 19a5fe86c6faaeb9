import type { Rule } from '../rule.ts';
import { list } from '../wording.ts';

export const redFlag: Rule = {
  code: 'visit/call-the-vet',
  severity: 'error',
  title: 'Warning signs',
  about:
    'Fever, an animal that will not rise or move, discharge, a gap above the coronet: these are for the vet at once, before anything is trimmed.',
  never: 'Call the vet, and write down under `vet` what was found.',
  *onVisit({ visit: { is: visit } }) {
    const [first] = visit.signs;
    if (!first) return;
    const last = visit.signs.at(-1) ?? first;
    yield {
      at: { start: first.at.start, end: last.at.end },
      message: `Call the vet now: ${list(visit.signs.map(({ word }) => word.replace(/-/g, ' ')))}. Do not trim before the vet has seen the animal.`,
    };
  },
};
