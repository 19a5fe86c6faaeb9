import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt } from '../../shared/findings/limits/planning.ts';
import { sayBothOdds } from '../../shared/edits/plan-notation.ts';
import { workedCase } from './worked-foot.ts';

/** The plan that `docs/model.md` works out on paper; each number here is that of the page, by the arithmetic that stands there. */

const page = readFileSync(new URL('../../docs/model.md', import.meta.url), 'utf8');
const degrees = 180 / Math.PI;

function planned(sure: number) {
  const { study } = inspect(workedCase);
  const place = atEnd('LF', study);
  const { plan, says } = place
    ? planAt(place, { goal: { kind: 'sole-plane' }, sure }, study)
    : { plan: null, says: '' };
  if (!plan) throw new Error(says);
  return plan;
}

describe('the worked plan of the docs', () => {
  const plan = planned(90);

  it('is what the program says, in the same words', () => {
    expect(plan.size).toEqual({ heelDown: 5.5, toeDown: 0, toeBack: 0 });
    expect(sayBothOdds(plan)).toBe('5.5 mm (9 mm at even odds)');
    expect(page).toContain('it says `5.5 mm (9 mm at even odds)`');
    expect(planned(50).size.heelDown).toBe(9);
  });

  it('is stopped by the sole under the tip, as on paper', () => {
    const [stop] = plan.stoppedBy;
    const ground = 0.5 * Math.hypot(0.3, 0.7);
    expect([stop?.code, stop?.place]).toEqual(['trim/live-sole', 'tip']);
    // Half a millimetre more: 6 mm. The page leaves out the turn of the line, under 0.2 %.
    expect(stop?.value).toBeCloseTo(2 - (6 * 30) / 140, 2);
    expect(stop?.sd).toBeCloseTo(Math.hypot(0.5, ground), 2);
    expect((2 - 1.28 * Math.hypot(0.5, ground)) / (30 / 140)).toBeCloseTo(5.57, 1);
  });

  it('leaves the palmar angle of the page', () => {
    const after = (Math.atan2(14, 80) - Math.atan2(5.5, 140)) * degrees;
    expect(plan.prediction.value('palmar-angle')?.value).toBeCloseTo(after, 9);
    expect(after.toFixed(2)).toBe('7.68');
  });
});
