import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { fromJSONSchema } from 'zod';
import type * as z from 'zod/mini';
import { jsonSchemas } from '../../scripts/json-schemas.ts';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { caseText, filmText } from './plain-foot.ts';

vi.mock('../../shared/findings/inspect.ts', async (original) => {
  const real = await original<typeof import('../../shared/findings/inspect.ts')>();
  return {
    ...real,
    inspect: (...given: Parameters<typeof real.inspect>) => {
      if (given[0].includes('fatal')) throw new TypeError('x is not a function');
      return real.inspect(...given);
    },
  };
});

let folder = '';
const at = (...names: string[]): string => join(folder, ...names);

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine([...args, '--format', 'json'], {
    out: (text) => (out += text),
    err: (line) => err.push(line),
  });
  return { status, out, err };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-json-'));
  for (const name of ['empty', 'one', 'two']) mkdirSync(at(name));
  const whole = caseText(`${filmText()}\n\n  plan LF\n    heel down 1 mm`);
  writeFileSync(at('good.hoof'), whole);
  writeFileSync(at('one', 'good.hoof'), whole);
  writeFileSync(at('two', 'good.hoof'), whole);
  writeFileSync(at('two', 'without.hoof'), 'hoof 1\ncase "B"\n  height 148\n');
  writeFileSync(at('latin.hoof'), Buffer.from([0x68, 0xe9, 0x0a]));
  writeFileSync(at('fatal.hoof'), `${whole}# fatal\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What can go wrong, and what does not, by the names that are given; with the status that every command has for it. */
const situations: readonly (readonly [string, string[]])[] = [
  ['a case', ['good.hoof']],
  ['several', ['good.hoof', 'two/without.hoof']],
  ['a folder', ['two']],
  ['a folder with one case', ['one']],
  ['an empty folder', ['empty']],
  ['no such file', ['none.hoof']],
  ['one of two missing', ['good.hoof', 'none.hoof']],
  ['no UTF-8', ['latin.hoof']],
  ['a mistake of the program', ['fatal.hoof']],
  ['no file at all', []],
];
const wrong: readonly (readonly [string, string[]])[] = [
  ['an unknown option', ['--colour', 'red']],
  ['an option without its value', ['--reference']],
  ['a set that is not there', ['--reference', 'none.json']],
  ['an option twice', ['--format', 'json']],
];

describe.each([
  ['check', []],
  ['measure', []],
  ['course', []],
  ['due', ['--on', '2026-04-02']],
  ['agree', []],
  ['summary', []],
  ['methods', []],
  ['mark', ['--key', join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof')]],
  ['plan', ['--foot', 'LF', '--to', 'most']],
  ['plan', ['--foot', 'LF', '--heel', '1']],
] as const)('%s %j prints one document of its shape', (command, options) => {
  const shape: z.ZodMiniType = jsonShapes[command];

  it.each(situations)('%s', async (_, names) => {
    const { out, status, err } = await run(command, ...options, ...names.map((name) => at(name)));
    expect(shape.safeParse(JSON.parse(out)).error).toBeUndefined();
    // One object for one case, whether it is there or not; an array where others may be meant.
    const oneCase = names.length === 1 && names[0]?.endsWith('.hoof') === true;
    expect(Array.isArray(JSON.parse(out))).toBe(command === 'plan' && !oneCase);
    if (err.length > 0) expect(status).toBe(2);
    for (const line of err) expect(line).not.toMatch(/\n| {4}at /);
  });

  it.each(wrong)('%s', async (_, args) => {
    const { out, status, err } = await run(command, ...options, at('good.hoof'), ...args);
    expect([status, err.length]).toEqual([2, 1]);
    expect(shape.safeParse(JSON.parse(out)).error).toBeUndefined();
  });
});

describe('plan', () => {
  it('says of each case whether it can be planned on', async () => {
    const { out, status } = await run('plan', '--foot', 'LF', '--heel', '1', at('two'));
    expect(status).toBe(2);
    expect(JSON.parse(out)).toMatchObject([
      {
        file: at('two', 'good.hoof'),
        foot: 'LF',
        film: { line: 7 },
        goal: 'cut',
        stages: [{ heel: 1 }],
        problem: null,
      },
      {
        file: at('two', 'without.hoof'),
        foot: 'LF',
        film: null,
        stages: [],
        problem: expect.stringContaining('no lateral film of the left fore foot') as string,
      },
    ]);
  });

  it.each([
    [['--foot', 'LF', '--heel', '1'], 'none.hoof', 'LF', 'no such file or folder'],
    [['--foot', 'RH', '--to', 'most'], 'good.hoof', 'RH', 'no lateral film of the right hind foot'],
    [['--heel', '1'], 'good.hoof', null, 'plan wants a foot'],
    [['--foot', 'LF', '--heel', '-1'], 'good.hoof', null, '--heel takes a number'],
  ] as const)('%j of %s has its object too, with what is wrong', async (args, name, foot, words) => {
    const { out, status } = await run('plan', ...args, at(name));
    expect(status).toBe(2);
    expect(JSON.parse(out)).toMatchObject({
      ungula: 1,
      file: at(name),
      foot,
      film: null,
      stages: [],
      notation: '',
      problem: expect.stringContaining(words) as string,
    });
  });
});

it('the schemas that ship are those that the program prints by', () => {
  for (const [path, text] of jsonSchemas()) expect(readFileSync(path, 'utf8'), 'run npm run build').toBe(text);
});

it('a schema lets an answer of a later version say more, and no answer say less', () => {
  const schema = fromJSONSchema(JSON.parse([...jsonSchemas().values()][0] ?? '{}'));
  const finding = {
    file: 'a',
    line: 1,
    column: 1,
    endLine: 1,
    endColumn: 2,
    severity: 'hint',
    code: 'a/b',
    message: 'c',
  };
  const document = (one: object) => ({ ungula: 1, findings: [one] });
  expect(schema.safeParse(document({ ...finding, later: 1 })).success).toBe(true);
  expect(schema.safeParse(document({ ...finding, line: 0 })).success).toBe(false);
  const { code: _, ...less } = finding;
  expect(schema.safeParse(document(less)).success).toBe(false);
});
