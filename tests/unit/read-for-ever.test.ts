import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { promisesNow, type Promises } from '../corpus/promises.ts';
import { notKept } from '../corpus/kept.ts';
import { isOfTheText, readAs, readingText, type ReadAs } from '../corpus/reading.ts';
import { wordsUsed, wordsWanted } from '../corpus/words-used.ts';

/** docs/versions.md: a file of notation 1 reads for ever. `npm run corpus` takes new files in; what is there stays as it is. */
const corpus = join(import.meta.dirname, '..', 'corpus');
const read = (name: string): string => readFileSync(join(corpus, name), 'utf8');
const notation1 = readdirSync(join(corpus, 'notation-1')).map((name) => `notation-1/${name}`);
const texts = notation1.filter((name) => name.endsWith('.hoof'));
const keptOf = (name: string): ReadAs => JSON.parse(read(name.replace(/\.hoof$/, '.json')));

/** As `sha256sum --check digests.txt` reads them. */
const digests = read('digests.txt')
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => line.split('  ') as [digest: string, name: string]);
const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex');

/**
 * Errors about the animal or the foot that a later version withdraws, because the limit was wrong: the file with its line and
 * code, and why. Each is told in CHANGELOG.md, under the version that withdraws it.
 */
const withdrawn: readonly { readonly file: string; readonly told: string; readonly because: string }[] = [];

describe('the corpus only grows', () => {
  it.each(digests)('%s is still %s', (digest, name) => expect(digestOf(read(name))).toBe(digest));

  it('has every file in its list (npm run corpus puts a new one there)', () => {
    expect(digests.map(([, name]) => name).sort()).toEqual(notation1.toSorted());
    expect(new Set(digests.map(([, name]) => name)).size).toBe(digests.length);
    expect(texts.length).toBeGreaterThanOrEqual(26);
  });

  it('would see a file that is changed by one sign', () => {
    const [[digest, name] = ['', '']] = digests;
    expect(digestOf(`${read(name)}\n`)).not.toBe(digest);
  });
});

describe('a file of notation 1', () => {
  it.each(texts)('%s is read as it was', (name) => {
    const told = notKept(keptOf(name), readAs(read(name)));
    const excused = new Set(withdrawn.filter(({ file }) => file === name).map((one) => one.told));
    expect(told.filter((one) => !excused.has(one))).toEqual([]);
    for (const one of excused) expect(told).toContain(one);
  });

  it('is kept with what it means, and with the errors that it has', () => {
    const kept = texts.map(keptOf);
    expect(kept.filter(({ record }) => record === null)).toHaveLength(1);
    const grave = kept.flatMap(({ findings }) =>
      findings.filter((one) => one.severity === 'error' && !isOfTheText(one)).map(({ code }) => code),
    );
    expect(new Set(grave).size).toBeGreaterThanOrEqual(12);
  });
});

describe('what is not kept', () => {
  const text = read('notation-1/teasel.hoof');
  const kept = readAs(text);
  const after = (from: string, to: string): string[] => {
    expect(text).toContain(from);
    return notKept(kept, readAs(text.replace(from, to)));
  };

  it('is a number that means another, a line that means nothing, a line that is gone', () => {
    expect(after('height    ', 'height    1')).not.toEqual([]);
    expect(after('scale ', 'scala ')).toContain('a line that was understood is so no more');
    expect(after('  p3.tip ', '# p3.tip ')).toContainEqual(expect.stringMatching(/placings: \d+ are now \d+$/));
  });

  it('is an error that is told no more, or more mildly, or elsewhere', () => {
    const sinking = kept.findings.find(({ code }) => code === 'course/sinking');
    expect(sinking?.severity).toBe('error');
    const lost = [`line ${sinking?.line}: the error course/sinking is told no more`];
    const but = (change: (one: ReadAs['findings'][number]) => ReadAs['findings']): string[] =>
      notKept(kept, { ...kept, findings: kept.findings.flatMap((one) => (one === sinking ? change(one) : [one])) });
    expect(but(() => [])).toEqual(lost);
    expect(but((one) => [{ ...one, severity: 'warning' }])).toEqual(lost);
    expect(but((one) => [{ ...one, line: one.line + 1 }])).toEqual(lost);
    expect(but((one) => [one])).toEqual([]);
  });

  it('is no key that is new, no warning that goes, no error that comes', () => {
    const record = { ...(kept.record as object), colour: 'grey' };
    const findings = kept.findings.filter(({ severity }) => severity === 'error');
    expect(findings.length).toBeLessThan(kept.findings.length);
    expect(notKept(kept, { record, findings: [...findings, { line: 1, severity: 'error', code: 'x/y' }] })).toEqual([]);
  });

  it('is no line that a later version understands', () => {
    const mistakes = keptOf('notation-1/mistakes.hoof');
    expect(mistakes.findings.filter(isOfTheText).length).toBeGreaterThan(10);
    const understood = mistakes.findings.filter((one) => !isOfTheText(one));
    expect(notKept(mistakes, { record: {}, findings: understood })).toEqual([]);
  });

  it('shows in the text that the corpus keeps of a reading', () => {
    expect(JSON.parse(readingText(kept))).toEqual(JSON.parse(JSON.stringify(kept)));
  });
});

describe('every word of the vocabulary', () => {
  const wanted = [...wordsWanted()];
  const used = wordsUsed(texts.map(read));

  it('stands in the corpus, in every block, form, choice and unit (a new one wants a new file)', () => {
    expect(wanted.length).toBeGreaterThan(430);
    expect(wanted.filter((one) => !used.has(one))).toEqual([]);
  });

  it('would be missed: a text without it does not count as one', () => {
    const without = wordsUsed([read('notation-1/every-word.hoof').replaceAll('triglycerides', 'triglycerine')]);
    expect(wanted.filter((one) => !without.has(one))).toEqual(
      expect.arrayContaining(['triglycerides in visit', 'unit mg/dL of triglycerides']),
    );
  });
});

describe('what scripts and programs rely on', () => {
  const promised: Promises = JSON.parse(read('promised.json'));
  const now = promisesNow();

  it.each(['codes', 'commands', 'json', 'csv', 'editor'] as const)('%s are all there still', (kind) => {
    expect(promised[kind].length).toBeGreaterThan(30);
    expect(promised[kind].filter((one) => !now[kind].includes(one))).toEqual([]);
  });
});
