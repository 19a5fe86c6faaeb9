import { describe, expect, it } from 'vitest';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { openAlarms } from '../../shared/findings/open-alarms.ts';
import { Dice } from '../property/dice.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { courseText, type CourseVisit } from './course-text.ts';
import { stoodFlatter, sunk } from './moved-foot.ts';
import { filmText, soundFoot, type Places } from './plain-foot.ts';

/**
 * Cases as a vet, a farrier or an owner would write them down, and what must and must not be said of them. All invented.
 */

const found = (text: string): readonly Finding[] => inspect(text).findings;
const codesOf = (text: string, ...severities: Finding['severity'][]): string[] =>
  found(text)
    .filter(({ severity }) => severities.includes(severity))
    .map(({ code }) => code);
const callsOf = (text: string): string[] =>
  found(text)
    .filter(({ severity, message }) => severity !== 'hint' && /call the vet/i.test(message))
    .map(({ message }) => message);

const films = (steps: readonly Places[], more: Readonly<Record<number, readonly string[]>> = {}): string =>
  courseText(
    steps.map((places, index): CourseVisit => ({
      date: `2026-0${index + 1}-20`,
      places,
      film: { header: `film LF lateral "f${index}.png"` },
      more: more[index] ?? [],
    })),
  );

const sheet = (lines: string, animal = 'animal pony mare'): string => `hoof 1\n\ncase "X"\n  ${animal}\n\n${lines}\n`;

describe('a bone that creeps down', () => {
  const sound = ['  obel 0'];
  const text = films([0, 1.5, 3, 4.5, 6].map(sunk), Object.fromEntries([0, 1, 2, 3, 4].map((index) => [index, sound])));

  it('by 6 mm over five films is an error, though no step is', () => {
    const [call, ...others] = callsOf(text);
    expect(others).toEqual([]);
    expect(call).toMatch(
      /^Left fore: over the five films since 20 January 2026 the bone has gone down by 6\.\d ± \d\.\d mm in the capsule; no single step was more than the error\. Call the vet today\.$/,
    );
    expect(openAlarms(inspect(text).study)).toEqual([
      expect.objectContaining({ code: 'course/sinking', severity: 'error', date: '2026-05-20', message: call }),
    ]);
  });

  it('is seen by the vet, and then no alarm any more', () => {
    const seen = text.replace(/\n$/, '\n  vet seen 2026-05-21 "bar shoe, box rest"\n');
    expect(callsOf(seen)).toEqual([]);
    expect(openAlarms(inspect(seen).study)).toEqual([]);
    expect(found(seen).find(({ code }) => code === 'course/sinking')).toMatchObject({
      severity: 'hint',
      message: expect.stringContaining('Seen by the vet on 21 May 2026') as string,
    });
  });
});

describe('two good trims that take 9° off the heels', () => {
  it('do not call the vet: nothing moved in the capsule', () => {
    const trimmed = films([soundFoot, stoodFlatter(4.5), stoodFlatter(9)], {
      0: ['  obel 0'],
      1: ['  obel 0'],
      2: ['  obel 0'],
    });
    expect(callsOf(trimmed)).toEqual([]);
    expect(openAlarms(inspect(trimmed).study)).toEqual([]);
    expect(codesOf(trimmed, 'error', 'warning').filter((code) => code.startsWith('course/'))).toEqual([]);
    expect(found(trimmed).find(({ code }) => code === 'course/stands-flatter')?.message).toContain(
      'as the foot stands 9° flatter',
    );
  });
});

