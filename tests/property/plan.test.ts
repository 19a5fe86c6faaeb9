import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { limitsOn } from '../../shared/findings/limits/cut-limits.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmToPlanOn, planOn, tryCut } from '../../shared/findings/limits/planning.ts';
import { grown } from '../../shared/trim/growth.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import { broken, cutToPalmarAngle, cutToSolePlane, largestHeelCut, type Solver } from '../../shared/trim/solve.ts';
import { stand } from '../../shared/trim/stand.ts';
import type { Study, StudiedFilm } from '../../shared/trim/study.ts';
import { randomFrom } from './random-edits.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';

const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');

function planned(text: string): { film: StudiedFilm; study: Study; solver: Solver } {
  const { study } = inspect(text);
  const film = filmToPlanOn('LF', study);
  const frame = film?.readings.find(({ taking }) => taking.frame)?.taking.frame;
  if (!film || !frame) throw new Error('nothing to plan on');
  return { film, study, solver: { frame, limits: limitsOn('LF', study, film.day) } };
}

/** Feet with more and less heel, sole, air and angle than the plain one. */
function randomCase(seed: number): string {
  const random = randomFrom(seed);
  const between = (low: number, high: number): number =>
    Math.round((low + ((high - low) * random(1000)) / 1000) * 10) / 10;
  const cup = between(0.5, 4);
  return caseText(
    filmText({
      'p3.wing': [-80, between(18, 36)],
      'sole.tip': [0, cup],
      'sole.wing': [-80, cup + between(0, 8)],
      'sole.heel': [-104, between(1, 18)],
      'p3.tip': [0, cup + between(9, 18)],
    }),
  );
}

const goals: readonly Goal[] = [{ kind: 'sole-plane' }, { kind: 'palmar-angle', angle: 4 }, { kind: 'most' }];

describe('the largest heel cut', () => {
  it('breaks no limit, and a hundredth more does, on 60 feet', () => {
    let bound = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { solver } = planned(randomCase(seed));
      const largest = largestHeelCut(solver);
      if (!largest) {
        expect(broken(solver, { heelDown: 0, toeDown: 0, toeBack: 0 })).not.toEqual([]);
        continue;
      }
      const cut = (heelDown: number) => broken(solver, { heelDown, toeDown: 0, toeBack: 0 });
      expect(cut(largest.heelDown)).toEqual([]);
      expect(cut(largest.heelDown + 0.01)).toEqual(largest.stoppedBy);
      if (largest.stoppedBy.length > 0) bound += 1;
    }
    expect(bound).toBeGreaterThan(40);
  });
});

describe('the cut to a palmar angle', () => {
  it('leaves it, to what a hundredth of a millimetre does', () => {
    let solved = 0;
    for (let seed = 100; seed < 140; seed++) {
      const { solver, film, study } = planned(randomCase(seed));
      const heelDown = cutToPalmarAngle(solver, 5);
      if (heelDown === null) continue;
      solved += 1;
      const angle = tryCut(film, { heelDown, toeDown: 0, toeBack: 0 }, study)?.prediction.values.get(
        'palmar-angle',
      )?.value;
      // 0.01 mm over 138 mm of bearing length is 0.004 degrees.
      expect(Math.abs((angle ?? NaN) - 5)).toBeLessThan(0.005);
    }
    expect(solved).toBeGreaterThan(15);
  });
});

describe('the heels of the rotated example cut to the live sole plane', () => {
  it('leave the bone slightly positive (common practice, no source)', () => {
    const { film, study, solver } = planned(juniper.slice(0, juniper.indexOf('visit 2026-04-01')));
    const heelDown = cutToSolePlane(solver.frame) ?? NaN;
    const left = tryCut(film, { heelDown, toeDown: 0, toeBack: 0 }, study);
    expect(heelDown).toBeGreaterThan(15);
    expect(left?.prediction.values.get('palmar-angle')?.value).toBeGreaterThan(0);
    expect(left?.prediction.values.get('palmar-angle')?.value).toBeLessThan(8);
    // All at once it would take sole under the tip and more than one visit may: that is what stages are for.
    expect(left?.broken).toEqual(['trim/live-sole', 'trim/sole-depth', 'trim/turn-per-visit']);
  });
});

describe('a plan over several visits', () => {
  it.each(goals)('$kind: each stage, simulated step by step, breaks no limit', (goal) => {
    let stages = 0;
    for (let seed = 200; seed < 225; seed++) {
      const { solver, film, study } = planned(randomCase(seed));
      const plan = planOn(film, goal, study);
      if (!plan) continue;
      solver.frame.graph.scratch(() => {
        let foot = solver.frame;
        plan.stages.forEach(({ size, prediction, day }, index) => {
          expect(day).toBe(28 * index);
          expect(broken({ ...solver, frame: foot }, size), `seed ${seed}, stage ${index + 1}`).toEqual([]);
          const stood = stand(foot, size);
          if (!stood) throw new Error('it does not stand');
          // The angle is taken anew from the points as they stand.
          const tip = stood.frame.at('p3.tip');
          const wing = stood.frame.at('p3.wing');
          if (!tip || !wing) throw new Error('no bone');
          const angle = (Math.atan2(wing.y.value - tip.y.value, tip.x.value - wing.x.value) * 180) / Math.PI;
          expect(prediction.values.get('palmar-angle')?.value).toBeCloseTo(angle, 9);
          foot = grown(stood.frame, study.trim.growth * 28);
          stages += 1;
        });
      });
      if (!plan.reached) expect(plan.stoppedBy.length).toBeGreaterThan(0);
    }
    expect(stages).toBeGreaterThan(10);
  });

  it('of the rotated example goes as far as its limits let it, and names the two that meet', () => {
    const { film, study } = planned(juniper.slice(0, juniper.indexOf('visit 2026-04-01')));
    const plan = planOn(film, { kind: 'sole-plane' }, study);
    expect(plan?.stages.length).toBeGreaterThan(2);
    const last = plan?.stages.at(-1)?.prediction.values;
    expect(last?.get('heel-surplus')?.value).toBeLessThan(2);
    expect(last?.get('palmar-angle')?.value).toBeGreaterThan(2);
    expect(plan?.reached).toBe(false);
    expect(plan?.stoppedBy).toEqual(['trim/palmar-angle', 'trim/live-sole']);
    // The toe is left alone at the first visit: the wall is as it was.
    const [first] = plan?.stages ?? [];
    expect(first?.size.toeDown).toBe(0);
    expect(first?.prediction.wallLeft).toBeCloseTo(
      film.readings[0]?.taking.values.get('horn-lamellar.lower')?.value ?? NaN,
      9,
    );
  });

  it('says what stands in the way where no cut at all is within the limits', () => {
    const text = caseText(filmText(), { limits: '\nlimits\n  palmar-angle >= 5.1 deg\n' });
    const { film, study } = planned(text);
    const plan = planOn(film, { kind: 'sole-plane' }, study);
    expect(plan?.reached).toBe(false);
    expect(plan?.stages).toEqual([]);
    expect(plan?.stoppedBy).toEqual(['trim/palmar-angle']);
  });
});
