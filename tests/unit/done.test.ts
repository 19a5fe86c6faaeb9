import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';
import { cutWords } from '../../shared/views/film-sheet.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { filmText } from './plain-foot.ts';

const trim = (lines: string, header = 'trim LF'): string => `hoof 1\nvisit 2026-03-04\n${header}\n  ${lines}\n`;

function cuts(lines: string, header?: string) {
  const { record, problems } = assemble(parse(trim(lines, header)));
  expect(problems.map(({ message }) => message)).toEqual([]);
  expect(caseRecordSchema.parse(record)).toEqual(record);
  return record.visits[0]?.is.cuts ?? [];
}

describe('what is done to a foot', () => {
  it.each([
    ['heel up 3 deg', 'heel up 3 deg'],
    ['heel down 2 mm\n  heel up 3 deg', 'heel down 2 mm, heel up 3 deg'],
    ['inside down 2 mm', 'inside down 2 mm'],
    ['outside down 1.5 mm', 'outside down 1.5 mm'],
    ['bevel toe inner 8 mm', 'bevel toe and inner 8 mm'],
    ['bevel all', 'bevel all'],
    ['quarters', 'quarters'],
    ['quarters inner 3 mm', 'quarters inner 3 mm'],
    ['work "levelled"\n  work "edges rounded"', 'levelled; edges rounded'],
    ['heel down 2 mm\n  work "edges rounded"', 'heel down 2 mm'],
    ['leave toe', 'leave toe'],
    ['bars outer 2 mm "laid over the sole"', 'bars outer 2 mm (laid over the sole)'],
  ])('%s', (lines, words) => {
    expect(cuts(lines).map((cut) => cutWords({ cut }))).toEqual([words]);
    expect(cuts(lines, 'plan LF')).toHaveLength(1);
  });

  it('a wedge, the sides, bevels and bars change no prediction', () => {
    const predicted = (lines: string) => {
      const text = `hoof 1\nvisit 2026-03-04\n${filmText()}\n  trim LF\n    heel down 4 mm\n${lines}`;
      const values = inspect(text).study.cuts[0]?.prediction?.values;
      return [...(values ?? [])].map(([name, { value }]) => [name, value]);
    };
    const bare = predicted('');
    expect(bare.length).toBeGreaterThan(5);
    expect(predicted('    heel up 3 deg\n    inside down 2 mm\n    bevel toe 8 mm\n    bars inner 2 mm\n')).toEqual(
      bare,
    );
  });
});

describe('a trim of several feet', () => {
  it('is a trim of each, alike', () => {
    const both = cuts('heel down 3 mm', 'trim LF RF LF');
    expect(both.map(({ foot, feet, heelDown }) => [foot, feet, heelDown?.base])).toEqual([
      ['LF', ['LF', 'RF'], 3],
      ['RF', ['LF', 'RF'], 3],
    ]);
  });

  it('is said once at a glance, and counted for each foot in the JSON', () => {
    const inspection = inspect(trim('heel down 3 mm', 'trim LF RF'));
    expect(visitSheets(inspection)[0]?.done).toEqual(['Trim left fore and right fore: heel down 3 mm']);
    expect(measuredCase('x', inspection).visits[0]?.trims).toEqual([
      { foot: 'LF', line: 3 },
      { foot: 'RF', line: 3 },
    ]);
  });

  it('tells of which foot it speaks', () => {
    const { findings } = inspect(
      `hoof 1\nvisit 2026-03-04\n${filmText()}\n${filmText().replace('film LF', 'film RF')}\n  trim LF RF\n    heel down 40 mm\n`,
    );
    const told = findings.filter(({ code }) => code === 'trim/live-sole' || code === 'trim/below-sole-plane');
    expect(told.length).toBeGreaterThanOrEqual(2);
    for (const foot of ['left fore', 'right fore'])
      expect(told.some(({ message }) => message.toLowerCase().includes(foot))).toBe(true);
  });

  it('is past only where each of its feet has something later', () => {
    const text = (later: string): string =>
      `hoof 1\nvisit 2026-03-04\n${filmText()}\n${filmText().replace('film LF', 'film RF')}\n  trim LF RF\n    heel down 40 mm\n\nvisit 2026-04-04\n${later}`;
    const past = (later: string): boolean[] =>
      inspect(text(later))
        // Of the first trim, which only a film of each foot makes past, as it cut what is alive.
        .findings.filter(
          ({ code, at }) => code === 'trim/live-sole' && at.start < text(later).indexOf('visit 2026-04-04'),
        )
        .map((finding) => finding.past === true);
    expect(new Set(past('  trim LF RF\n    heel down 1 mm\n'))).toEqual(new Set([false]));
    expect(new Set(past(`${filmText()}\n`))).toEqual(new Set([false]));
    expect(new Set(past(`${filmText()}\n${filmText().replace('film LF', 'film RF')}\n`))).toEqual(new Set([true]));
  });
});

describe('a line that is not right', () => {
  it.each([
    ['heel up 3 mm', 'The unit mm does not fit here. It takes'],
    ['heel up 45 deg', '«heel» goes from 0 to 30 deg; 45 deg is more. Did you mean 4.5 deg?'],
    ['heel 3 mm', 'Here «heel» wants «down» or «up»'],
    ['bevel 3 mm', 'toe, inner, outer, heel or all'],
    ['bars left', 'inner or outer'],
    ['inside up 2 mm', 'wants «down»'],
    ['bevel toe 8', 'The number 8 has no unit. Write 8 mm'],
  ])('%s', (line, says) => {
    expect(assemble(parse(trim(line))).problems[0]?.message).toContain(says);
  });

  it('a plan is of one foot', () => {
    expect(assemble(parse(trim('heel down 2 mm', 'plan LF RF'))).problems[0]?.message).toContain(
      '«plan» is complete before this',
    );
  });
});
