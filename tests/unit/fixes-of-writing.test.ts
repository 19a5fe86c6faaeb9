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