describe('an abscess', () => {
  const visits = (vet: string): string =>
    sheet(`visit 2024-01-10\n  sign discharge\n  ${vet}\n\nvisit 2026-05-01\n  obel 0\n  pulse LF RF normal`);

  it('that the vet has seen is past, with its date', () => {
    const text = visits('vet seen 2024-01-11 "opened and poulticed"');
    expect(found(text).map(({ severity, message }) => `${severity}: ${message}`)).toEqual([
      'hint: Signs on 10 January 2024: discharge. Seen by the vet on 11 January 2024.',
    ]);
    expect(openAlarms(inspect(text).study)).toEqual([]);
  });

  it.each(['vet "no answer on the telephone"', 'vet "agrees to lower the heels"', 'vet seen 2024-01-09 "vaccination"'])(
    'stays open after %s',
    (line) => {
      const [call, ...others] = callsOf(visits(line));
      expect(others).toEqual([]);
      expect(call).toMatch(/^Call the vet now: discharge, seen on 10 January 2024\./);
      expect(openAlarms(inspect(visits(line)).study)).toHaveLength(1);
    },
  );

  it('that comes again is judged anew', () => {
    const again = visits('vet seen 2024-01-11 "opened"').replace('  obel 0', '  sign discharge\n  obel 1');
    expect(callsOf(again)).toHaveLength(1);
    expect(openAlarms(inspect(again).study)).toEqual([expect.objectContaining({ date: '2026-05-01' })]);
  });
});

describe('the gravest animal', () => {
  const gravest = (more = ''): string =>
    sheet(`visit 2026-03-04\n  obel 4\n  pulse LF RF LH RH bounding\n  insulin 312 uIU/mL\n${more}  next 10 weeks`);

  it('calls the vet, and its insulin is told with the published figures, and as no diagnosis', () => {
    expect(found(gravest()).map(({ severity, code }) => `${severity} ${code}`)).toEqual([
      'error visit/call-the-vet',
      'info visit/insulin',
    ]);
    const [call, insulin] = found(gravest());
    expect(call?.message).toBe(
      'Call the vet today: Obel grade 4, bounding pulses left fore, right fore, left hind and right hind, seen on 4 March 2026. No visit of the vet since then is written. Do not trim before. When the vet has been, write: vet seen DATE.',
    );
    // Knowles and others, Equine Vet J 2022, doi 10.1111/evj.13572, abstract: 374 ponies, 6, 22 and 69 % in four years.
    for (const figure of [
      '374 ponies',
      '6 % of those under 21.6',
      '22 % of those from 21.6 to 45.2',
      '69 % of those over 45.2',
    ])
      expect(insulin?.message).toContain(figure);
    expect(insulin?.message).toContain('no diagnosis');
    expect(insulin?.message).not.toMatch(/call the vet|has insulin dysregulation|EMS|PPID/i);
  });

  it('calls until the vet has seen it, or it is clearly better', () => {
    expect(callsOf(gravest('  vet seen 2026-03-04 "cold, pain relief"\n'))).toEqual([]);
    expect(callsOf(gravest('  vet "on the way"\n'))).toHaveLength(1);
    expect(callsOf(`${gravest()}\nvisit 2026-03-20\n  obel 2\n`)).toHaveLength(1);
    expect(callsOf(`${gravest()}\nvisit 2026-03-20\n  obel 1\n`)).toEqual([]);
  });

  it('that is graded beyond the scale calls too', () => {
    expect(callsOf(sheet('visit 2026-03-04\n  obel 5'))).toEqual([
      'Call the vet today: Obel grade 5 (as written; the grades are 0 to 4), seen on 4 March 2026. No visit of the vet since then is written. Do not trim before. When the vet has been, write: vet seen DATE.',
    ]);
  });
});

describe('insulin', () => {
  it('is told once, of the newest value, at its line', () => {
    const text = sheet('visit 2025-03-04\n  insulin 90 uIU/mL\n\nvisit 2026-03-04\n  insulin 18 uIU/mL');
    const told = found(text).filter(({ code }) => code === 'visit/insulin');
    expect(told).toHaveLength(1);
    expect(text.slice(told[0]?.at.start, told[0]?.at.end)).toBe('18 uIU/mL');
    expect(told[0]?.message).toMatch(/^Insulin 18 µIU\/mL, for the vet to judge\./);
  });

  it('in pmol/L says how it was converted, and that laboratories differ', () => {
    const [told] = found(sheet('visit 2026-03-04\n  insulin 275 pmol/L'));
    // 275 / 6 and 275 / 6.945.
    expect(told?.message).toMatch(
      /^Insulin 275 pmol\/L, which is 45\.8 µIU\/mL at 6 pmol\/L to 1 µIU\/mL \(39\.6 where the laboratory takes 6\.945\)/,
    );
    expect(told?.value).toBeCloseTo(45.83, 2);
  });
});

