import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SummaryJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { writeMadeCases } from './made-cases.ts';

/**
 * What `summary` prints against what DuckDB (npm `@duckdb/node-api` 1.5.6-r.1) makes of the exported tables, by the queries that stand
 * in docs/series.md. 1,000 cases.
 */
const CASES = 1000;
const SHARDS = 2;
const page = readFileSync(join(import.meta.dirname, '..', '..', 'docs', 'series.md'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'ungula-summary-'));
const cases = join(folder, 'cases');
const whole = join(folder, 'whole');
const shards = join(folder, 'shards');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The query of the page that begins with this remark. */
function query(title: string): string {
  const found = page.match(/(?<=```sql\n)-- [^]*?(?=```)/g)?.find((sql) => sql.startsWith(`-- ${title}\n`));
  if (found === undefined) throw new Error(`docs/series.md has no query «${title}»`);
  return found;
}

type Row = Omit<SummaryJson['rows'][number], 'unit'>;

async function answer(tables: string, at: string, title: string): Promise<Row[]> {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    for (const statement of query(tables).replaceAll("'package/", `'${at}/`).split(';'))
      if (statement.trim() !== '') await connection.run(statement);
    const reader = await connection.runAndReadAll(query(title));
    return reader.getRowObjectsJson().map((row) => ({
      ...(row as unknown as Row),
      feet: Number(row['feet']),
      animals: Number(row['animals']),
    }));
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

async function run(...args: string[]): Promise<string> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  if (status !== 0) throw new Error(err.join('\n'));
  return out;
}

const known = new Map<string, Promise<Row[]>>();

/** Asked once for each kind of table: a thousand cases take seconds. */
function summed(...options: string[]): Promise<Row[]> {
  const key = options.join(' ');
  const rows =
    known.get(key) ??
    run('summary', cases, '--shared', '--all', '--format', 'json', ...options).then(
      (json) => (JSON.parse(json) as SummaryJson).rows,
    );
  known.set(key, rows);
  return rows;
}

/** By measure and group, as `summary` prints them: two decimals. */
const printed = (rows: readonly Row[]): ReadonlyMap<string, string> =>
  new Map(
    rows.map(({ measure, group, feet, animals, mean, sd, least, greatest }) => [
      `${measure} ${group}`,
      [feet, animals, ...[mean, sd, least, greatest].map((one) => one?.toFixed(2) ?? '')].join(' '),
    ]),
  );

beforeAll(async () => {
  writeMadeCases(cases, CASES);
  await run('export', cases, '-o', whole);
  for (let shard = 1; shard <= SHARDS; shard++)
    await run(
      'export',
      cases,
      '-o',
      shards,
      '--parquet',
      '--seed',
      'invented for this test',
      '--shard',
      `${shard}/${SHARDS}`,
    );
}, 300_000);

describe.each([
  ['tables: CSV', whole],
  ['tables: Parquet of all shards', shards],
])('%s', (tables, at) => {
  it.each([
    ['summary: first, last, change', []],
    ['summary: by kind', ['--by', 'kind']],
  ])(
    '%s',
    async (title, options) => {
      const [ours, theirs] = [await summed(...options), await answer(tables, at, title)];
      expect(ours.length).toBeGreaterThan(60);
      const first = ours.find(({ measure, group }) => measure === 'palmar-angle' && /^(?:first|horse)$/.test(group));
      expect(first?.feet).toBeGreaterThan(group(title) === 'kind' ? 100 : CASES - 1);
      expect(printed(theirs)).toEqual(printed(ours));
      // Beyond what is printed: nothing but the order of the sums differs.
      const means = new Map(theirs.map((row) => [`${row.measure} ${row.group}`, row]));
      for (const row of ours) {
        const other = means.get(`${row.measure} ${row.group}`);
        expect(Math.abs(row.mean - (other?.mean ?? NaN))).toBeLessThan(1e-9);
        expect(Math.abs((row.sd ?? 0) - (other?.sd ?? 0))).toBeLessThan(1e-9);
      }
    },
    120_000,
  );
});

const group = (title: string): string => title.split(' ').at(-1) ?? '';

it('the table for people shows these figures', async () => {
  const rows = await answer('tables: CSV', whole, 'summary: first, last, change');
  const row = rows.find(({ measure, group: of }) => measure === 'palmar-angle' && of === 'change');
  const shown = await run('summary', cases, '--shared', '--measure', 'palmar-angle');
  const line = shown.split('\n').find((one) => one.startsWith('  last less first'));
  const figures = [row?.mean, row?.sd, row?.least, row?.greatest].map((one) => `${one?.toFixed(2).replace('-', '−')}°`);
  expect(line?.trim().split(/ {2,}/)).toEqual(['last less first', `${row?.feet}`, `${row?.animals}`, ...figures]);
}, 120_000);
