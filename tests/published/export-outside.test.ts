import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance, type DuckDBConnection } from '@duckdb/node-api';
// @ts-expect-error -- it has no types
import { Package, Profile } from 'datapackage';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MeasureJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { descriptorIn, filesBelow, runExport, type Descriptor } from '../unit/exported.ts';
import { writeMadeCases } from '../unit/made-cases.ts';

/**
 * A package held against readers that nobody here wrote: DuckDB 1.5.6 (`@duckdb/node-api`), and for the Frictionless specifications the
 * library `datapackage` 1.1.10 with its `tableschema` of Open Knowledge, which hold the profiles and fetch nothing.
 */
const folder = mkdtempSync(join(tmpdir(), 'ungula-outside-'));
const [given, whole, split] = ['given', 'whole', 'split'].map((name) => join(folder, name)) as [string, string, string];
const made = 1000;
const seed = 'a seed that the tests keep';

let db: DuckDBConnection;

async function asked(sql: string): Promise<Record<string, unknown>[]> {
  const rows = await (await db.runAndReadAll(sql)).getRowObjectsJson();
  return rows as Record<string, unknown>[];
}

const countOf = async (source: string): Promise<number> =>
  Number((await asked(`select count(*) n from ${source}`))[0]?.['n']);

let json: MeasureJson;
let codes: string[] = [];

beforeAll(async () => {
  codes = writeMadeCases(given, made);
  db = await (await DuckDBInstance.create(':memory:')).connect();
  expect((await runExport(given, '-o', whole, '--parquet', '--seed', seed)).status).toBe(0);
  for (const shard of ['1/3', '2/3', '3/3'])
    expect((await runExport(given, '-o', split, '--parquet', '--shard', shard, '--seed', seed)).status).toBe(0);
  expect((await runExport('--join', split)).status).toBe(0);
  let out = '';
  await commandLine(['measure', given, '--format', 'json'], { out: (text) => (out += text), err: () => {} });
  json = JSON.parse(out) as MeasureJson;
});

afterAll(() => {
  db.closeSync();
  rmSync(folder, { recursive: true, force: true });
});

const csv = (path: string): string => `read_csv('${path}', header = true, nullstr = '', all_varchar = true)`;
const parquet = (path: string): string => `read_parquet('${path}')`;
const tablesOf = ({ resources }: Descriptor): string[] => [
  ...new Set(resources.map(({ name }) => name.replace(/-.*$/, ''))),
];

