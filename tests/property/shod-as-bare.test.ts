import { describe, expect, it } from 'vitest';
import { courseOf } from '../../shared/course/course.ts';
import { judgeOn } from '../../shared/findings/limits/cut-limits.ts';
import { cutRules } from '../../shared/findings/limits/cut-rules.ts';
import { below } from '../../shared/findings/limits/plan-place.ts';
import { planAt, tryCutAt } from '../../shared/findings/limits/planning.ts';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { bareFoot } from '../../shared/geometry/planes.ts';
import type { Values } from '../../shared/measures/take.ts';
import type { CutSize } from '../../shared/trim/stand.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import { largestHeel } from '../../shared/trim/solve.ts';
import { Dice } from './dice.ts';
import { randomFoot, toNotation, type RandomFoot } from './random-foot.ts';
import { randomShoe, wearing } from './random-shoe.ts';

/**
 * What is asked of a shod foot: it is judged as the very same foot is when it stands bare on its bearing plane. Only the
 * angles of its bones to the ground know of the shoe, and they differ by the wedge that was made, plane geometry.
 */

const FEET = 80;
const seeds = Array.from({ length: FEET }, (_, index) => 5200 + index);

interface Both {
  readonly bare: RandomFoot;
  readonly shod: RandomFoot;
  readonly wedge: number;
  readonly thickness: number;
}

/** Faces both ways and lies on tilted films, as random feet do. */
function bothOf(seed: number): Both {
  const found = randomFoot(seed, { complete: true });
  const work = { kind: 'plan', heelDown: { amount: new Dice(seed).pick([1, 3, 6, 9, 14]), unit: 'mm' } } as const;
  const bare: RandomFoot = { ...found, work };
  const shoe = randomShoe(new Dice(seed ^ 0xbea));
  const { scale } = study(inspect(toNotation(bare))).taking;
  if (scale === null) throw new Error(`foot ${seed} has no scale`);
  return { bare, shod: { ...bare, film: wearing(bare.film, scale, shoe) }, ...shoe };
}

function study(inspection: Inspection) {
  const [film] = inspection.study.films;
  const [reading] = film?.readings ?? [];
  const [cut] = inspection.study.cuts;
  if (!film || !reading || !cut) throw new Error('no film, or no plan');
  return { film, cut, taking: reading.taking, study: inspection.study };
}

/** By name; those that are measured to the ground, and what the foot wears, apart. */
function parted(values: Values): Record<'others' | 'ground' | 'shoe', Record<string, { value: number; sd: number }>> {
  const parts: ReturnType<typeof parted> = { others: {}, ground: {}, shoe: {} };
  for (const { measure, value, sd } of values.values()) {
    const ofShod = measure.family === 'shoe' || measure.name === 'palmar-angle.bearing';
    parts[ofShod ? 'shoe' : measure.plane === 'ground' ? 'ground' : 'others'][measure.name] = { value, sd };
  }
  return parts;
}

/** Every one of them is there on both, and nearly alike. */
function expectAlike(
  one: Record<string, { value: number }>,
  other: Record<string, { value: number }>,
  by: number,
  where: string,
) {
  expect(Object.keys(other), where).toEqual(Object.keys(one));
  for (const [name, { value }] of Object.entries(one))
    expect(Math.abs((other[name]?.value ?? NaN) - value - by), `${where}: ${name}`).toBeLessThan(1e-4);
}

/** Below its film: the limits that a cut would break, and by how much. */
function tried({ film, study: of }: ReturnType<typeof study>, size: CutSize) {
  const place = below(film);
  const found = place && tryCutAt(place, size, of);
  return found === null || typeof found === 'string' ? found : { broken: found.broken, chance: found.chance };
}

function planned({ film, study: of }: ReturnType<typeof study>, goal: Goal) {
  const place = below(film);
  if (!place) throw new Error('the visit has no date');
  const { plan, says, none } = planAt(place, { goal }, of);
  return {
    says: asOfBare(says),
    none,
    plan: plan && { size: plan.size, evenOdds: plan.evenOdds, stoppedBy: plan.stoppedBy, left: plan.left },
  };
}

/** Of a shod foot it is said that its palmar angle is the one to the bearing plane; for the rest the words are those of the bare foot. */
const asOfBare = (said: string): string => said.replaceAll(' to the bearing plane', '');

const goals: readonly Goal[] = [{ kind: 'sole-plane' }, { kind: 'palmar-angle', angle: 4 }, { kind: 'most' }];

