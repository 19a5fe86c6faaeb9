import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseText, type CourseVisit } from './course-text.ts';
import { rotated, stoodFlatter, sunk } from './moved-foot.ts';
import type { Places } from './plain-foot.ts';

const month = (index: number): string => `2026-${String(index + 1).padStart(2, '0')}-01`;

function course(steps: readonly Places[], more: Readonly<Record<number, Partial<CourseVisit>>> = {}): CourseVisit[] {
  return steps.map((places, index) => ({
    date: month(index),
    places,
    film: { header: `film LF lateral "f${index}.png"` },
    ...more[index],
  }));
}

const told = (visits: readonly CourseVisit[]) =>
  inspect(courseText(visits)).findings.filter(({ code }) => code.startsWith('course/'));
const sinking = (visits: readonly CourseVisit[]) => told(visits).filter(({ code }) => code === 'course/sinking');

describe('a bone that sinks', () => {
  it('by 5 mm at once is an error at the newest film, with how much and since when', () => {
    const text = courseText(course([sunk(0), sunk(5)]));
    const [finding, ...others] = inspect(text).findings.filter(({ code }) => code === 'course/sinking');
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: 'error', value: expect.closeTo(5, 1) as number });
    expect(finding?.message).toMatch(
      /^Left fore: the bone lies 5\.0 ± 1\.\d mm lower in the capsule than on 1 January 2026\. Call the vet today\.$/,
    );
    expect(text.slice(finding?.at.start).startsWith('film LF lateral "f1.png"')).toBe(true);
  });

  it('that creeps is told when the sum is clear, though each step lay within the error', () => {
    const steps = [0, 1.3, 2.6, 3.9, 5.2];
    expect(sinking(course(steps.slice(0, 2).map(sunk)))).toEqual([]);
    const [finding] = sinking(course(steps.map(sunk)));
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toContain('no single step was more than the error');
    expect(finding?.message).toContain('Call the vet today.');
  });

  it('that may be sinking is a warning, and an error in a lame animal, with a bounding pulse there or an open sign', () => {
    const steps = [sunk(0), sunk(3)];
    expect(sinking(course(steps))[0]).toMatchObject({ severity: 'warning' });
    expect(sinking(course(steps))[0]?.message).toMatch(
      /It may be sinking: tell the vet, and have it filmed again soon\.$/,
    );
    const worse = ['  obel 2', '  pulse LF bounding', '  sign fever'];
    for (const line of worse) {
      const [finding] = sinking(course(steps, { 1: { more: [line] } }));
      expect(finding, line).toMatchObject({ severity: 'error' });
      expect(finding?.message, line).toContain('call the vet today');
    }
    for (const line of ['  obel 1', '  pulse RF bounding', '  pulse LF raised'])
      expect(sinking(course(steps, { 1: { more: [line] } }))[0], line).toMatchObject({ severity: 'warning' });
  });

  it('in feet that rise in the capsule, or keep their place, is not told', () => {
    expect(told(course([sunk(5), sunk(0)]))).toEqual([]);
    expect(told(course([sunk(2), sunk(2), sunk(2)]))).toEqual([]);
  });
});

describe('a foot in which only something else changes', () => {
  it('is not told of where it merely stands flatter, but in a hint that says so', () => {
    const found = told(course([{}, stoodFlatter(4.5), stoodFlatter(9)]));
    expect(found.map(({ code, severity }) => [code, severity])).toEqual([['course/stands-flatter', 'hint']]);
    expect(found[0]?.message).toMatch(
      /^Left fore: founder distance is 2\.9 mm more than on 1 January 2026, as the foot stands 9° flatter; in the capsule it has changed by 0\.0 ± \d\.\d mm\.$/,
    );
  });

  it('nor hides a real sinking by standing steeper', () => {
    const [finding] = sinking(course([{}, stoodFlatter(-9, sunk(5))]));
    expect(finding).toMatchObject({ severity: 'error', value: expect.closeTo(5, 1) as number });
  });

  it('nor is a bone that only rotates about its extensor process', () => {
    expect(sinking(course([{}, rotated(5), rotated(10)]))).toEqual([]);
  });

  it('nor does rotating back hide that the bone sank', () => {
    const [finding] = sinking(course([rotated(10), sunk(5)]));
    expect(finding?.severity).toBe('error');
  });
});

describe('what one case may claim of its own error', () => {
  const claims = (claim: string, steps: readonly Places[]) =>
    courseText(course(steps)).replaceAll(
      /(?<= {4}(?:p3\.extensor|wall\.top|coronet\.dorsal) @ [^\n]*)(?=\n)/g,
      ` +- ${claim}`,
    );
  const sinkingIn = (text: string) => inspect(text).findings.filter(({ code }) => code === 'course/sinking');

  it('a spread of 40 mm mutes no more than one of 2 mm', () => {
    const [finding] = sinkingIn(claims('400', [sunk(0), sunk(12)]));
    expect(finding?.severity).toBe('error');
  });

  it('to have followed the film before mutes nothing, whatever spread is claimed with it', () => {
    for (const spread of ['400', '0']) {
      const [first, second] = claims(spread, [sunk(0), sunk(12)]).split(/(?=visit 2026-02)/);
      const followed = `${first}${second?.replaceAll(` +- ${spread}`, ` +- ${spread} followed`)}`;
      expect(followed).toContain('followed');
      expect(sinkingIn(followed)[0]?.severity, spread).toBe('error');
    }
  });

  it('a spread of 0 sharpens no more than one of 0.1 mm', () => {
    expect(sinkingIn(claims('0', [sunk(0), sunk(1.9)]))).toEqual([]);
    expect(sinkingIn(claims('0', [sunk(0), sunk(2.2)]))[0]?.severity).toBe('warning');
  });
});

