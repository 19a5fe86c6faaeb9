import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { caseText, filmText } from './plain-foot.ts';

const sheet = (...visits: string[]): string => `hoof 1\n\ncase "X"\n  animal horse mare\n\n${visits.join('\n\n')}\n`;
const told = (text: string, code: string) => inspect(text).findings.filter((one) => one.code === code);
const call = (...visits: string[]) => told(sheet(...visits), 'visit/call-the-vet');

/** The grades are those of the AAEP scale: 4 is plain at the walk, 5 hardly bears weight. What they count as is a judgement of ours. */
describe('lameness over ground', () => {
  it('of 5 calls the vet, until a line says that the vet has seen the animal', () => {
    const five = 'visit 2026-03-04\n  lameness LF 5';
    expect(call(five)).toMatchObject([{ severity: 'error' }]);
    expect(call(five)[0]?.message).toMatch(/^Call the vet today: lameness 5 of 5 over ground, seen on 4 March 2026\./);
    expect(call(`${five}\n  vet seen 2026-03-04`)).toMatchObject([{ severity: 'hint' }]);
    // A later grade over ground alone closes nothing: it is no grade of Obel.
    expect(call(five, 'visit 2026-03-20\n  lameness LF 1')).toMatchObject([{ severity: 'error' }]);
    expect(call(five, 'visit 2026-03-20\n  obel 1')).toMatchObject([{ severity: 'hint' }]);
    expect(call(five, 'visit 2026-03-20\n  obel 1\n  lameness RF 4')).toMatchObject([{ severity: 'error' }]);
  });

  it('of 4 calls with bounding pulses in two feet, as Obel 2 does; less does not', () => {
    expect(call('visit 2026-03-04\n  lameness LF 4\n  pulse LF RF bounding')).toHaveLength(1);
    expect(call('visit 2026-03-04\n  lameness LF 4')).toEqual([]);
    expect(call('visit 2026-03-04\n  lameness LF 3.5\n  pulse LF RF bounding')).toEqual([]);
  });

  it('counts where it is graver than the Obel grade beside it', () => {
    expect(call('visit 2026-03-04\n  obel 1\n  lameness LF 2\n  lameness RF 5')).toHaveLength(1);
    expect(call('visit 2026-03-04\n  obel 4\n  lameness LF 5')[0]?.message).toContain('Obel grade 4');
  });

  it('wants a line of the vet beside a plan', () => {
    const [found] = told(sheet('visit 2026-03-04\n  lameness LF 5\n  plan LF\n    heel down 3 mm'), 'trim/no-vet');
    expect(found?.message).toContain('The lameness is 5 of 5 over ground and no vet line');
  });
});

/** The score goes from 0 to 12 (Meier 2019). From where on it is told as a warning is a judgement of ours. */
describe('a modified Obel score alone', () => {
  const alone = (...visits: string[]) => told(sheet(...visits), 'visit/score-alone').map(({ severity }) => severity);
  const meier = (score: number) => `visit 2026-03-04\n  meier ${score}`;

  it('asks for the Obel grade at its line, as a warning from a third of the score on', () => {
    expect(alone(meier(0))).toEqual([]);
    expect(alone(meier(1))).toEqual(['info']);
    expect(alone(meier(3))).toEqual(['info']);
    expect(alone(meier(4))).toEqual(['warning']);
    expect(told(sheet(meier(11)), 'visit/score-alone')[0]?.message).toMatch(
      /^A modified Obel score of 11 is no Obel grade, .* Write it too: obel and 0, 1, 2, 3 or 4\. .*tell the vet\.$/,
    );
  });

  it('is answered by a grade at its visit or after it, not by one before', () => {
    expect(alone(`${meier(11)}\n  obel 3`)).toEqual([]);
    expect(alone(`${meier(11)}\n  lameness LF 4`)).toEqual([]);
    expect(alone(meier(11), 'visit 2026-03-20\n  obel 1')).toEqual([]);
    expect(alone('visit 2026-02-01\n  obel 0', meier(11))).toEqual(['warning']);
    expect(alone(meier(11), 'visit 2026-03-20\n  meier 0')).toEqual([]);
  });
});

describe('a thin sole', () => {
  const sole = (line: string) =>
    told(
      caseText(filmText({ 'sole.tip': [0, 12] })).replace(/(visit .*\n)/, `$1  ${line}\n`),
      'range/sole-depth.tip',
    )[0];

  it('is an error where the animal is plainly lame over ground, and none where it is hardly', () => {
    expect(sole('lameness LF 4')).toMatchObject({ severity: 'error' });
    expect(sole('lameness LF 4')?.message).toContain('The animal is lame (4 of 5 over ground).');
    expect(sole('lameness LF 1')).toMatchObject({ severity: 'warning' });
    expect(sole('lameness LF 1')?.message).not.toContain('No lameness is written');
  });

  it('does not say that no lameness is written where another score is', () => {
    expect(sole('meier 5')).toMatchObject({ severity: 'error' });
    expect(sole('meier 5')?.message).toContain('Its lameness is written by another score: write its Obel grade too.');
    // Sound before, and a score since: it is not known to be sound now.
    expect(sole('obel 0\n\nvisit 2026-03-04\n  meier 5')).toMatchObject({ severity: 'error' });
  });
});
