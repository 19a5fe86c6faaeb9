import { describe, expect, it } from 'vitest';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import type { StoredScale } from '../../shared/measures/film-input.ts';
import { soundScale } from '../../shared/measures/sound-scale.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { measuredCase, measuredRows } from '../../shared/export/measured.ts';
import { reportPage } from '../../shared/report/page.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import { usualStudy, type StoredScales } from '../../shared/trim/study.ts';
import { caseText, filmText } from './plain-foot.ts';

/** What a number out of its range must not do: loosen a limit, be predicted with, reach a message or a page as no number. */

const codes = (findings: readonly Finding[]): string[] => findings.map(({ code }) => code);
const readWith = (text: string, scales?: StoredScales) => inspect(text, usualStudy, undefined, scales);

/** What is told but for the number itself, with where it stands. */
function toldBeside(text: string): unknown[] {
  return inspect(text).findings.flatMap((finding) => {
    const { code, message, at, value, limit } = finding;
    return code === 'notation/number-range' ? [] : [{ code, message, at, value, limit }];
  });
}

/** The line made a remark of the same length, so that everything else stands where it stood. */
const without = (text: string, line: string): string => text.replace(line, `#${line.slice(1)}`);

/** 4 mm of sole, and no lameness written: an error at any height. */
const thin = filmText({ 'sole.tip': [0, 12] });

describe('a height that was meant otherwise', () => {
  const thinCase = (height: string): string => caseText(thin, { animal: `animal horse mare\n  ${height}` });

  it.each(['height 148 cm', 'height 60 cm'])('loosens no limit of the sole, and nor does a real one: %s', (height) => {
    const [told] = inspect(thinCase(height)).findings.filter(({ code }) => code === 'range/sole-depth.tip');
    expect(told).toMatchObject({ severity: 'error', limit: 7 });
  });

  it.each(['14.8 cm', '-148 cm', '1480 cm', '148 mm', '0 cm', '1.48 in', '0.1 hh', '9'.repeat(25) + ' cm'])(
    'height %s counts as none, and is told',
    (height) => {
      const line = `height ${height}`;
      const text = thinCase(line);
      const { findings, study } = inspect(text);
      expect(study.animal.heightMm).toBeNull();
      expect(codes(findings).filter((code) => code === 'notation/number-range')).toHaveLength(1);
      expect(findings.find(({ code }) => code === 'range/sole-depth.tip')?.severity).toBe('error');
      expect(toldBeside(text)).toEqual(toldBeside(without(text, line)));
    },
  );

  it('calls no vet for a limit below nothing', () => {
    const text = caseText(filmText(), { animal: 'animal horse mare\n  height -148 cm' });
    expect(codes(inspect(text).findings)).toEqual(['notation/number-range']);
  });
});

describe('a cut that is none', () => {
  it.each(['heel down -5 mm', 'heel down -0 mm', 'heel down 80 mm', 'toe down -1 mm', 'toe back 6000 mm'])(
    '%s is not predicted with',
    (line) => {
      for (const kind of ['plan', 'trim']) {
        const text = caseText(`${filmText()}\n\n  ${kind} LF\n    ${line}\n    why "x"`);
        const { study, findings } = inspect(text);
        expect(codes(findings)).toContain('notation/number-range');
        expect(study.cuts[0]?.size).toEqual({ heelDown: 0, toeDown: 0, toeBack: 0 });
        expect(study.cuts[0]?.prediction?.delta).toBe(0);
        expect(toldBeside(text)).toEqual(toldBeside(without(text, line)));
      }
    },
  );
});

describe('a limit of the case', () => {
  it.each(['sole-depth.tip >= -1000 mm because "x"', 'sole-depth.tip >= -0.6 in because "x"'])('%s', (limit) => {
    const text = caseText(thin, { limits: `\nlimits\n  ${limit}\n` });
    const sole = inspect(text).findings.find(({ code }) => code === 'range/sole-depth.tip');
    // The second one is within what a length may be, and says why: it counts, and stays visible.
    if (limit.includes('1000')) expect(sole?.severity).toBe('error');
    else expect(codes(inspect(text).findings)).toContain('limits/loosened');
  });

  it('in the wrong unit by far loosens nothing', () => {
    const text = caseText(thin, { limits: '\nlimits\n  sole-depth.tip >= -99 cm because "x"\n' });
    expect(inspect(text).study.record.limits).toEqual([]);
    expect(inspect(text).findings.find(({ code }) => code === 'range/sole-depth.tip')?.severity).toBe('error');
  });
});

