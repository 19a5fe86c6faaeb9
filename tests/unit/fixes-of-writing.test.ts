import { describe, expect, it } from 'vitest';
import { findingsOf } from './marked-text.ts';

/** The texts that each fix of the one finding leads to. */
function mended(text: string, code: string): string[] {
  const found = findingsOf(text).filter((finding) => finding.code === code);
  expect(found).toHaveLength(1);
  return (found[0]?.fixes ?? []).map(({ edits }) =>
    edits
      .toSorted((a, b) => b.start - a.start)
      .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text),
  );
}

const visit = (line: string): string => `hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  ${line}\n`;
const film = (line: string): string => visit(`film LF lateral "x.png"\n    ${line}`);
const sheet = (line: string): string => `hoof 1\n\ncase "X"\n  ${line}\n`;

describe('a slip of writing', () => {
  it.each([
    [
      'a fraction in x or in y',
      film('p3.tip @ 1382,5, 1201'),
      'notation/decimal-comma',
      [film('p3.tip @ 1382.5, 1201'), film('p3.tip @ 1382, 5.1201')],
    ],
    [
      'fractions in both',
      film('p3.tip @ 1382,5, 1201,25 +- 3'),
      'notation/decimal-comma',
      [film('p3.tip @ 1382.5, 1201.25 +- 3')],
    ],
    ['one fraction that is written rightly', film('p3.tip @ 1382, 5.5, 3'), 'notation/decimal-comma', []],
    [
      'a date with slashes, which is one of two',
      visit('next 3/4/2026'),
      'notation/date-form',
      [visit('next 2026-04-03'), visit('next 2026-03-04')],
    ],
    [
      'a date with slashes that can be only one',
      visit('next 25/4/2026'),
      'notation/date-form',
      [visit('next 2026-04-25')],
    ],
    [
      'a date with slashes that is the same both ways',
      visit('next 4/4/2026'),
      'notation/date-form',
      [visit('next 2026-04-04')],
    ],
    ['a date with points, day first', visit('next 3.4.2026'), 'notation/date-form', [visit('next 2026-04-03')]],
    ['a date that is none either way', visit('next 31/31/2026'), 'notation/date-form', []],
    ['a date in one piece', film('taken 20260304'), 'notation/date-form', [film('taken 2026-03-04')]],
    ['a number that is no date', film('taken 20261304'), 'notation/date-form', []],
    [
      'a chip number in groups',
      sheet('microchip 985 000 000 000 001'),
      'notation/code-form',
      [sheet('microchip 985000000000001')],
    ],
    ['a life number in groups', sheet('ueln 250001 00155928M'), 'notation/code-form', [sheet('ueln 25000100155928M')]],
    ['a chip number that is too short', sheet('microchip 985 000'), 'notation/code-form', []],
    ['a spread below 0', film('p3.tip @ 1, 2 +- -3'), 'notation/number-range', [film('p3.tip @ 1, 2 +- 3')]],
    [
      'a height with its point one place off',
      sheet('height 14.8 cm'),
      'notation/number-range',
      [sheet('height 148 cm')],
    ],
    ['a height with a digit too many', sheet('height 1480 cm'), 'notation/number-range', [sheet('height 1480 mm')]],
    ['a height in another unit', sheet('height 148 mm'), 'notation/number-range', [sheet('height 148 cm')]],
    ['a height in metres', sheet('height 148 m'), 'notation/wrong-unit', [sheet('height 148 cm')]],
    [
      'a height in metres, as people are measured',
      sheet('height 1.48 m'),
      'notation/wrong-unit',
      [sheet('height 148 cm')],
    ],
    ['a height that two slips explain', sheet('height 14.2 cm'), 'notation/number-range', []],
    ['a height in hands', sheet('height 14.2'), 'notation/missing-unit', [sheet('height 14.2 hh')]],
    ['a height with a sign', sheet('height -148 cm'), 'notation/number-range', [sheet('height 148 cm')]],
    ['a weight with a digit too many', visit('weight 5120 kg'), 'notation/number-range', [visit('weight 512 kg')]],
    ['a weight below 0 that is none without its sign either', visit('weight -5 kg'), 'notation/number-range', []],
    ['a weight in pounds that says kg', visit('weight 2000 kg'), 'notation/number-range', []],
    ['a time with a sign', visit('next -4 weeks'), 'notation/number-range', [visit('next 4 weeks')]],
    ['a score without its point', visit('condition 65'), 'notation/number-range', [visit('condition 6.5')]],
    ['a girth in another unit', visit('girth 190 mm'), 'notation/number-range', [visit('girth 190 cm')]],
    [
      'a marker in another unit',
      film('scale 4000 mm = 1, 1 .. 1001, 1'),
      'notation/number-range',
      [film('scale 400 mm = 1, 1 .. 1001, 1')],
    ],
    [
      'a pixel with its point one place off',
      film('scale 9.8 mm/px'),
      'notation/number-range',
      [film('scale 0.98 mm/px')],
    ],
    [
      'a cut with a sign',
      visit('plan LF\n    heel down -5 mm'),
      'notation/number-range',
      [visit('plan LF\n    heel down 5 mm')],
    ],
    [
      'nothing with a sign',
      visit('plan LF\n    heel down -0 mm'),
      'notation/number-range',
      [visit('plan LF\n    heel down 0 mm')],
    ],
    [
      'a cut with a digit too many',
      visit('plan LF\n    heel down 80 mm'),
      'notation/number-range',
      [visit('plan LF\n    heel down 8 mm')],
    ],
    [
      'a cut that is small',
      visit('plan LF\n    heel down 0.8 mm\n    heel down 1 mm'),
      'record/duplicate-word',
      [visit('plan LF\n    heel down 0.8 mm')],
    ],
    [
      'a length by hand with a sign',
      visit('tape LF\n    toe-length -92 mm'),
      'notation/number-range',
      [visit('tape LF\n    toe-length 92 mm')],
    ],
    [
      'a limit in another unit',
      'hoof 1\nlimits\n  sole-depth.tip >= 120 cm\n',
      'notation/number-range',
      ['hoof 1\nlimits\n  sole-depth.tip >= 120 mm\n'],
    ],
    ['a number without end', visit(`weight ${'9'.repeat(400)} kg`), 'notation/number-range', []],
    ['a second version line', `${sheet('breed "cob"')}hoof 1\n`, 'record/duplicate-word', [sheet('breed "cob"')]],
    [
      'a sentence that begins with a direction',
      visit('trim LF\n    heel 8 mm'),
      'notation/unexpected',
      [visit('trim LF\n    heel down 8 mm')],
    ],
  ])('%s', (_, text, code, expected) => {
    expect(mended(text, code)).toEqual(expected);
  });
});

describe('a unit that does not fit', () => {
  it.each([
    ['0.0000001 mm', '0.0000001 deg'],
    ['0.00000015', '0.00000015 deg'],
    ['9.50 mm', '9.5 deg'],
  ])('%s becomes %s, without an exponent', (wrong, right) => {
    const text = film(`expect palmar-angle ${wrong}`);
    const code = wrong.endsWith('mm') ? 'measure/unit' : 'notation/missing-unit';
    const [first = ''] = mended(text, code);
    expect(first).toBe(film(`expect palmar-angle ${right}`));
    expect(findingsOf(first).map((finding) => finding.code)).not.toContain('notation/missing-unit');
  });
});
