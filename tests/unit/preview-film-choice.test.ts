import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { currentSheet, filmKey, landmarkOn, sheetAt } from '../../src/preview/film-choice.ts';

const text = `hoof 1
case "Two films"
visit 2026-03-04
  film LF lateral "films/a.png"
    taken 2026-03-03
    read "first"
      p3.tip @ 10, 20
      p3.wing @ 30, 20
    read "second"
      p3.tip @ 11, 21
      p3.wing @ 31, 19
  weight 500 kg
visit 2026-04-01
  film RF lateral "films/b.png"
    p3.tip @ 10, 20
  plan LF
    heel down 5 mm
`;
const sheets = filmSheets(inspect(text));
const lineOf = (part: string, after = 0): number =>
  text.split('\n').findIndex((line, index) => index >= after && line.includes(part));
const named = (line: number): string | undefined => sheetAt(sheets, line)?.title;

describe('which film the page shows', () => {
  it('is the one that the cursor is in, and of two readings the one whose landmarks it is at', () => {
    expect(named(lineOf('p3.tip @ 10'))).toContain('first');
    expect(named(lineOf('p3.wing @ 31'))).toContain('second');
    expect(named(lineOf('film RF'))).toContain('Right fore');
  });

  it('is the last one above where the cursor is in none', () => {
    expect(named(0)).toBeUndefined();
    expect(named(lineOf('weight'))).toContain('Left fore');
  });

  it('is the film that a plan is predicted on, where the cursor is in the plan', () => {
    expect(named(lineOf('heel down'))).toContain('Left fore');
  });

  it('stays what was chosen while that film is there, and is never nothing while there is one', () => {
    const second = sheets.find(({ foot }) => foot === 'RF');
    if (!second) throw new Error('no film of the right fore');
    expect(currentSheet(sheets, filmKey(second), 4)).toBe(second);
    expect(currentSheet(sheets, 'gone', lineOf('film RF'))).toBe(second);
    // Without a cursor the newest film.
    expect(currentSheet(sheets, null, null)).toBe(second);
    expect(currentSheet([], null, 3)).toBeNull();
  });

  it('knows the landmark on a line', () => {
    const first = sheets[0];
    if (!first) throw new Error('no film');
    expect(landmarkOn(first, lineOf('p3.wing @ 30'))).toBe('p3.wing');
    expect(landmarkOn(first, lineOf('taken'))).toBeNull();
    expect(landmarkOn(first, null)).toBeNull();
  });
});
