import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { format } from '../../shared/notation/format.ts';
import { parse } from '../../shared/notation/parse.ts';
import { findUnit, units } from '../../shared/notation/units.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseAnimal } from '../../shared/trim/case-animal.ts';

const inCase = (line: string): string => `hoof 1\n\ncase "X"\n  ${line}\n`;
const inVisit = (line: string): string => `hoof 1\n\nvisit 2026-03-04\n  ${line}\n`;
const problems = (text: string) => assemble(parse(text)).problems;
const visitOf = (line: string) => {
  const { record, problems: told } = assemble(parse(inVisit(line)));
  expect(told.map(({ message }) => message)).toEqual([]);
  return record.visits[0]?.is;
};
/** The last line as the formatter lays it out, its words parted by one blank. */
const laidOut = (text: string): string => format(text).trimEnd().split('\n').at(-1)?.trim().replace(/ +/g, ' ') ?? '';
/** The text after the first fix of its first problem. */
const fixed = (text: string): string => {
  const [edit] = problems(text)[0]?.fixes[0]?.edits ?? [];
  if (!edit) throw new Error('no fix');
  return text.slice(0, edit.start) + edit.text + text.slice(edit.end);
};

describe('a year alone', () => {
  it('is a date of birth, and stays as written', () => {
    const text = inCase('foaled 2015');
    expect(problems(text)).toEqual([]);
    expect(assemble(parse(text)).record.animal?.is.foaled).toBe('2015');
    expect(laidOut(text)).toBe('foaled 2015');
    expect(assemble(parse(inCase('onset 2025 "short on stones"'))).record.animal?.is.onset).toEqual({
      date: '2025',
      text: 'short on stones',
    });
  });

  it.each([
    ['2024', '2025-12-31'],
    ['2024-03', '2026-03-31'],
    ['2024-02', '2026-03-01'],
    ['2024-03-04', '2026-03-04'],
  ])('foaled %s counts from the last day that it may have been', (foaled, grown) => {
    const { grownFrom } = caseAnimal(assemble(parse(inCase(`foaled ${foaled}`))).record);
    // 24 months after the last day: of 2024 alone the 31st of December 2024.
    const expected = foaled === '2024' ? dayNumber('2026-12-31') : dayNumber(grown);
    expect(grownFrom).toBe(expected);
  });

  it('a film of that year is not from before the birth; one of the year before is', () => {
    const told = (day: string): boolean =>
      inspect(`${inCase('foaled 2024')}\nvisit ${day}\n  film LF lateral "a.png"\n`).findings.some(
        ({ code }) => code === 'picture/before-birth',
      );
    expect([told('2024-01-01'), told('2024-12-31'), told('2023-12-31')]).toEqual([false, false, true]);
  });

  it.each([
    ['foaled 1815', 'A year here goes from 1900 to 2199'],
    ['foaled 15', 'Write the year'],
    ['foaled 2015 kg', 'Write the year'],
  ])('%s is none', (line, says) => {
    expect(problems(inCase(line))[0]?.message).toContain(says);
  });

  it('is no day of a visit', () => {
    expect(problems('hoof 1\nvisit 2015\n')[0]?.message).toContain('Write the date');
  });
});

describe('spellings of units', () => {
  it.each([
    ['insulin 45 mu/l', 'insulin 45 mU/L'],
    ['insulin 45 uU/ml', 'insulin 45 uIU/mL'],
    ['insulin 45 μIU/mL', 'insulin 45 uIU/mL'],
    ['glucose 5.2 mmol/l', 'glucose 5.2 mmol/L'],
    ['acth 24 PG/ML', 'acth 24 pg/mL'],
    ['weight 512 kgs', 'weight 512 kg'],
    ['weight 512 Kg', 'weight 512 kg'],
    ['weight 1100 lbs', 'weight 1100 lb'],
    ['girth 72 inches', 'girth 72 in'],
    ['next 6 wks', 'next 6 weeks'],
    ['next 1 week', 'next 1 week'],
    ['next 1 WEEK', 'next 1 week'],
    ['next 2 month', 'next 2 months'],
    ['temperature 38 °C', 'temperature 38 C'],
    ['insulin 90 mU/L 60 min after syrup', 'insulin 90 mU/L 60 minutes after syrup'],
  ])('%s is laid out as %s', (line, usual) => {
    expect(problems(inVisit(line))).toEqual([]);
    expect(laidOut(inVisit(line))).toBe(usual);
    expect(problems(inVisit(usual))).toEqual([]);
  });

  it('each means one unit of a dimension, whatever the size of its letters', () => {
    for (const { word, dimension } of units)
      for (const written of [word, word.toLowerCase(), word.toUpperCase()])
        expect(findUnit(written, dimension)?.word, written).toBe(word);
  });

  it('what is no unit stays one that is told', () => {
    expect(problems(inVisit('weight 512 stone'))[0]?.message).toBe('There is no unit «stone». Write 512 kg or 512 lb.');
    expect(problems(inVisit('insulin 45 constructor')).map(({ code }) => code)).toEqual(['notation/wrong-unit']);
  });
});