describe('sound feet', () => {
  /** Ten sound horses had 8.6 ± 3.3 mm after a trim (Iran J Vet Surg, article 79374, abstract). */
  it('of which two thirds have a sole under 10 mm are not in error, nor in alarm', () => {
    const dice = new Dice(7);
    let thin = 0;
    let errors = 0;
    let warnings = 0;
    const count = 200;
    for (let index = 0; index < count; index++) {
      const normal = Math.sqrt(-2 * Math.log(1 - dice.uniform())) * Math.cos(2 * Math.PI * dice.uniform());
      const depth = Math.min(20, Math.max(2, 8.6 + 3.3 * normal));
      if (depth < 10) thin += 1;
      const text = films([{ 'sole.tip': [0, 16 - depth] }], { 0: ['  obel 0'] });
      const severities = found(text).flatMap(({ code, severity }) => (code === 'range/sole-depth.tip' ? severity : []));
      if (severities.includes('error')) errors += 1;
      if (severities.includes('warning')) warnings += 1;
      expect(openAlarms(inspect(text).study), `${depth} mm`).toEqual([]);
    }
    expect(thin / count).toBeGreaterThan(0.6);
    expect(errors).toBe(0);
    expect(warnings / count).toBeLessThan(1 / 3);
  });

  it('say nothing to act on', () => {
    expect(codesOf(films([soundFoot, soundFoot, soundFoot]), 'error', 'warning')).toEqual([]);
  });
});

describe('a thin sole', () => {
  it('under 7 mm in a lame animal is an open alarm, and none where somebody lives with it', () => {
    const text = films([{ 'sole.tip': [0, 12] }], { 0: ['  obel 2'] });
    expect(openAlarms(inspect(text).study).map(({ code }) => code)).toEqual(['range/sole-depth.tip']);
    const lived = text.replace('  obel 2', '  obel 2\n  accept range/sole-depth.tip because "in a cast"');
    expect(openAlarms(inspect(lived).study)).toEqual([]);
  });

  it('in a sound animal is none', () => {
    expect(openAlarms(inspect(films([{ 'sole.tip': [0, 12] }], { 0: ['  obel 0'] })).study)).toEqual([]);
  });
});

describe('a pony with four visits and both fore feet filmed', () => {
  /** Laminitic: the bone rotated, wall and bone apart, heels long, sole thin; on the mend from visit to visit. */
  const pony = (): string => {
    const foot = (name: string, step: number): string =>
      filmText(
        {
          'p3.wing': [-80, 36 - step],
          'p3.dorsal.upper': [-22, 56 - step * 0.3],
          'wall.lower': [22 - step, 17],
          'wall.upper': [-8, 54],
          'sole.tip': [0, 6 - step],
        },
        { header: `film ${name} lateral "${name}${step}.png"` },
      );
    const visits = [0, 1, 2, 3].map(
      (step) =>
        `visit 2026-0${step + 1}-20\n  obel ${step < 2 ? 1 : 0}\n${foot('LF', step)}\n\n${foot('RF', step)}\n\n  next 4 weeks`,
    );
    return sheet(visits.join('\n\n'), 'animal pony mare\n  height 128 cm\n  foaled 2014-05');
  };

  it('is not buried in lines: what counts today is at most four findings a foot, the rest is past', () => {
    const all = found(pony());
    const today = all.filter(({ severity }) => severity !== 'hint');
    expect(today.length).toBeLessThanOrEqual(8);
    expect(today.length).toBeGreaterThan(0);
    expect(all.length).toBeLessThan(45);
    for (const [message, times] of countsOf(all.map(({ at, code }) => `${at.start} ${code}`)))
      expect(times, message).toBe(1);
  });
});

function countsOf(words: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return counts;
}

describe('no setting', () => {
  it('takes an alarm away', () => {
    const text = films([0, 6].map(sunk), { 1: ['  sign fever'] });
    const quiet = inspect(text, {
      ...usualStudy,
      levels: new Map([
        ['course/sinking', 'info'],
        ['visit/call-the-vet', 'info'],
      ]),
    });
    expect(openAlarms(quiet.study).map(({ code, severity }) => `${severity} ${code}`)).toEqual([
      'error course/sinking',
      'error visit/call-the-vet',
    ]);
  });
});
