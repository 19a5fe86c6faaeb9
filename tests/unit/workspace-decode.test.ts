import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode } from '../../server/workspace/decode.ts';

const bytes = (...parts: (string | number)[]): Uint8Array =>
  Buffer.concat(parts.map((part) => (typeof part === 'string' ? Buffer.from(part) : Buffer.of(part))));

describe('the text of a file', () => {
  it('is told to be no UTF-8 at its first letter that is none', () => {
    // The ill-formed sequences of table 3-8 of the Unicode standard, each behind an astral sign on a second line.
    for (const [bad, shown] of [
      [[0xc0, 0xaf], 'C0'],
      [[0xe0, 0x9f, 0x80], 'E0'],
      [[0xf4, 0x91, 0x92, 0x93], 'F4'],
      [[0xff], 'FF'],
      [[0xe1, 0x80, 0x41], 'E1'],
      [[0x80], '80'],
    ] as const) {
      const { text, problem } = decode(bytes('one\r\n🐴 ', ...bad, ' two'));
      expect(problem?.at.start, shown).toBe(8);
      expect(text[8]).toBe('\ufffd');
      expect(text.endsWith(' two')).toBe(true);
      expect(problem?.message).toContain(`line 2, column 4 (byte ${shown})`);
    }
  });

  it('is told to be none where the last letter is cut short', () => {
    const { text, problem } = decode(bytes('ab', 0xf0, 0x9f));
    expect([text, problem?.at.start]).toEqual(['ab\ufffd', 2]);
  });

  it('has no byte order mark, and none is complained of', () => {
    expect(decode(bytes(0xef, 0xbb, 0xbf, 'hoof 1'))).toEqual({ text: 'hoof 1', problem: null });
    expect(decode(bytes(0xef, 0xbb, 0xbf, 'a', 0xff)).problem).toMatchObject({ at: { start: 1, end: 2 } });
    expect(decode(bytes(0xef, 0xbb, 0xbf, 'a', 0xff)).problem?.message).toContain('(byte FF)');
  });

  it('is read from UTF-16 of either order, with a sentence of its own', () => {
    const little = Buffer.from('\ufeffBär', 'utf16le');
    for (const wide of [little, Buffer.from(little).swap16()]) {
      const { text, problem } = decode(wide);
      expect(text).toBe('Bär');
      expect(problem?.message).toContain('UTF-16');
    }
  });

  it('of any bytes is whole before the place that is told', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (random) => {
        fc.pre(!(random[0] === 0xff && random[1] === 0xfe) && !(random[0] === 0xfe && random[1] === 0xff));
        const { text, problem } = decode(random);
        expect(text).toBe(new TextDecoder().decode(random));
        const strict = Buffer.from(text, 'utf8').equals(Buffer.from(random));
        const mark = random[0] === 0xef && random[1] === 0xbb && random[2] === 0xbf;
        if (!mark) expect(problem === null).toBe(strict);
        if (!problem) return;
        expect(text[problem.at.start]).toBe('\ufffd');
        const before = Buffer.from(text.slice(0, problem.at.start));
        expect(before.equals(Buffer.from(random.subarray(mark ? 3 : 0, before.length + (mark ? 3 : 0))))).toBe(true);
      }),
    );
  });
});