describe('a thousand cases in DuckDB', () => {
  it('have as many rows as the package says, in CSV and in Parquet, whole and in parts', async () => {
    const { ungula, ...descriptor } = descriptorIn(whole);
    const { rows, cases } = ungula['counts'] as { rows: Record<string, number>; cases: number };
    expect(cases).toBe(made);
    expect(rows['cases']).toBe(made);
    for (const table of tablesOf({ ungula, ...descriptor })) {
      const counts = await Promise.all(
        [
          csv(join(whole, `${table}.csv`)),
          parquet(join(whole, `${table}.parquet`)),
          csv(join(split, table, '*', '*.csv')),
          parquet(join(split, table, '*', '*.parquet')),
        ].map(countOf),
      );
      expect([table, counts]).toEqual([table, Array.from({ length: 4 }, () => rows[table])]);
    }
    expect(Object.keys(rows).length).toBeGreaterThan(9);
  });

  it('have in Parquet what they have in CSV, and in parts what they have whole', async () => {
    for (const table of tablesOf(descriptorIn(whole))) {
      const { fields } = descriptorIn(whole).resources.find(({ name }) => name === table)?.schema ?? { fields: [] };
      const types: Readonly<Record<string, string>> = {
        integer: 'integer',
        number: 'double',
        boolean: 'boolean',
        date: 'date',
        string: 'varchar',
      };
      const columns = fields.map(({ name, type }) => `"${name}"::${types[type]} as "${name}"`).join(', ');
      const sources = [
        csv(join(whole, `${table}.csv`)),
        parquet(join(whole, `${table}.parquet`)),
        csv(join(split, table, '*', '*.csv')),
        parquet(join(split, table, '*', '*.parquet')),
      ].map((source) => `select ${columns} from ${source}`);
      for (const other of sources.slice(1)) {
        expect([table, await countOf(`(${sources[0]} except all ${other})`)]).toEqual([table, 0]);
        expect([table, await countOf(`(${other} except all ${sources[0]})`)]).toEqual([table, 0]);
      }
    }
  });

  it('are read as one data set with one glob, each part by its folder', async () => {
    const shards = await asked(
      `select shard, count(*) n from read_parquet('${split}/measures/*/*.parquet', hive_partitioning = true) group by shard order by shard`,
    );
    expect(shards.map(({ shard }) => Number(shard))).toEqual([1, 2, 3]);
    const twice = await asked(
      `select "case" from read_parquet('${split}/cases/*/*.parquet') group by 1 having count(*) > 1`,
    );
    expect(twice).toEqual([]);
  });

  it('point to rows that are there, and have each key once', async () => {
    const { resources } = descriptorIn(whole);
    let looked = 0;
    for (const { name, path, format, schema } of resources.filter((one) => one.format === 'parquet')) {
      expect(format).toBe('parquet');
      const keys = schema.primaryKey.map((key) => `"${key}"`).join(', ');
      expect([
        name,
        await asked(`select ${keys} from ${parquet(join(whole, path))} group by all having count(*) > 1 limit 1`),
      ]).toEqual([name, []]);
      for (const { fields, reference } of schema.foreignKeys ?? []) {
        const there = resources.find((one) => one.name === reference.resource);
        const on = fields.map((field, index) => `a."${field}" = b."${reference.fields[index]}"`).join(' and ');
        const lost = await asked(
          `select a."case" from ${parquet(join(whole, path))} a anti join ${parquet(join(whole, there?.path ?? ''))} b on ${on} limit 1`,
        );
        expect([name, reference.resource, lost]).toEqual([name, reference.resource, []]);
        looked++;
      }
    }
    expect(looked).toBeGreaterThan(8);
  });

  it('have the group means of what `measure --format json` prints', async () => {
    const means = await asked(
      `select f.foot, m.measure, avg(m.value) mean, count(*) n from ${parquet(join(whole, 'measures.parquet'))} m join ${parquet(join(whole, 'films.parquet'))} f using ("case", film) group by all`,
    );
    const values = new Map<string, number[]>();
    for (const { visits } of json.cases)
      for (const { films } of visits)
        for (const { foot, readings } of films)
          for (const { measures } of readings)
            for (const [name, { value }] of Object.entries(measures))
              values.set(`${foot} ${name}`, [...(values.get(`${foot} ${name}`) ?? []), value]);
    expect(means.length).toBe(values.size);
    expect(means.length).toBeGreaterThan(60);
    for (const { foot, measure, mean, n } of means) {
      const all = values.get(`${String(foot)} ${String(measure)}`) ?? [];
      const expected = all.reduce((sum, one) => sum + one, 0) / all.length;
      expect(Number(n)).toBe(all.length);
      expect(Math.abs(Number(mean) - expected)).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected)));
    }
  });

  it('have the predictions and what hands took as `measure --format json` has them', async () => {
    const cuts = json.cases.flatMap(({ visits }) => visits.flatMap(({ plans, trims }) => [...plans, ...trims]));
    const predicted = cuts.flatMap((one) => Object.values(one.predicted ?? {}).map(({ value }) => value));
    const tapes = json.cases.flatMap(({ visits }) =>
      visits.flatMap((visit) =>
        (visit.tapes ?? []).flatMap(({ measures }) => Object.values(measures).map(({ value }) => value)),
      ),
    );
    const sum = (all: readonly number[]): number => all.reduce((so, one) => so + one, 0);
    for (const [table, values] of [
      ['predictions', predicted],
      ['tape', tapes],
    ] as const) {
      const [told] = await asked(`select count(*) n, sum(value) s from ${parquet(join(whole, `${table}.parquet`))}`);
      expect([table, Number(told?.['n'])]).toEqual([table, values.length]);
      expect(values.length).toBeGreaterThan(1000);
      expect(Math.abs(Number(told?.['s']) - sum(values)) / sum(values)).toBeLessThan(1e-9);
    }
  });
});

