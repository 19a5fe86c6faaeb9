import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { sayApart } from '../../shared/findings/wording/wording.ts';

/** Words and signs of the trade that are nearly the notation's, each with what mends it; and fixes that keep what a number is. */

const animal = 'hoof 1\n\ncase "X"\n  animal horse\n\nvisit 2026-03-04\n';
const errors = (line: string) =>
  inspect(`${animal}  ${line}\n`).findings.filter(({ severity }) => severity === 'error');
const titles = (line: string): string[] => errors(line).flatMap(({ fixes }) => fixes.map(({ title }) => title));

/** The text with the first fix of its first error. */
function mended(line: string): string {
  const text = `${animal}  ${line}\n`;
  const [fix] = errors(line).flatMap(({ fixes }) => fixes);
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.start - a.start)
    .reduce((all, edit) => all.slice(0, edit.start) + edit.text + all.slice(edit.end), text)
    .slice(animal.length + 2, -1);
}

describe('a near miss', () => {
  it.each([
    ['pulse all bounding', 'pulse LF RF LH RH bounding'],
    ['pulse fores bounding', 'pulse LF RF bounding'],
    ['landing hinds toe', 'landing LH RH toe'],
    ['insulin 38 uIU/mL fasted', 'insulin 38 uIU/mL fasting'],
    ['vet-seen 2026-03-04', 'vet seen 2026-03-04'],
    ['casting LF "cloth"', 'cast LF "cloth"'],
    ['henneke 6', 'condition 6'],
    ['digital-pulse LF normal', 'pulse LF normal'],
    ['girth 75¼ in', 'girth 75 1/4 in'],
    ['lameness 2/5', 'lameness 2'],
    ['shoe LF RF LR', 'shoe LF RF LH'],
    ['pulse LF rf bounding', 'pulse LF RF bounding'],
    ['landing LF and RF toe', 'landing LF RF toe'],
  ])('is mended by its fix: %s', (line, right) => {
    expect(mended(line)).toBe(right);
    expect(errors(right).filter(({ code }) => code.startsWith('notation/'))).toEqual([]);
  });

  it('of a foot says which word, and what is meant', () => {
    expect(errors('shoe LF RF LR')[0]?.message).toBe(
      '«LR» is no foot. The feet are LF, RF, LH or RH; did you mean LH?',
    );
  });

  it.each([
    ['abscess LF', 'seen'],
    ['coronet LF', 'seen'],
    ['white-line LF', 'seen'],
    ['ultrasound LF', 'vet'],
  ])('is told by its meaning: %s', (line, word) => {
    expect(errors(line)[0]?.message).toContain(`Did you mean «${word}»?`);
  });

  it('of a picture is told by its meaning', () => {
    const [first] = errors('film LF lateral "x.png"\n    bearing-plane 1, 2 .. 3, 4');
    expect(first?.message).toContain('Did you mean «bearing»?');
  });

  it('of a measure is told by its meaning', () => {
    expect(errors('tape LF\n    groove-depth 12 mm')[0]?.message).toContain('Did you mean «groove-depth.apex»?');
  });

  it('has no sign for less than, and no fix that would make a value of it', () => {
    const [first] = errors('insulin <2 uIU/mL');
    expect(first?.message).toMatch(/^There is no sign for less than\. Write the lowest value/);
    expect(first?.fixes).toEqual([]);
  });
});

describe('a unit of something else', () => {
  it.each([
    'plan LF\n    heel up 5 mm',
    'shoe LF 10 mm wedge 3 mm',
    'shoe LF 3 deg',
    'weight 512 mm',
    'tape LF\n    toe-length 73 kg',
  ])('is told, and no fix makes another thing of the number: %s', (line) => {
    expect(errors(line).map(({ code }) => code)).toEqual(['notation/wrong-unit']);
    expect(titles(line)).toEqual([]);
  });

  it('is no unit at all where it is a slip, and then mended', () => {
    expect(titles('weight 512 kq')).toContain('Write 512 kg');
  });
});

describe('a picture without a name', () => {
  it('is told at the two quotes', () => {
    const text = `${animal}  film LF lateral ""\n`;
    const told = inspect(text).findings.filter(({ code }) => code === 'picture/missing');
    expect(told.map(({ at }) => text.slice(at.start, at.end))).toEqual(['""']);
  });
});

describe('two numbers of which one is more', () => {
  it('are said with so many decimals that it shows', () => {
    expect(sayApart(4.24, 4.21, 'mm')).toEqual(['4.24 mm', '4.21 mm']);
    expect(sayApart(9.1, 4.2, 'mm')).toEqual(['9.1 mm', '4.2 mm']);
    expect(sayApart(4.2004, 4.2001, 'deg')).toEqual(['4.2004°', '4.2001°']);
  });
});
