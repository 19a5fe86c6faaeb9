import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';

/** A slip silences no call to the vet: what is grave in a line that is not understood calls all the same. */

const before = 'hoof 1\n\ncase "T"\n  animal horse gelding\n';
const at = (lines: string): string => `${before}\nvisit 2026-03-04\n${lines}\n`;
const calls = (text: string) => inspect(text).findings.filter(({ code }) => code === 'visit/call-the-vet');
const visit = (lines: string) => inspect(at(lines)).study.record.visits[0]?.is;

describe('a grade in a line that is not understood calls', () => {
  it.each([
    'Obel 4',
    'obel: 4',
    'obel=4',
    'obel2 4',
    'obel four',
    'oble 4',
    'obell 4',
    'obel4',
    'obel-4',
    'obel grade 4',
    'Obel-grade: IV',
    'grade 4',
    'today obel 4',
    'lamness LF 5',
    'Lameness: 5',
    'lameness LF five',
    'lameness LF 5/5',
    'lame LF 5',
  ])('%s', (line) => {
    expect(calls(at(`  ${line}`))).toMatchObject([{ severity: 'error' }]);
    // Wherever it stands.
    expect(calls(at(`  film LF lateral "a.png"\n    p3.tip @ 1, 2\n  ${line}`))).toHaveLength(1);
    expect(calls(at(`  plan LF\n    heel down 2 mm\n  ${line}`))).toHaveLength(1);
  });

  it('in a tape too, where it is read as a measure', () => {
    expect(calls(at('  tape LF\n    toe-length 80 mm\n    obl 4'))).toHaveLength(1);
  });

  it.each(['obel 0.5', 'Obel 1', 'lamness LF 2', 'lameness 2 of 5 LF', '| obel 4', '# obel 4', 'owner "obel 4"'])(
    'not where it says little, or is prose: %s',
    (line) => {
      expect(calls(at(`  ${line}`))).toEqual([]);
    },
  );

  it.each(['maier 11', 'Meier: 11', 'meier 13', 'meier 11/12'])('a score is asked about: %s', (line) => {
    const found = inspect(at(`  ${line}`)).findings.filter(({ code }) => code === 'visit/score-alone');
    expect(found).toMatchObject([{ severity: 'warning' }]);
  });
});

describe('a bounding pulse in a line that is not understood counts', () => {
  it.each([
    'pulse LF RF boundign',
    'puls LF RF bounding',
    'Pulse: LF RF bounding',
    'pulse lf rf bounding',
    'pulse fores bounding',
    'pulse bounding',
    'bounding pulses LF RF',
    'pulse LF RF strong',
    'pulse LFR F bounding',
    'pulseLF RF bounding',
    'pulse LF RFbounding',
    'pulse LF LR boundign',
  ])('%s', (line) => {
    const [call] = calls(at(`  obel 2\n  ${line}`));
    expect(call?.message).toContain('as it is read out of a line that is not understood');
  });

  it('is of no foot that is named where none is', () => {
    expect(calls(at('  obel 2\n  pulse bounding'))[0]?.message).toContain(
      'bounding pulses, of which feet cannot be read',
    );
  });

  it.each(['puls LF RF normal', 'puls LF bounding', 'puls LF RF not bounding'])(
    'and no more than it says: %s',
    (line) => {
      expect(calls(at(`  obel 2\n  ${line}`))).toEqual([]);
    },
  );
});

