// Ratios against peers in the same run, each configuration in a fresh process, as Markdown. Nothing here fails on a time:
// machines differ. With --write the tables go into docs/performance.md.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, totalmem } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { keystrokes } from './keystrokes.ts';
import type { Painted } from './painted.ts';
import type { Result } from './result.ts';

const { values } = parseArgs({
  options: { write: { type: 'boolean', default: false }, before: { type: 'string' } },
});

const page = join(import.meta.dirname, '..', '..', 'docs', 'performance.md');
/** The tables stand between these in the page. */
const [begin, end] = ['<!-- Tables of npm run bench -- --write -->', '<!-- End of the tables -->'];
/** One picture of a 60 Hz screen. */
const frameMs = 1000 / 60;

function runOne(...args: readonly (string | number)[]): unknown {
  const out = execFileSync(process.execPath, [join(import.meta.dirname, 'run-one.ts'), ...args.map(String)], {
    encoding: 'utf8',
    maxBuffer: 1 << 24,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return JSON.parse(out);
}

type Kind = 'usual' | 'full';

function measured(what: string, kind: Kind, visits: number, runs: number): Result {
  const result = runOne(what, kind, visits, runs) as Result;
  // The tables go to the standard output; how far it is does not.
  console.error(`${what}, ${kind}, ${visits}: median ${ms(result.median)} ms`);
  return result;
}

const ms = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0));
const megabytes = (bytes: number | null | undefined): string =>
  typeof bytes === 'number' ? (bytes / 1e6).toFixed(bytes < 1e7 ? 2 : 0) : '–';
const ratio = (value: number): string =>
  value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toPrecision(2);

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

const times = ({ minimum, median, p99 }: Result): string[] => [minimum, median, p99].map(ms);
const timeHeads = ['minimum, ms', 'median, ms', '99th percentile, ms'];

const words: Readonly<Record<string, string>> = {
  check: 'the whole check',
  'parse-and-bind': 'of it, parse and bind',
  yaml: '`yaml`, `parse` and no more',
  'js-yaml': '`js-yaml`, `load` and no more',
  json: '`JSON.parse`',
};

const configurations = runOne('--list') as string[];
const parts: string[] = [];

function peers(kind: Kind, title: string): Result {
  const check = measured('check', kind, 1000, 15);
  const all = [
    check,
    measured('parse-and-bind', kind, 1000, 15),
    measured('yaml', kind, 1000, 5),
    measured('js-yaml', kind, 1000, 15),
    measured('json', kind, 1000, 30),
  ];
  parts.push(
    `### ${title}, ${megabytes(check.bytes)} MB`,
    table(
      ['what', 'reads, MB', ...timeHeads, 'against the whole check, medians (minimums)'],
      all.map((one) => [
        words[one.what] ?? one.what,
        megabytes(one.bytes),
        ...times(one),
        `${ratio(one.median / check.median)} (${ratio(one.minimum / check.minimum)})`,
      ]),
    ),
  );
  return check;
}

function typing(kind: Kind, check: Result, which: readonly string[]): void {
  const rows = keystrokes
    .filter(({ what }) => which.includes(what))
    .map(({ what, words }) => ({
      words,
      one: measured(`keystroke-${what}`, kind, 1000, what === 'height' ? 15 : 150),
    }));
  parts.push(
    table(
      ['one keystroke, to findings', ...timeHeads, 'median against the whole check', 'median in frames of 60 Hz'],
      rows.map(({ words, one }) => [
        words,
        ...times(one),
        ratio(one.median / check.median),
        ratio(one.median / frameMs),
      ]),
    ),
  );
}

function servers(): void {
  const rows = [100, 1000].flatMap((visits) =>
    (['ungula', 'yaml'] as const).map((which) => ({
      visits,
      which,
      one: measured(`server-${which}`, 'usual', visits, 100),
    })),
  );
  const ours = (visits: number): Result => rows.find((row) => row.visits === visits)?.one as Result;
  parts.push(
    '### Two language servers, the same facts, the same client',
    table(
      [
        'visits',
        'server',
        'reads, MB',
        'keystrokes',
        ...timeHeads,
        'median against ours',
        'resident after opening, MB',
        'after the keystrokes, MB',
      ],
      rows.map(({ visits, which, one }) => [
        visits.toLocaleString('en'),
        which === 'ungula' ? 'Ungula' : '`yaml-language-server`',
        megabytes(one.bytes),
        String(one.runs),
        ...times(one),
        ratio(one.median / ours(visits).median),
        megabytes(one.memory?.['opened']),
        megabytes(one.memory?.['edited']),
      ]),
    ),
  );
}

