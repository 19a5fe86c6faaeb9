import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { choiceAfterMove, cutKey, cutOn, laidCut, NO_CUT, pressedCut } from '../../src/preview/cut-choice.ts';
import { caseText, filmText } from './plain-foot.ts';

const plans = `${filmText()}

  plan LF
    heel down 4 mm
    leave toe sole

  plan LF
    heel down 2 mm

  trim LF
    heel down 2 mm

  trim LF
    leave sole
`;
const text = caseText(plans);
const read = (of: string) => {
  const [sheet] = filmSheets(inspect(of));
  if (!sheet) throw new Error('no film');
  return sheet;
};
const sheet = read(text);
const [first, second, trim, nothing] = sheet.cuts;
if (!first || !second || !trim || !nothing) throw new Error('not all cuts are on the sheet');
const key = (cut: typeof first): string => cutKey(sheet.cuts, cut);
const lineOf = (part: string): number => text.split('\n').findIndex((line) => line.includes(part));

describe('which cut is laid over the plate', () => {
  it('is the one that the cursor is in, from its first line to its last', () => {
    expect(laidCut(sheet, null, first.line)).toBe(first);
    expect(laidCut(sheet, null, lineOf('leave toe sole'))).toBe(first);
    expect(laidCut(sheet, null, second.line)).toBe(second);
    expect(laidCut(sheet, null, lineOf('p3.tip'))).toBeNull();
    expect(laidCut(sheet, null, null)).toBeNull();
  });

  it('is the one that was chosen, wherever the cursor stands', () => {
    expect(laidCut(sheet, key(second), first.line)).toBe(second);
    expect(laidCut(sheet, key(trim), null)).toBe(trim);
  });

  it('is none where it was taken off, and none where nothing of it can be drawn', () => {
    expect(laidCut(sheet, NO_CUT, first.line)).toBeNull();
    expect(laidCut(sheet, null, nothing.line)).toBeNull();
    expect(laidCut(sheet, key(nothing), null)).toBeNull();
  });

  it('follows the cursor where the chosen one is gone', () => {
    expect(laidCut(sheet, 'trim\n2020-01-01\n0', second.line)).toBe(second);
  });

  it('goes on and off at its button', () => {
    const pressed = pressedCut(sheet, null, null, key(first));
    expect(laidCut(sheet, pressed, null)).toBe(first);
    expect(pressedCut(sheet, pressed, null, key(first))).toBe(NO_CUT);
    expect(pressedCut(sheet, pressed, null, key(trim))).toBe(key(trim));
    expect(pressedCut(sheet, null, first.line, key(first))).toBe(NO_CUT);
    expect(pressedCut(sheet, NO_CUT, first.line, key(first))).toBe(key(first));
  });

  it('is the cursor’s again when that comes into another cut, and not before', () => {
    expect(choiceAfterMove(null, first, key(trim))).toBeNull();
    expect(choiceAfterMove(first, second, NO_CUT)).toBeNull();
    expect(choiceAfterMove(first, first, NO_CUT)).toBe(NO_CUT);
    expect(choiceAfterMove(first, null, key(trim))).toBe(key(trim));
    expect(cutOn(null, 3)).toBeNull();
  });

  it('is known by the same key after its text has changed', () => {
    const later = read(caseText(`\n\n${plans.replace('heel down 2 mm', 'heel down 3 mm')}`));
    expect(later.cuts.map((cut) => cutKey(later.cuts, cut))).toEqual(sheet.cuts.map(key));
    expect(new Set(sheet.cuts.map(key)).size).toBe(sheet.cuts.length);
  });
});
