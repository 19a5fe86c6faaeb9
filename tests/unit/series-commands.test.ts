import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';

let folder = '';
const at = (...names: string[]): string => join(folder, ...names);

const caseOf = (sharing: string, code: string, mm: number): string => `hoof 1

case "Meadow ${mm}"
  animal horse mare
  sharing ${sharing}
  code ${code}

visit 2026-03-04
  tape LF
    toe-length ${mm} mm
`;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-series-'));
  mkdirSync(at('cases'));
  const texts = {
    shared: caseOf('series', 'A1', 80),
    open: caseOf('open', 'A2', 82),
    private: caseOf('private', 'A3', 90),
    twin: caseOf('series', 'B1', 100),
    // In small letters it is the same code.
    'twin-too': caseOf('series', 'b1', 110),
  };
  for (const [name, text] of Object.entries(texts)) writeFileSync(at('cases', `${name}.hoof`), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

const csvRows = (out: string): string[][] =>
  out
    .trimEnd()
    .split('\r\n')
    .slice(1)
    .map((line) => line.split(','));

describe('summary', () => {
  const byHand = ['--source', 'hand', '--measure', 'toe-length', '--format', 'csv'];

  it('leaves out lessons, whose films are those of another case', async () => {
    mkdirSync(at('lessons'));
    writeFileSync(at('lessons', 'key.hoof'), caseOf('series', 'K1', 80));
    const lesson = caseOf('series', 'L1', 95).replace('  code', '  key "key.hoof" by "Rowan"\n  code');
    writeFileSync(at('lessons', 'lesson.hoof'), lesson);
    for (const shared of [[], ['--shared']]) {
      const { out, err } = await run('summary', at('lessons'), ...byHand, ...shared);
      expect(csvRows(out).map((row) => row.slice(5, 8))).toEqual([['1', '1', '80']]);
      // With --shared it is one of those that do not leave.
      expect(err.join().includes('one lesson is left out')).toBe(shared.length === 0);
      const methods = await run('methods', at('lessons'), '--source', 'hand', '--measure', 'toe-length', ...shared);
      expect(methods.out).toContain('of one animal');
      expect(methods.err.join().includes('one lesson is left out')).toBe(shared.length === 0);
    }
  });

  it('takes every case, or those that an export lets out: two with one code stay, both', async () => {
    const all = await run('summary', at('cases'), ...byHand);
    expect(csvRows(all.out)).toEqual([
      ['toe-length', 'mm', 'hand', 'time', 'first', '5', '5', '92.4', expect.any(String), '80', '110'],
    ]);
    const shared = await run('summary', at('cases'), '--shared', ...byHand);
    expect(csvRows(shared.out)).toEqual([
      ['toe-length', 'mm', 'hand', 'time', 'first', '2', '2', '81', `${Math.SQRT2}`, '80', '82'],
    ]);
    expect([all.status, shared.status]).toEqual([0, 0]);
  });

  it('a file that cannot be read costs only itself', async () => {
    const { status, out, err } = await run('summary', at('cases'), at('none.hoof'), '--shared', ...byHand);
    expect(status).toBe(2);
    // Said once, though files are looked at twice.
    expect(err).toEqual([expect.stringContaining('none.hoof: no such file')]);
    expect(csvRows(out)).toHaveLength(1);
  });

  it.each([
    [['--by', 'colour'], '--by takes time, kind, foot, breed, sex, visit-number; not colour'],
    [['--source', 'hearsay'], '--source takes film, photo, hand; not hearsay'],
    [['--measure', 'toe-lenght'], '--measure: there is no measure «toe-lenght»'],
    [['--measure', 'toe-length', '--all'], '--measure and --all exclude each other'],
  ])('%j', async (args, problem) => {
    expect(await run('summary', at('cases'), ...args)).toEqual({ status: 2, out: '', err: [problem] });
    if (args[0] !== '--by') expect((await run('methods', at('cases'), ...args)).err).toEqual([problem]);
  });

  it('standard input once, and not twice', async () => {
    expect(await run('summary', '-', '--shared')).toEqual({
      status: 2,
      out: '',
      err: ['--shared reads files and folders, not standard input'],
    });
  });
});

describe('methods', () => {
  const examples = join(import.meta.dirname, '..', '..', 'examples');

  it('prints the paragraph and writes the works beside, the same as --format bibtex prints', async () => {
    const text = await run('methods', examples, '--shared', '--bibtex', at('out', 'methods.bib'));
    expect(text).toMatchObject({ status: 0, err: [] });
    expect(text.out).toMatch(/^The measures are from \d+ radiographs of 7 feet of 6 animals[^\n]*Ungula 0\.1\.0\.\n$/);
    const list = await run('methods', examples, '--shared', '--format', 'bibtex');
    expect(readFileSync(at('out', 'methods.bib'), 'utf8')).toBe(list.out);
    expect(list.out).toContain('@article{collins2011,');
    expect(readdirSync(at('out'))).toEqual(['methods.bib']);
  });

  it('says of shared cases alone what was used in them', async () => {
    const hand = ['--source', 'hand', '--measure', 'toe-length'];
    expect((await run('methods', at('cases'), '--shared', ...hand)).out).toContain('of 2 animals (2 horses)');
    expect((await run('methods', at('cases'), ...hand)).out).toContain('of 5 animals (5 horses)');
  });

  it('a list that cannot be written is status 2, and no half of one is left', async () => {
    writeFileSync(at('plain'), '');
    const { status, err } = await run('methods', at('cases'), '--bibtex', at('plain', 'x.bib'));
    expect([status, err.length]).toEqual([2, 1]);
    expect(readFileSync(at('plain'), 'utf8')).toBe('');
  });
});
