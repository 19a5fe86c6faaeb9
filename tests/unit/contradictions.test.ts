import { describe, expect, it } from 'vitest';
import { newestState } from '../../shared/course/care.ts';
import { inspect } from '../../shared/findings/inspect.ts';

/** docs/notation.md, "Blocks": what one visit says of one foot with two values is told. */

const read = (...lines: string[]) =>
  inspect(`hoof 1\n\ncase "X"\n  animal horse\n\nvisit 2026-03-04\n${lines.map((line) => `  ${line}\n`).join('')}`);
const told = (...lines: string[]): string[] => {
  const { tree, findings } = read(...lines);
  return findings
    .filter(({ code }) => code === 'record/contradiction')
    .map(({ at, severity }) => `${severity} ${tree.text.slice(at.start, at.end)}`);
};

describe('two lines of a visit that say different things of one foot', () => {
  it.each([
    ['pulse LF bounding', 'pulse LF RF normal'],
    ['temperature 38 C', 'temperature 41 C'],
    ['temperature LF hot', 'temperature LF cold'],
    ['landing LF RF toe', 'landing RF heel'],
    ['sole LF firm', 'sole LF soft'],
    ['testers LF toe sole severe', 'testers LF heel sole none'],
    ['lameness LF 2', 'lameness LF 4'],
    ['lameness 2', 'lameness 4'],
  ])('are told: %s, %s', (first, second) => {
    expect(told(first, second)).toEqual([`warning ${second}`]);
  });

  it.each([
    ['pulse LF bounding', 'pulse RF normal'],
    ['pulse LF bounding', 'pulse LF RF bounding'],
    ['temperature 38 C', 'temperature LF cold'],
    ['testers LF toe severe', 'testers LF heel none'],
    ['lameness LF 2', 'lameness 4'],
    ['pulse LF bounding', 'pulse LF strong'],
  ])('are not told where they do not: %s, %s', (first, second) => {
    expect(told(first, second)).toEqual([]);
  });

  it('are said with both values, the earlier one shown', () => {
    const [finding] = read('pulse LF RF bounding', 'pulse RF normal').findings.filter(
      ({ code }) => code === 'record/contradiction',
    );
    expect(finding?.message).toBe(
      '«pulse RF» says normal here, and bounding above. Keep the one that is right; until then both stand.',
    );
    expect(finding?.related).toHaveLength(1);
    expect(finding?.fixes.map(({ title }) => title)).toEqual(['Remove this line']);
  });

  it('count with the graver pulse, whichever stands first', () => {
    for (const lines of [
      ['pulse LF bounding', 'pulse LF normal'],
      ['pulse LF normal', 'pulse LF bounding'],
    ])
      expect(newestState(read(...lines).study).pulse('LF')).toBe('bounding');
  });
});
