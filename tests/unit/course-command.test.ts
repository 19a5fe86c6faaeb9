import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { commandLine } from '../../src/cli/command-line.ts';
import { courseText, turn, wing } from './course-text.ts';

let folder = '';
let file = '';

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(['course', ...args], {
    out: (text) => (out += text),
    err: (line) => err.push(line),
  });
  return { status, out, err };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-course-'));
  file = join(folder, 'case.hoof');
  writeFileSync(
    file,
    courseText([
      { date: '2026-01-01', places: { ...wing(14), ...turn(5) } },
      { date: '2026-01-29', places: { ...wing(10), ...turn(12) } },
      { date: '2026-03-26', places: { ...wing(9.9), ...turn(25) } },
    ]),
  );
  writeFileSync(
    join(folder, 'two.hoof'),
    courseText([{ date: '2026-01-01' }, { date: '2026-02-01', film: { header: 'film RF lateral "r.png"' } }]),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What other programs rely on; `level` where the interval holds less often than 95 times in 100. */
const change = z.strictObject({
  from: z.iso.date(),
  to: z.iso.date(),
  difference: z.number(),
  sd: z.number(),
  real: z.boolean(),
});
const growOut = z.strictObject({
  by: z.enum(['films', 'tape', 'usual']),
  toeLength: z.number(),
  date: z.nullable(z.iso.date()),
  early: z.nullable(z.iso.date()),
  late: z.nullable(z.iso.date()),
});
const measure = z.union([
  z.strictObject({ n: z.number(), changes: z.array(change) }),
  z.strictObject({
    n: z.number(),
    slope: z.number(),
    low: z.number(),
    high: z.number(),
    level: z.optional(z.number()),
    p: z.number(),
    per: z.literal('28 days'),
    growOut: z.optional(growOut),
    changes: z.array(change),
  }),
]);
const schema = z.strictObject({
  ungula: z.literal(1),
  cases: z.array(z.strictObject({ file: z.string(), feet: z.record(z.string(), z.record(z.string(), measure)) })),
});

describe('course', () => {
  it('gives JSON as other programs rely on', async () => {
    const { status, out, err } = await run(file, '--foot', 'LF', '--format', 'json');
    expect([status, err]).toEqual([0, []]);
    const [only] = schema.parse(JSON.parse(out)).cases;
    expect(only?.file).toBe(file);
    expect(Object.keys(only?.feet ?? {})).toEqual(['LF']);
    const angle = only?.feet['LF']?.['palmar-angle'];
    expect(angle).toMatchObject({
      n: 3,
      per: '28 days',
      level: expect.closeTo(2 / 3, 12),
      p: expect.closeTo(1 / 3, 12),
    });
    expect(angle?.changes.map(({ from, to, real }) => [from, to, real])).toEqual([
      ['2026-01-01', '2026-01-29', true],
      ['2026-01-29', '2026-03-26', false],
    ]);
    expect(only?.feet['LF']?.['grown-out']).toMatchObject({
      growOut: { toeLength: expect.closeTo(Math.hypot(53, 68), 9) as number },
    });
    expect(only?.feet['LF']?.['toe-length']).not.toHaveProperty('growOut');
  });

  it('has no slope of two films and no change of one', async () => {
    const { out } = await run(join(folder, 'two.hoof'), '--format', 'json');
    const feet = schema.parse(JSON.parse(out)).cases[0]?.feet;
    expect(Object.keys(feet ?? {})).toEqual(['LF', 'RF']);
    expect(feet?.['LF']?.['palmar-angle']).toEqual({ n: 1, changes: [] });
  });

  it('gives a row a measure and film as CSV', async () => {
    const { out } = await run(file, '--format', 'csv');
    const [head, ...rows] = out
      .trimEnd()
      .split('\r\n')
      .map((line) => line.split(','));
    const at = (row: readonly string[] | undefined, column: string): string | undefined =>
      row?.[head?.indexOf(column) ?? -1];
    const angles = rows.filter((row) => at(row, 'measure') === 'palmar-angle');
    expect(angles.map((row) => ['date', 'since', 'real', 'n'].map((column) => at(row, column)))).toEqual([
      ['2026-01-01', '', '', '3'],
      ['2026-01-29', '2026-01-01', 'true', '3'],
      ['2026-03-26', '2026-01-29', 'false', '3'],
    ]);
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head?.length]));
    expect(Number(at(angles[1], 'difference'))).toBeCloseTo(
      Number(at(angles[1], 'value')) - Number(at(angles[0], 'value')),
      12,
    );
  });

  it('says in a table what changed, how surely, and when new wall reaches the ground', async () => {
    const { out, status } = await run(file);
    expect(status).toBe(0);
    expect(out).toMatch(
      /Palmar angle, usual 2° to 10°\n +2026-01-01 +9\.9° ± 0\.\d\n +2026-01-29 +7\.1° ± 0\.\d +−2\.8° {2}clear\n/,
    );
    expect(out).toMatch(/−0\.1° {2}within the error/);
    expect(out).toContain('in 28 days, too few films to be sure, between ');
    expect(out).toContain('(holds 67 times in 100); by chance alone 33 in 100');
    expect(out).toMatch(/New wall reaches the ground about 2026-1\d-\d\d; /);
  });

  it('says what a foot with one film lacks, and which feet there are', async () => {
    expect((await run(join(folder, 'two.hoof'))).out).toContain(
      'Left fore: one film, 2026-01-01\n    a course begins with the second film of a foot',
    );
    expect((await run(file, '--foot', 'RH')).out).toContain('no film of RH has a date to stand at');
    expect(await run(file, '--foot', 'XX')).toEqual({
      status: 2,
      out: '',
      err: ['--foot takes LF, RF, LH, RH; not XX'],
    });
    expect((await run(join(folder, 'none.hoof'))).status).toBe(2);
  });
});