describe('a shod foot with its bearing plane', () => {
  it.each(seeds)('is measured as the same foot is bare, but for its bones against the ground: foot %i', (seed) => {
    const { bare, shod, wedge, thickness } = bothOf(seed);
    const [was, is] = [study(inspect(toNotation(bare))), study(inspect(toNotation(shod)))];
    for (const [name, [before, after]] of Object.entries({
      measured: [parted(was.taking.values), parted(is.taking.values)],
      predicted: [parted(was.cut.prediction?.values ?? new Map()), parted(is.cut.prediction?.values ?? new Map())],
    } as const)) {
      const where = `foot ${seed}, ${name}`;
      expect(Object.keys(before.others).length, where).toBeGreaterThan(30);
      expect(Object.keys(before.ground), where).toEqual(['palmar-angle', 'bone-angle', 'middle-angle', 'axis-angle']);
      // The very same numbers, errors and all: nothing but the bearing plane is in them.
      expect(after.others, where).toEqual(before.others);
      expectAlike(before.ground, after.ground, wedge, where);
      expect(before.shoe, where).toEqual({});
      expect(Math.abs((after.shoe['shoe-wedge']?.value ?? NaN) - wedge), where).toBeLessThan(1e-4);
      // Without the shoe it is what the bare foot has to the ground.
      expect(after.shoe['palmar-angle.bearing'], where).toEqual(before.ground['palmar-angle']);
      expect(after.shoe['shoe-thickness.toe']?.value, where).toBeGreaterThan(thickness - 10);
    }
    expect(is.cut.prediction?.delta).toBe(was.cut.prediction?.delta);
    expect(is.cut.prediction?.soleCut).toEqual(was.cut.prediction?.soleCut);
    expect(is.cut.prediction?.wallLeft).toBe(was.cut.prediction?.wallLeft);
  });

  it('keeps the same limits, plans and largest cut', { timeout: 600_000 }, () => {
    const stops = new Set<string>();
    let cuts = 0;
    for (const seed of seeds.slice(0, 40)) {
      const { bare, shod } = bothOf(seed);
      const [was, is] = [study(inspect(toNotation(bare))), study(inspect(toNotation(shod)))];
      const [largest, other] = [was, is].map(({ film, taking, study: of }) => {
        const frame = taking.frame && bareFoot(taking.frame);
        if (!frame) throw new Error(`foot ${seed} has no bearing plane`);
        return largestHeel({ judge: judgeOn({ frame, earlier: [] }, film.film.foot, of, film.day), sure: 0.9 });
      });
      expect(other, `foot ${seed}`).toEqual(largest);
      if (largest) cuts += 1;
      for (const { code } of largest?.stoppedBy ?? []) stops.add(code);
      const size = { heelDown: 9, toeDown: 1, toeBack: 2 };
      expect(tried(is, size), `foot ${seed}`).toEqual(tried(was, size));
      for (const goal of goals) {
        expect(planned(is, goal), `foot ${seed}, ${goal.kind}`).toEqual(planned(was, goal));
      }
    }
    expect(cuts).toBeGreaterThan(20);
    expect(stops.size).toBeGreaterThan(2);
  });

  it('is told of a plan what its bare foot is told', () => {
    const limits = new Set(cutRules.map(({ code }) => code));
    const told = new Set<string>();
    for (const seed of seeds) {
      const { bare, shod } = bothOf(seed);
      const of = (foot: RandomFoot) =>
        inspect(toNotation(foot))
          .findings.filter(({ code }) => limits.has(code))
          .map(({ code, message, severity, value, limit }) => ({ code, message, severity, value, limit }));
      const ofShod = of(shod).map((one) => ({ ...one, message: asOfBare(one.message) }));
      expect(ofShod, `foot ${seed}`).toEqual(of(bare));
      for (const { code } of of(bare)) told.add(code);
    }
    expect(told.size).toBeGreaterThan(3);
  });

  it('is never told off its ground, as air, horn or a slip, whatever the shoe', () => {
    const ofShoe = new Set(['landmark/off-ground', 'range/cup.tip', 'range/sole-depth.tip', 'shoe/disagrees']);
    for (const seed of seeds) {
      const { bare, shod } = bothOf(seed);
      const of = (foot: RandomFoot) =>
        inspect(toNotation(foot))
          .findings.filter(({ code }) => ofShoe.has(code))
          .map(({ code, message }) => [code, message]);
      expect(of(shod), `foot ${seed}`).toEqual(of(bare));
    }
  });
});

describe('a bare film and a shod one of the same foot', () => {
  it('have no clear change between them but of the bones against the ground, and that is told of the shoe', () => {
    let clear = 0;
    for (const seed of seeds.slice(0, 40)) {
      const { bare, shod, wedge } = bothOf(seed);
      const [first, second] = [bare, shod].map((foot) => toNotation({ ...foot, work: undefined } as RandomFoot));
      const later = (second ?? '').slice((second ?? '').indexOf('visit ')).replaceAll('2026-03-04', '2026-04-04');
      const { study: both, findings } = inspect(`${first}\n${later}`);
      const [course] = courseOf(both);
      const rows = course?.views.flatMap(({ measures }) => measures) ?? [];
      expect(rows.length).toBeGreaterThan(35);
      for (const { measure, changes } of rows)
        for (const change of changes) {
          const byShoe = measure.plane === 'ground' ? wedge : 0;
          expect(Math.abs(change.difference - byShoe), `foot ${seed}, ${measure.name}`).toBeLessThan(1e-4);
          if (change.clear) {
            expect(measure.plane).toBe('ground');
            expect(Math.abs((change.byShoe as number) - change.difference)).toBeLessThan(1e-4);
            clear += 1;
          }
        }
      expect(findings.filter(({ code }) => code.startsWith('course/'))).toEqual([]);
    }
    expect(clear).toBeGreaterThan(40);
  });
});
