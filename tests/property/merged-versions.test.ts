import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { mergedVersions } from '../../shared/edits/merged-versions.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const texts = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => readFileSync(join(examples, name), 'utf8'));
const folder = mkdtempSync(join(tmpdir(), 'ungula-merge-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What one person does to a case: a number changed, a line taken out, a line put in, a visit at the end. */
const change = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ kind: fc.constant('digit' as const), at: fc.nat(), to: fc.integer({ min: 0, max: 9 }) }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('out' as const), at: fc.nat() }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('in' as const),
      at: fc.nat(),
      words: fc.constantFrom('a bright day', 'hard ground', 'walks freely'),
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('visit' as const), day: fc.integer({ min: 1, max: 28 }) }) },
);
type Change = typeof change extends fc.Arbitrary<infer T> ? T : never;

function made(base: string, changes: readonly Change[]): string {
  return changes.reduce((text, one) => {
    const lines = text.split('\n');
    if (one.kind === 'visit')
      return `${text.trimEnd()}\n\nvisit 2031-01-${String(one.day).padStart(2, '0')}\n  weight     ${300 + one.day} kg\n`;
    const at = one.at % lines.length;
    const line = lines[at] ?? '';
    if (one.kind === 'digit') lines[at] = line.replace(/\d(?=\D*$)/, String(one.to));
    else if (one.kind === 'out') lines.splice(at, 1);
    // Below a line with words, as remarks are written.
    else lines.splice(at + 1, 0, `${/^ */.exec(line)?.[0] ?? ''}# ${one.words} ${one.at % 97}`);
    return lines.join('\n');
  }, base);
}

/** By git itself, line by line; null where it finds a conflict. */
function byGit(base: string, ours: string, theirs: string): string | null {
  const [a, b, c] = ['ours', 'base', 'theirs'].map((name) => join(folder, name));
  for (const [file, text] of [
    [a, ours],
    [b, base],
    [c, theirs],
  ] as const)
    writeFileSync(file ?? '', text);
  const { status, stdout } = spawnSync('git', ['merge-file', '-p', a ?? '', b ?? '', c ?? ''], { encoding: 'utf8' });
  return status === 0 ? stdout : null;
}

const drawn = fc.record({
  base: fc.constantFrom(...texts),
  ours: fc.array(change, { minLength: 1, maxLength: 4 }),
  theirs: fc.array(change, { minLength: 1, maxLength: 4 }),
});
const sorted = (text: string): string[] =>
  text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
    .toSorted();

describe('two versions put together', () => {
  it('are the one that was changed where the other was not, to the letter', () => {
    fc.assert(
      fc.property(drawn, ({ base, ours }) => {
        const own = made(base, ours);
        expect(mergedVersions({ base, ours: own, theirs: base })).toEqual({ text: own, conflicts: 0 });
        expect(mergedVersions({ base, ours: base, theirs: own })).toEqual({ text: own, conflicts: 0 });
        expect(mergedVersions({ base, ours: own, theirs: own })).toEqual({ text: own, conflicts: 0 });
      }),
      { numRuns: 200 },
    );
  });

  it('lose no line that either has written', () => {
    fc.assert(
      fc.property(drawn, ({ base, ours, theirs }) => {
        const [own, other] = [made(base, ours), made(base, theirs)];
        const { text } = mergedVersions({ base, ours: own, theirs: other });
        const before = new Set(sorted(base));
        const there = new Set(sorted(text));
        for (const line of [...sorted(own), ...sorted(other)]) if (!before.has(line)) expect(there).toContain(line);
      }),
      { numRuns: 300 },
    );
  });

  it('have the lines that git’s own merge gives, where it finds no conflict and neither do we', () => {
    let both = 0;
    let ourselves = 0;
    let stricter = 0;
    fc.assert(
      fc.property(drawn, ({ base, ours, theirs }) => {
        const [own, other] = [made(base, ours), made(base, theirs)];
        const git = byGit(base, own, other);
        const { text, conflicts } = mergedVersions({ base, ours: own, theirs: other });
        if (git === null && conflicts === 0) ourselves += 1;
        if (git !== null && conflicts > 0) stricter += 1;
        if (git === null || conflicts > 0) return;
        both += 1;
        expect(sorted(text)).toEqual(sorted(git));
      }),
      { numRuns: 200 },
    );
    expect(both).toBeGreaterThan(60);
    // What this is for.
    expect(ourselves).toBeGreaterThan(5);
    // Two numbers of one cut, and a remark above what the other takes out: seldom.
    expect(stricter).toBeLessThan(both / 10);
  });
});
