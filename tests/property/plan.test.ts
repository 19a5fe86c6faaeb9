import { describe, expect, it } from 'vitest';
import { answerTo, belowItsFilm, byBruteForce, complaintsOf, exactly, questionOf, visitOf } from './plan-contract.ts';

/** `tests/fuzz/plans.ts` asks 5,000; a few hundred here. */
const some = 250;

describe('a plan that is written into its case', () => {
  it('passes the check there, for any foot, goal and setting', () => {
    const written = { plans: 0, below: 0 };
    for (let seed = 1; seed <= some; seed++) {
      const question = questionOf(seed);
      const { plan, says } = answerTo(question);
      if (plan && says === '') {
        written.plans += 1;
        const block = visitOf(question.foot, plan);
        expect(complaintsOf(question.text, block, question.settings), `seed ${seed}\n${block}`).toEqual([]);
      }
      const other = belowItsFilm(question);
      if (other) {
        written.below += 1;
        expect(other.complaints, `seed ${seed}, below the film\n${other.block}`).toEqual([]);
      }
    }
    expect(written.plans).toBeGreaterThan(some / 5);
    expect(written.below).toBeGreaterThan(some / 5);
  });

  it('is the largest cut that does, by trying every half millimetre; and refused only where none does', () => {
    const counted = { plans: 0, refused: 0 };
    for (let seed = 1001; seed <= 1000 + some / 4; seed++) {
      const question = exactly(questionOf(seed));
      const { plan, says, lacking } = answerTo(question);
      if (lacking) continue;
      const largest = byBruteForce(question);
      expect(plan?.size.heelDown ?? Math.min(largest, 0), `seed ${seed}: ${says}`).toBe(largest);
      if (plan) counted.plans += 1;
      else counted.refused += 1;
    }
    expect(counted.plans).toBeGreaterThan(some / 20);
    expect(counted.refused).toBeGreaterThan(5);
  });
});