function index(): void {
  const cold = measured('index', 'usual', 1, 5);
  const whole = measured('check', 'usual', 10_000, 5);
  parts.push(
    '### A folder opened for the first time',
    table(
      ['what', 'reads, MB', ...timeHeads, 'median against the check'],
      [
        ['whole check of one file as large as all of them', megabytes(whole.bytes), ...times(whole), '1'],
        [
          'cold index of 1,000 files of 11 KB',
          megabytes(cold.bytes),
          ...times(cold),
          ratio(cold.median / whole.median),
        ],
      ],
    ),
  );
}

function pane(): void {
  const given = values.before === undefined ? [] : ['--before', values.before];
  const out = execFileSync(process.execPath, [join(import.meta.dirname, 'painted.ts'), '--json', ...given], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const all = JSON.parse(out) as Painted[];
  const spread = (of: readonly number[]): string => of.map(ms).join(' / ');
  parts.push(
    '### From a keystroke to painted numbers',
    table(
      ['case', 'KB a keystroke', 'server, ms', 'page, ms', 'own work, ms', 'painted, ms'],
      all.map(({ which, kind, visits, bytes, server, page: drawn, own, painted }) => [
        `${visits} ${kind} visits${which === 'before' ? ', before' : ''}`,
        (bytes / 1000).toFixed(0),
        ...[server, drawn, own, painted].map(spread),
      ]),
    ),
    `Minimum / median / 95th percentile of ${all[0]?.keystrokes ?? 0} keystrokes.`,
  );
}

function growth(): void {
  const sizes = [10, 100, 1000, 10_000] as const;
  const all = sizes.map((visits) => ({
    visits,
    one: measured('check', 'usual', visits, visits < 1000 ? 60 : visits === 1000 ? 9 : 3),
  }));
  const perVisit = (of: 'median' | 'minimum'): number[] => all.map(({ visits, one }) => (one[of] / visits) * 1000);
  /** By how much the time a visit differs among the cases that are no small ones, in per cent. */
  const off = (of: 'median' | 'minimum'): number => {
    const late = perVisit(of).slice(1);
    return Math.round((Math.max(...late) / Math.min(...late) - 1) * 100);
  };
  const linear = off('median') <= 20 ? 'it grows with the file within 20 %' : 'that is not linear within 20 %';
  parts.push(
    '### How it grows',
    table(
      ['visits', 'reads, MB', 'whole check, minimum, ms', 'median, ms', 'minimum, µs a visit', 'median, µs a visit'],
      all.map(({ visits, one }, index) => [
        visits.toLocaleString('en'),
        megabytes(one.bytes),
        ms(one.minimum),
        ms(one.median),
        (perVisit('minimum')[index] ?? NaN).toFixed(0),
        (perVisit('median')[index] ?? NaN).toFixed(0),
      ]),
    ),
    `From 100 to 10,000 visits the medians a visit differ by ${off('median')} %, the minimums by ${off('minimum')} %: by the medians ${linear}.`,
  );
}

/** One part of the page; where it cannot be measured the others still are. */
function part(title: string, measure: () => void): void {
  try {
    measure();
  } catch (error) {
    parts.push(`### ${title}`, 'Not measured in this run.');
    console.error(`${title}: ${error instanceof Error ? error.message : String(error)}`);
    process.exitCode = 1;
  }
}

const began = Date.now();
const [load = 0] = loadavg();
part('A case of 1,000 usual visits', () => {
  const usual = peers('usual', 'A case of 1,000 usual visits');
  const all = keystrokes.map(({ what }) => what);
  typing('usual', usual, all);
});
part('A case of 1,000 full visits', () => {
  const full = peers('full', 'A case of 1,000 full visits');
  typing('full', full, ['middle', 'number']);
});
if (configurations.includes('index')) part('A folder opened for the first time', index);
part('Two language servers', servers);
part('From a keystroke to painted numbers', pane);
part('How it grows', growth);

const seconds = (Date.now() - began) / 1000;
const cpu = cpus();
const machine = `Measured on ${new Date().toISOString().slice(0, 10)} with Node ${process.version.slice(1)} on ${cpu.length} × ${cpu[0]?.model.trim() ?? 'unknown'}, ${(totalmem() / 2 ** 30).toFixed(0)} GB, in ${(seconds / 60).toFixed(1)} minutes; load average ${load.toFixed(1)} when it began.`;
const tables = [machine, ...parts].join('\n\n');
console.log(tables);

if (values.write) {
  const text = readFileSync(page, 'utf8');
  const [from, to] = [text.indexOf(begin), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`docs/performance.md has lost its marks: ${begin} … ${end}`);
  writeFileSync(page, `${text.slice(0, from + begin.length)}\n\n${tables}\n\n${text.slice(to)}`);
}