describe('the Frictionless specifications', () => {
  /** Whoever wants the network while a package is checked. */
  const wanted: unknown[] = [];
  const { connect } = Socket.prototype;

  beforeAll(() => {
    Socket.prototype.connect = function refuse(...to: unknown[]): never {
      wanted.push(to);
      throw new Error('nothing is fetched in this test');
    };
  });
  afterAll(() => {
    Socket.prototype.connect = connect;
    expect(wanted).toEqual([]);
  });

  interface Loaded {
    readonly valid: boolean;
    readonly errors: readonly unknown[];
    readonly resources: readonly {
      readonly name: string;
      readonly descriptor: { readonly format: string };
      read(options: object): Promise<readonly Record<string, unknown>[]>;
      checkRelations(): Promise<boolean>;
    }[];
  }
  const loaded = (folder_: string): Promise<Loaded> =>
    (Package as { load(path: string): Promise<Loaded> }).load(join(folder_, 'datapackage.json'));

  it.each([
    ['whole', whole],
    ['of shards', split],
  ])('a package that is %s fits the profiles', async (_, package_) => {
    const { valid, errors } = await loaded(package_);
    expect([errors, valid]).toEqual([[], true]);
    const profile = (name: string) =>
      (
        Profile as { load(name: string): Promise<{ validate(of: unknown): { valid: boolean; errors: unknown[] } }> }
      ).load(name);
    const [ofPackage, ofTable] = [await profile('data-package'), await profile('tabular-data-resource')];
    const descriptor = descriptorIn(package_);
    expect(ofPackage.validate(descriptor)).toMatchObject({ valid: true });
    const tables = descriptor.resources.filter(({ format }) => format === 'csv');
    expect(tables.length).toBeGreaterThan(9);
    for (const resource of tables) expect(ofTable.validate(resource)).toMatchObject({ valid: true });
    // The profile does look.
    expect(ofTable.validate({ ...tables[0], schema: { fields: [{ type: 'string' }] } }).valid).toBe(false);
  });

  it('each row of each table fits its schema, and its foreign keys', async () => {
    const small = join(folder, 'small');
    const few = join(folder, 'few');
    writeMadeCases(few, 25);
    await runExport(
      few,
      join(import.meta.dirname, '..', '..', 'examples'),
      '-o',
      small,
      '--with',
      'texts,dates,readers',
    );
    const { resources } = await loaded(small);
    const { counts } = descriptorIn(small).ungula as { counts: { rows: Record<string, number> } };
    expect(resources.length).toBe(12);
    for (const resource of resources) {
      const rows = await resource.read({ keyed: true });
      expect([resource.name, rows.length]).toEqual([resource.name, counts.rows[resource.name]]);
      expect([resource.name, await resource.checkRelations()]).toEqual([resource.name, true]);
    }
  });
});

describe('the files of a package', () => {
  it.each([
    ['whole', whole],
    ['of shards', split],
  ])('are those that it lists, with their length and their digest: %s', (_, package_) => {
    const { resources } = descriptorIn(package_);
    const listed = resources.map(({ path }) => path);
    const others = filesBelow(package_).filter((path) => !listed.includes(path) && !path.startsWith('shards/'));
    expect(others).toEqual(['datapackage.json', 'report.md']);
    for (const { path, bytes, hash } of resources) {
      const content = readFileSync(join(package_, path));
      expect([path, content.length]).toEqual([path, bytes]);
      expect([path, `sha256:${createHash('sha256').update(content).digest('hex')}`]).toEqual([path, hash]);
    }
  });

  it('have the same codes of readers whichever shard wrote them', async () => {
    const readers = (source: string) => asked(`select distinct reader from ${source} order by 1`);
    const those = await readers(parquet(join(whole, 'readings.parquet')));
    expect(await readers(parquet(join(split, 'readings', '*', '*.parquet')))).toEqual(those);
    // Three who are named now and then, one who reads first of two, and who gives no name.
    expect(those).toHaveLength(5);
    expect(codes).toHaveLength(made);
  });
});