describe('what else is out of range counts for nothing', () => {
  it.each([
    'weight -5 kg',
    'girth 19 m',
    'insulin -3 uIU/mL',
    'glucose 5000 mmol/L',
    'next -4 weeks',
    'next 400 months',
    'condition 75',
  ])('in a visit: %s', (line) => {
    const text = caseText(`${filmText()}\n\n  ${line}\n  by "x"`);
    const { is } = inspect(text).study.record.visits[0] ?? {};
    expect([is?.weight, is?.girth, is?.insulin, is?.glucose, is?.next, is?.condition]).toEqual(Array(6).fill(null));
    expect(codes(inspect(text).findings)).toEqual([
      line.endsWith(' m') ? 'notation/wrong-unit' : 'notation/number-range',
    ]);
  });

  it.each(['2026-03-03', '2026-03-04', '2025-04-01', '2029-03-05', '2062-04-01'])(
    'a next visit on %s is none, as is one in -4 weeks',
    (date) => {
      const text = caseText(`${filmText()}\n\n  next ${date}\n  by "x"`);
      const { findings, study } = inspect(text);
      expect(study.record.visits[0]?.is.next).toBeNull();
      expect(codes(findings)).toEqual(['record/next-date']);
      expect(text.slice(findings[0]?.at.start, findings[0]?.at.end)).toBe(date);
    },
  );

  it.each(['2026-03-05', '2026-04-01', '2029-03-04'])('a next visit on %s is one', (date) => {
    const { findings, study } = inspect(caseText(`${filmText()}\n\n  next ${date}`));
    expect(study.record.visits[0]?.is.next).toMatchObject({ date });
    expect(findings).toEqual([]);
  });

  it('a visit in the year 26 has no date', () => {
    const text = caseText(filmText()).replace('visit 2026-03-04', 'visit 0026-03-04');
    expect(inspect(text).study.record.visits[0]?.is.date).toBeNull();
    expect(codes(inspect(text).findings)).toContain('notation/number-range');
  });

  it.each([
    ['scale 0 mm/px', 'notation/number-range'],
    ['scale -0.1 mm/px', 'notation/number-range'],
    ['scale 0.000001 mm/px', 'notation/number-range'],
    ['scale 99999 mm/px', 'notation/number-range'],
    ['scale 0 mm = 100, 100 .. 1100, 100', 'notation/number-range'],
    ['scale 100 mm = 100, 100 .. 100, 100', 'record/scale'],
    ['scale 100 mm = 100, 100 .. 100.0000001, 100', 'record/scale'],
    ['scale 100 mm = 1, 100 .. 99999, 100', 'record/scale'],
    [`scale 100 mm = 1, 100 .. 1${'0'.repeat(40)}, 100`, 'notation/number-range'],
  ])('%s is no scale', (scale, code) => {
    const { study, findings } = inspect(caseText(filmText({}, { scale })));
    expect(study.record.visits[0]?.is.films[0]?.scale).toBeNull();
    expect(study.films[0]?.readings[0]?.taking.scale).toBeNull();
    expect(study.films[0]?.readings[0]?.taking.values.has('sole-depth.tip')).toBe(false);
    expect(study.films[0]?.readings[0]?.taking.values.has('palmar-angle')).toBe(true);
    expect(codes(findings)).toEqual(expect.arrayContaining([code, 'frame/no-scale']));
  });

  it.each(['ground 1, 1 .. 1, 1', `ground 0, 1000 .. 1e9, 1000`, 'ground 0, 1000 .. 1000000000, 1000'])(
    '%s is no ground line',
    (ground) => {
      const { study } = inspect(caseText(filmText({}, { ground })));
      expect(study.record.visits[0]?.is.films[0]?.ground).toBeNull();
    },
  );

  it.each(['magnify 0', 'magnify 1000', 'magnify -1'])('%s', (line) => {
    const text = caseText(filmText({}, { more: [line] }));
    expect(inspect(text).study.films[0]?.readings[0]?.taking.scale).toBe(0.1);
    expect(codes(inspect(text).findings)).toEqual(['notation/number-range']);
  });

  it.each([
    ['1000000000', '1000000000'],
    ['300 nines', '9'.repeat(300)],
    ['0.00…1 of 300 zeros', `0.${'0'.repeat(300)}1`],
    ['-111….5', `-${'1'.repeat(100)}.5`],
  ])('a place at x = %s is not placed', (_name, x) => {
    const text = caseText(filmText().replace('p3.extensor @ 1630,', `p3.extensor @ ${x},`));
    const { findings, study } = inspect(text);
    expect(codes(findings)).toEqual(['notation/number-range']);
    expect(text.slice(findings[0]?.at.start, findings[0]?.at.end)).toBe(x);
    expect(study.films[0]?.readings[0]?.reading.placings.map(({ name }) => name)).not.toContain('p3.extensor');
  });
});

