import { describe, expect, it } from 'vitest';
import { largestFile, mostLines, tooMuchIn } from '../../shared/findings/engine/file-problems.ts';
import { LineMap } from '../../shared/notation/line-map.ts';
import { usualCase } from '../bench/usual-case.ts';

describe('what a text has more of than is read as a case', () => {
  it.each(['\n', '\r', '\r\n', 'x\n'])('is lines, however %j they end', (line) => {
    const just = line.repeat(mostLines - 1);
    expect(new LineMap(just).starts).toHaveLength(mostLines);
    expect(tooMuchIn(just)).toBeNull();
    expect(tooMuchIn(just + line)).toBe('lines');
  });
  it('is UTF-16 units, which are told first', () => {
    expect(tooMuchIn('#'.repeat(largestFile))).toBeNull();
    expect(tooMuchIn('#'.repeat(largestFile + 1))).toBe('bytes');
    expect(tooMuchIn('\n'.repeat(largestFile + 1))).toBe('bytes');
  });
  it('is neither in 10 MB of usual visits', () => {
    const text = usualCase(Math.floor(largestFile / 1100));
    expect(text.length).toBeGreaterThan(0.9 * largestFile);
    expect(tooMuchIn(text)).toBeNull();
  });
});
