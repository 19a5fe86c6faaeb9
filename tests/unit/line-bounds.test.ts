import { describe, expect, it } from 'vitest';
import { endOfLine, indentOf, indentWithin, startOfLine, startWithRemarks } from '../../shared/notation/line-bounds.ts';

describe('where a line begins and ends', () => {
  it.each(['', '\n', '\r\n', '\n\n', '\na', 'a\nb', 'a\r\nb\r\n', '\r\r\n\n', '\r\n\r\na'])(
    'is as the text split at its line ends has it: %j',
    (text) => {
      const places: number[][] = [];
      const expected: number[][] = [];
      let at = 0;
      for (const line of text.split(/(?<=\r\n|\n|\r(?!\n))/)) {
        const body = line.replace(/(?:\r\n|\n|\r)$/, '').length;
        for (let offset = at; offset < at + Math.max(line.length, 1); offset++) {
          if (offset > text.length) break;
          places.push([startOfLine(text, offset), endOfLine(text, Math.min(offset, at + body))]);
          expected.push([at, at + body]);
        }
        at += line.length;
      }
      expect(places.length).toBeGreaterThan(0);
      expect(places).toEqual(expected);
    },
  );

  it('is the first place of a text that begins with a blank line', () => {
    expect(startOfLine('\n\nhoof 1\n', 0)).toBe(0);
    expect(startOfLine('\r\nhoof 1\n', 0)).toBe(0);
    expect(startOfLine('\r\nhoof 1\n', 1)).toBe(0);
  });
});

describe('the remarks over a line', () => {
  it('are those right above it, with nothing between', () => {
    const text = '# far\n\n  # one\n\t# two\n  plan LF\n';
    expect(text.slice(startWithRemarks(text, text.indexOf('plan')))).toBe('  # one\n\t# two\n  plan LF\n');
    expect(startWithRemarks('# top\nplan', 8)).toBe(0);
    expect(startWithRemarks('a # behind\nplan', 12)).toBe(11);
  });
});

describe('how a new line is indented', () => {
  it('is as the block has it, and without a line as its header and a step more', () => {
    expect(indentOf('\ufeff  a', 4)).toBe('  ');
    expect(indentWithin('\tplan LF\n\t   heel down 1 mm', 1, 13)).toBe('\t   ');
    expect(indentWithin('\tplan LF', 1, undefined)).toBe('\t\t');
    expect(indentWithin('  plan LF', 2, undefined)).toBe('    ');
    expect(indentWithin('visit 2026-03-04', 0, undefined)).toBe('  ');
  });
});
