import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MeasureJson } from '../../shared/export/json-shapes.ts';
import { writeMadeCases } from '../unit/made-cases.ts';
import { Checks, expectEqual, expectThat, type Outcome } from './checks.ts';
import { install, mayInstall } from './debian.ts';
import { describe } from './failure.ts';
import { scratchFolder, type UnderTest } from './under-test.ts';

const MADE = 100;

/** Each table by its schema, and the means of each foot and measure, by a library that nobody here wrote. */
const program = `
import json, sys
import pandas as pd
folder = sys.argv[1]
package = json.load(open(folder + '/datapackage.json'))
kinds = {'string': 'string', 'integer': 'Int64', 'number': 'float64', 'boolean': 'boolean', 'date': 'string'}
tables = {}
for resource in package['resources']:
    schema = resource['schema']
    columns = {field['name']: kinds[field['type']] for field in schema['fields']}
    table = pd.read_csv(folder + '/' + resource['path'], dtype=columns, keep_default_na=False, na_values=schema['missingValues'])
    assert list(table.columns) == list(columns), resource['name']
    assert not table.duplicated(schema['primaryKey']).any(), resource['name']
    tables[resource['name']] = table
joined = tables['measures'].merge(tables['films'], on=['case', 'film'], validate='many_to_one')
assert len(joined) == len(tables['measures'])
means = joined.groupby(['foot', 'measure'])['value'].agg(['mean', 'count'])
print(json.dumps({'pandas': pd.__version__, 'rows': {name: len(one) for name, one in tables.items()},
                  'means': [[foot, measure, row['mean'], row['count']] for (foot, measure), row in means.iterrows()]}))
`;

interface Answer {
  readonly pandas: string;
  readonly rows: Readonly<Record<string, number>>;
  readonly means: readonly (readonly [foot: string, measure: string, mean: number, count: number])[];
}

/** A data package of made cases, read by Debian's pandas. */
export async function runPandas({ cli }: UnderTest): Promise<Outcome> {
  const checks = new Checks();
  const name = 'pandas reads each table by its schema, and has the means that measure prints';
  const python = '/usr/bin/python3';
  const has = (): boolean => spawnSync(python, ['-c', 'import pandas']).status === 0;
  if (!has()) {
    if (!mayInstall()) {
      checks.skip(name, 'no pandas here, and nothing may be installed');
      return checks.outcome;
    }
    try {
      await install(['python3-pandas']);
    } catch (error) {
      checks.skip(name, `pandas could not be installed: ${describe(error)}`);
      return checks.outcome;
    }
  }
  await checks.check(name, 120, async () => {
    const folder = scratchFolder('pandas');
    const [given, out, script] = ['cases', 'package', 'read.py'].map((one) => join(folder, one)) as [
      string,
      string,
      string,
    ];
    writeMadeCases(given, MADE);
    writeFileSync(script, program);
    const run = (command: string, args: readonly string[]): string => {
      const { status, stdout, stderr } = spawnSync(command, args, { encoding: 'utf8', maxBuffer: 2 ** 28 });
      expectThat(status === 0, stderr);
      return stdout;
    };
    run(process.execPath, [cli, 'export', given, '-o', out]);
    const { pandas, rows, means } = JSON.parse(run(python, [script, out])) as Answer;
    console.log(
      `    pandas ${pandas}: ${Object.entries(rows)
        .map(([table, count]) => `${table} ${count}`)
        .join(', ')}`,
    );
    expectEqual(rows['cases'], MADE, 'cases');
    const { cases } = JSON.parse(run(process.execPath, [cli, 'measure', given, '--format', 'json'])) as MeasureJson;
    const values = new Map<string, number[]>();
    for (const { foot, readings } of cases.flatMap(({ visits }) => visits.flatMap(({ films }) => films)))
      for (const { measures } of readings)
        for (const [measure, { value }] of Object.entries(measures))
          values.set(`${foot} ${measure}`, [...(values.get(`${foot} ${measure}`) ?? []), value]);
    expectEqual(means.length, values.size, 'groups');
    expectThat(means.length > 60, 'too few groups to compare');
    for (const [foot, measure, mean, count] of means) {
      const all = values.get(`${foot} ${measure}`) ?? [];
      const own = all.reduce((sum, one) => sum + one, 0) / all.length;
      expectEqual(count, all.length, `values of ${measure}, ${foot}`);
      expectThat(Math.abs(mean - own) < 1e-9 * Math.max(1, Math.abs(own)), `${measure}, ${foot}: ${mean}, not ${own}`);
    }
  });
  return checks.outcome;
}
