import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt, type Planned } from '../../shared/findings/limits/planning.ts';
import type { Goal } from '../../shared/trim/plan.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/** Heels 20 mm above the live sole, a thick sole well above the ground: there is something to plan for. */
const tall: Places = {
  'sole.heel': [-104, 20],
  'sole.tip': [0, 8],
  'sole.wing': [-80, 14],
  'p3.tip': [0, 24],
  'p3.wing': [-80, 36],
};

function planned(
  body: string,
  { goal = { kind: 'most' } as Goal, animal = 'animal horse mare', limits = '' } = {},
): Planned {
  return plannedIn(caseText(body, { animal, limits }), goal);
}

function plannedIn(text: string, goal: Goal = { kind: 'most' }): Planned {
  const { study } = inspect(text);
  const place = atEnd('LF', study);
  if (!place) throw new Error('no date');
  return planAt(place, { goal }, study);
}

describe('a plan', () => {
  it('is written where nothing speaks against it', () => {
    const { plan, says } = planned(filmText(tall));
    expect([says, plan?.size.heelDown]).toEqual(['', expect.any(Number)]);
    expect(plan?.size.heelDown).toBeGreaterThan(4);
  });

  it.each([
    [
      'a sign that the vet has not seen',
      `  sign fever\n${filmText(tall)}`,
      /^An alarm is open, so no cut is written down: .*fever/,
    ],
    [
      'a temperature that may be a fever',
      `  temperature 40.1 C\n${filmText(tall)}`,
      /^The newest temperature is 40\.1 °C, which may be a fever, so no cut is written down\./,
    ],
    [
      'such a temperature in a line that is not understood',
      `  temprature 104 F\n${filmText(tall)}`,
      /^The newest temperature is 40 °C/,
    ],
    [
      'a sound grade and a grave score',
      `  obel 0\n  meier 11\n${filmText(tall)}`,
      /^The lameness is written as Obel grade 0 and as a modified Obel score of 11, which do not agree/,
    ],
    [
      'the head of a later film that is none',
      `${filmText(tall)}\n  fillm LF lateral b.png\n    p3.tip @ 1, 2`,
      /^A line of the visit of 4 March 2026 is not understood/,
    ],
    [
      'a line at the end of a film that may be a sign',
      `${filmText(tall)}\n  colicky today`,
      /^A line of the visit of 4 March 2026 is not understood/,
    ],
    [
      'a very thin sole by ultrasound, of a lame animal',
      `  obel 2\n  vet "agrees"\n  tape LF\n    sole-ultrasound 4 mm\n${filmText(tall)}`,
      /^An alarm is open, so no cut is written down: Sole by ultrasound, left fore: 4\.0/,
    ],
    [
      'lameness from Obel 1 on without a vet line',
      `  obel 1\n${filmText(tall)}`,
      /^The lameness is Obel grade 1, and no vet line/,
    ],
    [
      'a modified Obel score alone without a vet line',
      `  meier 11\n${filmText(tall)}`,
      /^The lameness is written by a modified Obel score of 11 alone/,
    ],
    [
      'such a score after a grade of sound',
      `  obel 0\n\nvisit 2026-03-04\n  meier 2\n${filmText(tall)}`,
      /^The lameness is written by a modified Obel score of 2 alone/,
    ],
    [
      'lameness of an earlier visit',
      `  obel 1\n${filmText(tall)}\n\nvisit 2026-03-20\n  weight 500 kg`,
      /^The lameness is Obel grade 1/,
    ],
    [
      'a film too old',
      `${filmText(tall)}\n\nvisit 2026-04-20\n  weight 500 kg`,
      /^The film of 4 March 2026 is 47 days old; after 42/,
    ],
  ])('is worked out and not written down by %s', (_, body, words) => {
    const { plan, says } = planned(body);
    expect(plan).not.toBeNull();
    expect(says).toMatch(words);
  });

  it.each([
    ['sound', '  obel 0'],
    ['agreed with the vet', '  obel 1\n  vet "lower the heels in steps"'],
    ['scored, and agreed with the vet', '  meier 11\n  vet "lower the heels in steps"'],
    ['scored, and graded as sound', '  meier 2\n  obel 0'],
    ['seen by the vet', '  obel 1\n  vet seen 2026-03-04'],
    ['sound again', '  obel 1\n\nvisit 2026-03-05\n  obel 0'],
  ])('is written of an animal that is %s', (_, lines) => {
    expect(planned(`${lines}\n${filmText(tall)}`).says).toBe('');
  });

  it.each([
    ['a sign with a slip', '  temperature LF wram'],
    ['a trim with a slip in its line', '  trim LF\n    heel donw 3 mm'],
    ['a trim of no foot', '  trim FL\n    heel down 3 mm'],
  ])('is not written down over a line that is not understood: %s', (_, line) => {
    const { plan, says } = planned(`${filmText(tall)}\n\nvisit 2026-03-20\n${line}`);
    expect(plan).not.toBeNull();
    expect(says).toMatch(/^A line of the visit of 20 March 2026 is not understood/);
    // Nobody knows what a line from before the film says either.
    expect(planned(`${line}\n\nvisit 2026-03-20\n${filmText(tall)}`).says).toMatch(
      /^A line of the visit of 4 March 2026 is not understood/,
    );
  });

  it.each([
    ['the limits', (text: string) => text.replace('visit ', 'limits\n  palmar-angel >= 3 deg\n\nvisit ')],
    ['the animal', (text: string) => text.replace('visit ', '  foaled 20015-02\n\nvisit ')],
    ['the top of the file', (text: string) => `feed hay\n${text}`],
  ])('is not written down over a line of %s that is not understood', (_, change) => {
    const sound = caseText(filmText(tall));
    expect(plannedIn(sound).says).toBe('');
    expect(plannedIn(change(sound)).says).toMatch(/^A line outside every visit /);
  });

  it('is not written down over a line of its film that is not understood', () => {
    expect(planned(`${filmText(tall)}\n    magnify x`).says).toMatch(
      /^A line of the film of 4 March 2026 is not understood, and every millimetre may hang on it/,
    );
  });

  it.each([
    ['visits that stand newest first', `  obel 2\n${filmText(tall)}\n\nvisit 2026-02-01\n  obel 0`],
    ['a second visit of the same day that says sound', `  obel 2\n${filmText(tall)}\n\nvisit 2026-03-04\n  obel 0`],
    ['a vet line with nothing in it', `  obel 1\n  vet ""\n${filmText(tall)}`],
    ['a visit of the vet long before', `  obel 1\n  vet seen 2025-01-04\n${filmText(tall)}`],
    ['a visit of the vet that is still to come', `  obel 1\n  vet seen 2027-03-04\n${filmText(tall)}`],
  ])('is not written down of a lame animal for %s', (_, body) => {
    expect(planned(body).says).toMatch(/^The lameness is Obel grade [12], and no vet line says/);
  });

  it('is not written down where landmarks contradict each other', () => {
    const upside = { ...tall, 'wall.upper': tall['wall.lower'] ?? [17, 17], 'wall.lower': [-11, 52] } as Places;
    expect(planned(filmText(upside)).says).toMatch(
      /^Landmarks on the film of 4 March 2026 contradict each other, and no plan goes by them\. .*exchange/,
    );
  });

  it('keeps what the case agrees on, and check tells where a cut does not', () => {
    // The heel of this foot is 24 mm high.
    const limits = 'limits\n  heel-height >= 20 mm\n';
    const free = planned(filmText(tall), { limits: '' });
    const { plan } = planned(filmText(tall), { limits });
    expect(free.plan?.size.heelDown ?? 0).toBeGreaterThan(plan?.size.heelDown ?? 99);
    expect(plan?.stoppedBy.map(({ code }) => code)).toEqual(['trim/agreed']);
    const told = (heel: number) =>
      inspect(caseText(`${filmText(tall)}\n\n  trim LF\n    heel down ${heel} mm`, { limits })).findings.filter(
        ({ code }) => code === 'trim/agreed',
      );
    expect(told(plan?.size.heelDown ?? 0)).toEqual([]);
    expect(told(10)[0]?.message).toMatch(
      /^Heel height is now 1\d\.\d ± \d\.\d mm by what was taken, beyond the 20 mm agreed for this case; it was 24\.0 mm/,
    );
  });

  it('is not worked out where the sole under the wing is not placed: nobody would see it cut', () => {
    const { plan, says } = planned(filmText({ ...tall, 'sole.wing': undefined }));
    expect(plan).toBeNull();
    expect(says).toBe('Place the sole below the wing on the film of 4 March 2026.');
  });

  it('is not worked out where the foot does not stand on its ground, as on a shoe that nobody has written', () => {
    const raised = { ground: 'ground 0, 1080 .. 2000, 1080' };
    for (const line of ['', '  shoe LF off\n', '  boots LF\n']) {
      const { plan, says } = planned(`${line}${filmText(tall, raised)}`);
      expect(plan).toBeNull();
      expect(says).toMatch(/its ground does not agree with the foot\. The foot does not stand on the ground line/);
    }
  });

  it.each([
    ['a donkey', 'animal donkey jenny'],
    ['a young horse', 'animal horse mare\n  foaled 2025-03'],
  ])('is not worked out for %s, unless the case has a lowest palmar angle', (_, animal) => {
    const { plan, says } = planned(filmText(tall), { animal });
    expect([plan, says]).toEqual([null, expect.stringContaining('no lowest palmar angle is known')]);
    const limits = '\nlimits\n  palmar-angle >= 3 deg because "agreed with the vet"\n';
    expect(planned(filmText(tall), { animal, limits }).plan).not.toBeNull();
  });

  it('names what is missing, and on which film', () => {
    const { says, lacking } = planned(filmText({ ...tall, 'heel.ground': undefined, 'toe.ground': undefined }));
    expect(says).toBe('Place the heel’s ground contact and the toe’s ground contact on the film of 4 March 2026.');
    expect(lacking?.landmarks).toEqual(['heel.ground', 'toe.ground']);
    expect(planned(filmText({ ...tall, 'sole.heel': undefined })).says).toBe(
      'Place the live sole beside the heel on the film of 4 March 2026.',
    );
    expect(planned(filmText(tall, { scale: null })).says).toBe(
      'The film of 4 March 2026 has no scale. Place the two ends of its marker.',
    );
  });

  it('says in the foot why nothing comes off', () => {
    expect(planned(filmText({ ...tall, 'sole.tip': [0, -5] })).says).toBe(
      'Nothing can come off the heel: the sole under the tip already stands 5.0 mm below the wall.',
    );
    // Heel 3 mm above the sole, known to 0.7 mm: the half millimetre is sure, so the goal is asked of a heel of 0.4 mm.
    expect(planned(filmText({ ...tall, 'sole.heel': [-104, 0.4] }), { goal: { kind: 'sole-plane' } }).says).toBe(
      'The heel is at the live sole plane already, within half a millimetre.',
    );
    expect(planned(filmText(tall), { goal: { kind: 'palmar-angle', angle: 12 } }).says).toBe(
      'The palmar angle is 12° or less already.',
    );
  });
});

describe('why nothing comes off', () => {
  it('says plainly where the live sole stands on the ground already', () => {
    const level: Places = { ...tall, 'sole.heel': [-104, 0] };
    expect(planned(filmText(level)).says).toMatch(
      /stands? (?:on the ground already|level with the live sole beside it)/,
    );
    expect(planned(filmText(level)).says).not.toContain('only 0.0 mm');
  });
});