describe('a scale that the picture’s own file states', () => {
  const text = caseText(filmText({}, { scale: 'scale dicom' }));
  const stated = (mmPerPx: number): StoredScales => {
    const scale: StoredScale = { mmPerPx, words: 'as stored' };
    return () => scale;
  };

  it('is taken where it is one', () => {
    const { study, findings } = readWith(text, stated(0.1));
    expect(study.films[0]?.readings[0]?.taking.scale).toBe(0.1);
    expect(findings).toEqual([]);
  });

  it.each([0, -0, -0.1, 1e308, -1e308, Infinity, -Infinity, NaN, 1e-300, 5e-324, 1e9])(
    '%d is none, and says why',
    (mmPerPx) => {
      const inspection = readWith(text, stated(mmPerPx));
      const { study, findings } = inspection;
      const [reading] = study.films[0]?.readings ?? [];
      expect(reading?.taking.scale).toBeNull();
      expect(reading?.taking.values.has('sole-depth.tip')).toBe(false);
      expect(reading?.taking.values.get('palmar-angle')?.value).toBeCloseTo((Math.atan2(7, 80) * 180) / Math.PI, 9);
      expect(codes(findings)).toEqual(['frame/no-scale']);
      expect(findings[0]?.severity).toBe('warning');
      expect(findings[0]?.message).toMatch(/pixel of the picture would be (?:smaller|larger) than/);
      expectNumbers(inspection);
    },
  );

  it('stays the same object, so that what was measured with it is remembered', () => {
    const sound: StoredScale = { mmPerPx: 0.1, words: 'x' };
    const absurd: StoredScale = { mmPerPx: 1e308, words: 'x' };
    expect(soundScale(sound)).toBe(sound);
    expect(soundScale(absurd)).toBe(soundScale(absurd));
    expect('lack' in soundScale(absurd)).toBe(true);
  });
});

/** That nothing which a face is given or shows is no number. */
function expectNumbers(inspection: ReturnType<typeof inspect>, { drawn } = { drawn: true }): void {
  const shown: unknown[] = [
    inspection.findings,
    inspection.study.record,
    measuredCase('x.hoof', inspection),
    ...(drawn ? [measuredRows('x.hoof', inspection.study), filmSheets(inspection), visitSheets(inspection)] : []),
  ];
  const page = drawn ? reportPage([{ file: 'x.hoof', inspection, pictures: new Map() }], '2026-03-04') : '';
  const seen = new Set<unknown>();
  const bad: string[] = [];
  const look = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !Number.isFinite(value)) bad.push(`${path}: ${value}`);
    if (typeof value === 'string' && noNumber.test(value)) bad.push(`${path}: ${value}`);
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    for (const [key, inner] of value instanceof Map ? value : Object.entries(value))
      look(inner, `${path}.${String(key)}`);
  };
  look(shown, 'shown');
  if (noNumber.test(page)) bad.push('the page');
  expect(bad).toEqual([]);
}

const noNumber = /\bNaN\b|Infinity|\d{30}/;

describe('numbers of any length and size', () => {
  const whole = caseText(
    [
      filmText(
        {},
        { scale: 'scale 100 mm = 100, 100 .. 1100, 100', more: ['magnify 1.04', 'expect palmar-angle 5 deg +- 1 deg'] },
      ),
      '    read "A" +- 3',
      '      p3.tip @ 2000, 840 +- 2',
      '  tape LF',
      '    toe-length 76 mm',
      '  plan LF',
      '    heel down 2 mm',
      '    toe back 1 mm',
      '  weight 512 kg',
      '  condition 7',
      '  obel 2',
      '  insulin 38 uIU/mL',
      '  next 4 weeks',
    ].join('\n'),
    { animal: 'animal horse\n  height 148 cm\n  foaled 2013-05', limits: '\nlimits\n  sole-depth.tip >= 12 mm\n' },
  );
  const numbers = [...whole.matchAll(/(?<![\w.-])\d+(?:\.\d+)?(?![\w.-])/g)].map(({ 0: image, index }) => ({
    image,
    index,
  }));
  const odd = [
    '0',
    '-0',
    '-1',
    '1000000000',
    '0.0000001',
    `1${'0'.repeat(99)}`,
    '9'.repeat(400),
    `-${'9'.repeat(400)}`,
    `0.${'0'.repeat(399)}1`,
    '1e308',
    '1e-308',
    '1.5e999',
    '99999.99999999999999999',
  ];

  it('are in the text that is tried', () => {
    expect(inspect(whole).findings.filter(({ code }) => code.startsWith('notation/'))).toEqual([]);
    expect(numbers.length).toBeGreaterThan(60);
  });

  it.each(
    odd.map(
      (image, nth) => [image.length > 30 ? `${image.slice(0, 10)}… (${image.length})` : image, image, nth] as const,
    ),
  )(
    '%s in the place of each of them is told or taken, and never shown as no number',
    (_name, image, nth) => {
      for (const [place, { image: was, index }] of numbers.entries()) {
        const inspection = inspect(whole.slice(0, index) + image + whole.slice(index + was.length));
        // To draw a page takes longer than all else; each number is in one.
        expectNumbers(inspection, { drawn: place % odd.length === nth });
        for (const { message } of inspection.findings) expect(message.length).toBeLessThan(1000);
        for (const title of inspection.findings.flatMap(({ fixes }) => fixes.map((fix) => fix.title)))
          expect(title.length).toBeLessThan(200);
      }
    },
    60_000,
  );

  it('a 0 has no sign in the record', () => {
    const { study } = inspect(caseText('  film LF lateral "x.png"\n    p3.tip @ -0, -0.0'));
    const [placing] = study.films[0]?.readings[0]?.reading.placings ?? [];
    expect([placing?.x, placing?.y]).toEqual([0, 0]);
  });
});