describe('a sign in a line that is not understood calls', () => {
  it.each([
    ['sings fever', 'fever'],
    ['Sign fever', 'fever'],
    ['sign: fever', 'fever'],
    ['sign fever, recumbent', 'fever recumbent'],
    ['signfever', 'fever'],
    ['sign-fever', 'fever'],
    ['sgn "fever"', 'fever'],
    ['fever', 'fever'],
    ['Recumbent', 'recumbent'],
    ['discharge LF', 'discharge'],
    ['coronet-gap LF', 'coronet-gap'],
    ['sign fever no discharge', 'fever'],
    ['sigh colic', 'colic'],
    ['obel 1 sign fever', 'fever'],
    ['signs fevr', 'fever'],
    ['signcoronet-gap', 'coronet-gap'],
    ['signxrefuses-to-move', 'refuses-to-move'],
    ['sien recumbent', 'recumbent'],
  ])('%s', (line, signs) => {
    expect(
      visit(`  ${line}`)
        ?.signs.map(({ word }) => word)
        .join(' '),
    ).toBe(signs);
    expect(calls(at(`  ${line}`))).toHaveLength(1);
  });

  it.each([
    'sign none',
    'sign no fever',
    'sign None',
    'signs: none',
    'no signs',
    'no fever',
    'fever: none',
    'signs no fever or discharge',
  ])('not where it says that there is none, and then it says how to write it: %s', (line) => {
    const { findings } = inspect(at(`  ${line}`));
    expect(calls(at(`  ${line}`))).toEqual([]);
    expect(findings.filter(({ severity, code }) => severity === 'error' && code.startsWith('notation/'))).toHaveLength(
      1,
    );
  });

  it.each(['sign none', 'no signs'])('which removes the line, or makes it prose: %s', (line) => {
    const [problem] = inspect(at(`  ${line}`)).findings.filter(({ code }) => code.startsWith('notation/'));
    expect(problem?.message).toMatch(/none/);
    expect(problem?.fixes?.map(({ title }) => title)).toEqual(['Remove this line', 'Make it a line of prose']);
  });

  it('is nothing that is only spelt alike', () => {
    expect(calls(at('  signed "T. B."'))).toEqual([]);
  });
});

describe('what is grave outside every visit calls', () => {
  it.each(['obel 4', 'sign fever', 'lameness LF 5', 'Obel: 4'])('%s', (line) => {
    for (const text of [`hoof 1\n${line}\n`, `${before}  ${line}\n`, `${before}  ${line}\n\nvisit 2026-03-04\n`]) {
      const [call, ...others] = calls(text);
      expect(others).toEqual([]);
      expect(call?.message).toContain('in a part of the file that is no visit');
      expect(text.slice(call?.at.start, call?.at.end)).toMatch(/4|fever|LF 5/);
    }
  });

  it('until a line below says that the vet has seen the animal', () => {
    expect(calls(`${before}  sign fever\n\nvisit 2026-03-04\n  vet seen 2026-03-04\n`)).toMatchObject([
      { severity: 'hint' },
    ]);
  });
});

describe('a sound grade beside a grave one of another scale', () => {
  const alone = (lines: string) => inspect(at(lines)).findings.filter(({ code }) => code === 'visit/score-alone');

  it('does not answer it, and the two are told once', () => {
    for (const lines of [
      '  obel 0\n  meier 11',
      '  meier 11\n  obel 0',
      '  obel 1\n  meier 11',
      '  lameness 0\n  meier 11',
    ]) {
      expect(alone(lines)).toMatchObject([{ severity: 'warning' }]);
      expect(alone(lines)[0]?.message).toContain('do not agree');
    }
    for (const lines of ['  obel 0\n  meier 2', '  obel 1\n  meier 5', '  obel 2\n  meier 11'])
      expect(alone(lines)).toEqual([]);
  });

  it('of lameness over ground is told once too, and the graver calls', () => {
    const told = (lines: string) => inspect(at(lines)).findings.filter(({ code }) => code === 'record/contradiction');
    for (const lines of ['  obel 0\n  lameness LF 5', '  lameness LF 5\n  obel 0', '  obel 3\n  lameness 0']) {
      expect(told(lines)).toHaveLength(1);
      expect(calls(at(lines))).toHaveLength(1);
    }
    expect(told('  lameness LF 5\n  obel 0')[0]?.message).toBe(
      '«lameness LF 5» and «obel 0» do not agree. Keep the one that is right; until then the graver counts.',
    );
    for (const lines of ['  obel 0\n  lameness LF 2', '  obel 3\n  lameness LF 0', '  obel 1\n  lameness LF 5'])
      expect(told(lines)).toEqual([]);
  });

  it('makes nobody better', () => {
    const later = (lines: string): string => `${at('  obel 4')}\nvisit 2026-03-20\n${lines}\n`;
    expect(calls(later('  obel 0'))).toMatchObject([{ severity: 'hint' }]);
    expect(calls(later('  obel 0\n  meier 11'))).toMatchObject([{ severity: 'error' }]);
    expect(calls(later('  Obel 0'))).toMatchObject([{ severity: 'error' }]);
  });
});