describe('fractions of an inch', () => {
  it.each([
    ['tape LF\n    toe-length 3 1/4 in', 'toe-length 3.25 in', 82.55],
    ['tape LF\n    toe-length 3  5/16 in', 'toe-length 3.3125 in', 84.1375],
    ['tape LF\n    heel-height 1/2 in', 'heel-height 0.5 in', 12.7],
  ])('%s', (lines, usual, mm) => {
    expect(visitOf(lines)?.tapes[0]?.values[0]?.quantity.base).toBeCloseTo(mm, 9);
    expect(laidOut(inVisit(lines))).toBe(usual);
  });

  it.each([
    ['weight 500 1/3 kg', 'has no unit'],
    ['obel 1/2', 'This is a plain number, without a fraction.'],
    ['crest 2/4', 'This is a plain number, without a fraction.'],
    ['obel 2/4', 'Write 2 alone: the scale is known.'],
    ['lameness LF 3/5', 'Write 3 alone: the scale is known.'],
  ])('%s is told', (line, says) => {
    expect(problems(inVisit(line))[0]?.message).toContain(says);
  });

  it('hands have their own way', () => {
    expect(problems(inCase('height 14 1/2 hh'))[0]?.message).toContain('14.2 hh is 14 hands and 2 inches');
    expect(problems(inCase('code 1/2')).map(({ code }) => code)).toEqual(['notation/code-form']);
  });

  it('a date stays a date', () => {
    expect(problems(inVisit('taken 12 3/4/2026'))[0]?.code).not.toBe(undefined);
    expect(problems(inVisit('next 3/4/2026'))[0]?.message).toContain('2026-04-03 or 2026-03-04');
  });
});

describe('grades', () => {
  it('condition goes in quarters', () => {
    expect(visitOf('condition 4.25')?.condition?.value).toBe(4.25);
    expect(problems(inVisit('condition 4.3'))[0]?.message).toContain('This goes from 1 to 9 in quarters');
  });

  it.each([
    ['obel 2 of 4', 'obel 2'],
    ['lameness LF 2 of 5', 'lameness LF 2'],
    ['condition 7.5 of 9', 'condition 7.5'],
    ['meier 5 of 12  # by the vet', 'meier 5 # by the vet'],
  ])('%s is %s', (line, usual) => {
    expect(problems(inVisit(line))).toEqual([]);
    expect(laidOut(inVisit(line))).toBe(usual);
    expect(visitOf(line)).toMatchObject({ date: '2026-03-04' });
  });

  it('of another scale is told, and gives no grade', () => {
    const { record, problems: told } = assemble(parse(inVisit('obel 2 of 5')));
    expect(told[0]?.message).toBe(
      '«obel» goes up to 4, not to 5: that is another scale. Write the grade of this one, or the word of the other.',
    );
    expect(record.visits[0]?.is.obel).toBeNull();
  });
});

describe('dates that are written out', () => {
  it.each([
    ['next 4 May 2026', 'next 2026-05-04'],
    ['next 4th of May 2026', 'next 2026-05-04'],
    ['next May 4, 2026', 'next 2026-05-04'],
    ['vet seen 11 Sept 2026 "saw her"', 'vet seen 2026-09-11 "saw her"'],
    ['medicine "x" from 4 mar 2026 until 2026-03-11', 'medicine "x" from 2026-03-04 until 2026-03-11'],
  ])('%s', (line, usual) => {
    const [told] = problems(inVisit(line));
    expect(told?.message).toContain('Write the date as year-month-day: 2026-');
    const after = fixed(inVisit(line));
    expect(problems(after)).toEqual([]);
    expect(laidOut(after)).toBe(usual);
  });

  it('in a header and in the case', () => {
    expect(fixed('hoof 1\nvisit 4 March 2026 "first"\n')).toBe('hoof 1\nvisit 2026-03-04 "first"\n');
    expect(fixed(inCase('foaled May 2013'))).toBe(inCase('foaled 2013-05'));
    expect(fixed(inCase('foaled 3 May 2013'))).toBe(inCase('foaled 2013-05-03'));
  });

  it('only where there is such a day', () => {
    expect(problems(inVisit('next 31 June 2026'))[0]?.fixes.map(({ title }) => title)).not.toContain(
      'Write 2026-06-31',
    );
  });
});

describe('a near miss is told by its meaning', () => {
  const told = (text: string): string =>
    inspect(text)
      .findings.map(({ message }) => message)
      .join('\n');

  it.each([
    ['tape LF\n    toe-angle 52 deg', '«wall-angle»'],
    ['tape LF\n    hoof-angle 52 deg', '«wall-angle»'],
    ['bcs 7', '«condition»'],
    ['temp 38.2 C', '«temperature»'],
    ['xray LF lateral "a.png"', '«film»'],
    ['shoes LF 10 mm', '«shoe»'],
    ['casts LF', '«cast»'],
    ['pulse FL bounding', 'Did you mean LF?'],
    ['wieght 512 kg', '«weight»'],
  ])('%s: %s', (line, says) => {
    expect(told(inVisit(line))).toContain(says);
  });

  it('a cast is a word of its own, and no case', () => {
    expect(problems(inVisit('cast LF "cloth"'))).toEqual([]);
    expect(told('hoof 1\ncast LF "cloth"\n')).not.toContain('«case»');
  });
});
