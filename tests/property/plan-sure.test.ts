import { describe, expect, it } from 'vitest';
import { Dice } from './dice.ts';
import { drawn, drawnBeyond, sureQuestion } from './plan-sure.ts';

/** Fewer than the 100,000 draws of `tests/fuzz/sure.ts`: 30 feet, 200 draws each. */
const feet = 30;
const draws = 200;

describe.each([
  [90, 0.1],
  [50, 0.5],
] as const)('of plans made at %i of 100', (sure, allowed) => {
  it('no more break a limit where the foot is placed anew, and half a millimetre more would', () => {
    const dice = new Dice(sure);
    let [plans, broken, beyond, stopped] = [0, 0, 0, 0];
    for (let seed = 1; plans < feet; seed++) {
      const question = sureQuestion(seed, sure);
      const made = drawn(question, draws, dice);
      if (!made) continue;
      plans += 1;
      broken += made.broken;
      // Three standard errors of the share of one foot's draws.
      const error = 3 * Math.sqrt((allowed * (1 - allowed)) / draws);
      expect(made.broken / draws, `seed ${seed}`).toBeLessThan(allowed + error);
      if (made.plan.stoppedBy.length === 0) continue;
      stopped += 1;
      beyond += drawnBeyond(question, made.plan, draws, dice);
    }
    expect(broken / (plans * draws)).toBeLessThanOrEqual(allowed);
    // Not bought with timidity: a plan stops within half a millimetre of what is allowed.
    expect(stopped).toBeGreaterThan(feet / 2);
    expect(beyond / (stopped * draws)).toBeGreaterThan(allowed);
    if (sure === 90) expect(broken / (plans * draws)).toBeGreaterThan(0.04);
  });
});