describe('an alarm that was told', () => {
  const steps = [sunk(0), sunk(5), sunk(5), sunk(5)];

  it('stays at the newest film, though that one shows no further sinking', () => {
    const text = courseText(course(steps));
    const [finding, ...others] = inspect(text).findings.filter(({ code }) => code === 'course/sinking');
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('error');
    expect(text.slice(finding?.at.start).startsWith('film LF lateral "f3.png"')).toBe(true);
  });

  it('is closed by the vet who saw the animal afterwards, and stays as a note where it was', () => {
    const visits = course(steps, { 2: { more: ['  vet seen 2026-02-03 "film seen, box rest"'] } });
    const text = courseText(visits);
    const [finding, ...others] = inspect(text).findings.filter(({ code }) => code === 'course/sinking');
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('hint');
    expect(finding?.message).toContain('Seen by the vet on 3 February 2026');
    expect(text.slice(finding?.at.start).startsWith('film LF lateral "f1.png"')).toBe(true);
  });

  it('says of which day its number is', () => {
    const visits = course([sunk(0), sunk(3.5), sunk(6)], { 2: { more: ['  vet seen 2026-03-02'] } });
    const [finding, ...others] = sinking(visits);
    expect(others).toEqual([]);
    expect(finding?.message).toMatch(
      /^Left fore: on 1 March 2026 the bone lay [\d.]+ (?:mm )?± [\d.]+ (?:mm )?lower in the capsule than/,
    );
    expect(courseText(visits).slice(finding?.at.start).startsWith('film LF lateral "f1.png"')).toBe(true);
  });

  it.each(['  vet "agrees to lower the heels"', '  vet seen 2026-01-20 "before the film"'])(
    'is not closed by %s',
    (line) => {
      expect(sinking(course(steps, { 2: { more: [line] } }))[0]?.severity).toBe('error');
    },
  );

  it('begins anew after the vet: further sinking is told again', () => {
    const visits = course([sunk(0), sunk(5), sunk(10)], { 1: { more: ['  vet seen 2026-02-03'] } });
    expect(sinking(visits).map(({ severity }) => severity)).toEqual(['hint', 'error']);
  });

  it('is ended by two later films within 1 mm of the old mean, and not by one', () => {
    const severities = (steps: readonly Places[]) => sinking(course(steps)).map(({ severity }) => severity);
    expect(severities([sunk(0), sunk(5), sunk(0.5)])).toEqual(['error']);
    expect(severities([sunk(0), sunk(5), sunk(0.5), sunk(0.5)])).toEqual(['hint']);
  });
});

describe('films that lack what the rule wants', () => {
  const without = (names: readonly string[], places: Places): Places => ({
    ...places,
    ...Object.fromEntries(names.map((name) => [name, undefined])),
  });

  it('without the heel of the hairline are held against the wall, and say so', () => {
    const [finding] = sinking(course([without(['coronet.heel'], {}), without(['coronet.heel'], sunk(5))]));
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toContain('Measured against the wall');
  });

  it('without either are measured upright, and say that a flatter stance looks so too', () => {
    const names = ['coronet.heel', 'wall.upper'];
    const [finding] = sinking(course([without(names, {}), without(names, sunk(5))]));
    expect(finding?.message).toContain('a foot that merely stands flatter looks so too');
  });

  it('in one convention each are held against their own', () => {
    const visits = [without(['wall.top'], {}), without(['coronet.dorsal'], sunk(5))];
    expect(sinking(course(visits))).toEqual([]);
    const three = [
      without(['wall.top'], {}),
      without(['coronet.dorsal', 'coronet.heel'], {}),
      without(['wall.top'], sunk(5)),
    ];
    expect(sinking(course(three))[0]?.severity).toBe('error');
  });

  it('of one day are one film, and say nothing of change', () => {
    const twice = course([sunk(0), sunk(5)]).map((visit) => ({ ...visit, date: '2026-01-01' }));
    expect(told(twice)).toEqual([]);
  });

  it('of another foot, or photos, are not mixed in', () => {
    const visits = course([sunk(0), sunk(5)]);
    const other = visits.map((visit, index) =>
      index === 0 ? visit : { ...visit, film: { header: 'film RF lateral "r.png"' } },
    );
    const photo = visits.map((visit, index) =>
      index === 0 ? visit : { ...visit, film: { header: 'photo LF lateral "r.png"' } },
    );
    expect(told(other)).toEqual([]);
    expect(told(photo)).toEqual([]);
  });
});
