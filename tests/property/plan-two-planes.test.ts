import { describe, expect, it } from 'vitest';
import { Dice } from './dice.ts';
import {
  answerTo,
  belowItsFilm,
  complaintsOf,
  deeperOnTwoPlanes,
  exactly,
  questionOf,
  visitOf,
  type PlanQuestion,
} from './plan-contract.ts';
import { drawn, sureQuestion } from './plan-sure.ts';

const onTwo = (question: PlanQuestion): PlanQuestion => ({ ...question, wish: { ...question.wish, twoPlanes: true } });

describe('a plan on two planes', () => {
  it('passes the check where it is written, and takes more than the one on one plane', () => {
    const counted = { plans: 0, below: 0, none: 0 };
    for (let seed = 1; seed <= 200; seed++) {
      const question = onTwo(questionOf(seed));
      const { plan, says } = answerTo(question);
      if (!plan) counted.none += 1;
      else {
        const onOne = answerTo(questionOf(seed)).plan?.size.heelDown ?? 0;
        expect(plan.size.heelDown, `seed ${seed}`).toBeGreaterThan(onOne);
        expect(plan.outlook, `seed ${seed}`).toBeNull();
      }
      if (plan && says === '') {
        counted.plans += 1;
        const block = visitOf(question.foot, plan);
        expect(block).toMatch(/heel {2}down [\d.]+ mm from \d+ mm/);
        expect(complaintsOf(question.text, block, question.settings), `seed ${seed}\n${block}`).toEqual([]);
      }
      const other = belowItsFilm(question);
      if (!other) continue;
      counted.below += 1;
      expect(other.complaints, `seed ${seed}, below the film\n${other.block}`).toEqual([]);
    }
    expect(counted.plans).toBeGreaterThan(20);
    expect(counted.below).toBeGreaterThan(20);
    expect(counted.none).toBeGreaterThan(20);
  });

  it('is the deepest of all half millimetres from all fifth millimetres that pass, and the farthest of those as deep', () => {
    const counted = { plans: 0, none: 0 };
    for (let seed = 2001; counted.plans < 4 || counted.none < 3; seed++) {
      const question = exactly(onTwo(questionOf(seed)));
      const { plan, none, lacking } = answerTo(question);
      if (lacking || (plan ? counted.plans >= 4 : counted.none >= 3 || none?.kind !== 'no more')) continue;
      const onOne = none?.kind === 'no more' ? none.onOne : 0;
      const deeper = deeperOnTwoPlanes(question, plan ? plan.size.heelDown - 0.5 : onOne);
      const best = plan ? [{ heel: plan.size.heelDown, from: plan.size.heelFrom }] : [];
      const farthest = Math.max(...deeper.map(({ from }) => from));
      expect(
        deeper.filter(({ from }) => from === farthest),
        `seed ${seed}`,
      ).toEqual(best);
      expect(new Set(deeper.map(({ heel }) => heel)).size, `seed ${seed}`).toBeLessThan(2);
      counted[plan ? 'plans' : 'none'] += 1;
    }
  }, 300_000);

  it('made at 90 of 100 breaks a limit in no more than 10 of 100 placings', () => {
    const [feet, draws] = [12, 200];
    const dice = new Dice(0x2b);
    let [plans, broken] = [0, 0];
    for (let seed = 1; plans < feet; seed++) {
      const made = drawn(onTwo(sureQuestion(seed, 90)), draws, dice);
      if (!made) continue;
      plans += 1;
      broken += made.broken;
      // Three standard errors of one foot's share.
      expect(made.broken / draws, `seed ${seed}`).toBeLessThan(0.1 + 3 * Math.sqrt((0.1 * 0.9) / draws));
    }
    expect(broken / (plans * draws)).toBeLessThanOrEqual(0.1);
  });
});
