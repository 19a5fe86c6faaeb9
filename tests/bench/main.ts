// Ratios against peers in the same run, each configuration in a fresh process. Nothing here fails on a time: machines differ.
import { execFileSync } from 'node:child_process';
import { cpus } from 'node:os';
import { join } from 'node:path';

interface Result {
  readonly what: string;
  readonly visits: number;
  readonly bytes: number;
  readonly median: number;
  readonly p99: number;
}

function measured(what: string, visits: number, runs: number): Result {
  const out = execFileSync(
    process.execPath,
    [join(import.meta.dirname, 'run-one.ts'), what, String(visits), String(runs)],
    {
      encoding: 'utf8',
      maxBuffer: 1 << 24,
    },
  );
  return JSON.parse(out) as Result;
}

const ms = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0));

console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}\n`);
const check = measured('check', 1000, 9);
const peers = (['yaml', 'js-yaml', 'json'] as const).map((what) => measured(what, 1000, 9));
const rows = [check, measured('parse', 1000, 15), measured('keystroke', 1000, 60), ...peers];
console.log(`A case of 1,000 visits, ${(check.bytes / 1e6).toFixed(2)} MB; peers parse the same facts only.\n`);
console.log('| what | median, ms | 99th percentile, ms | against the whole check |\n| --- | --- | --- | --- |');
for (const { what, median, p99 } of rows)
  console.log(`| ${what} | ${ms(median)} | ${ms(p99)} | ${(median / check.median).toFixed(3)} |`);

console.log('\n| visits | whole check, ms | µs a visit |\n| --- | --- | --- |');
for (const visits of [10, 100, 1000, 3000]) {
  const { median } = measured('check', visits, visits > 1000 ? 3 : 9);
  console.log(`| ${visits} | ${ms(median)} | ${((median / visits) * 1000).toFixed(0)} |`);
}
