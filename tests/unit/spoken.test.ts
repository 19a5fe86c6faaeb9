import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { useWords } from '../../shared/language/words.ts';
import { handedPage, pageReaders } from '../../shared/report/pages/handed-page.ts';
import { reportPage } from '../../shared/report/page.ts';
import { extras } from '../../shared/series/columns.ts';
import { tableNames } from '../../shared/series/tables.ts';
import { alarmsOf, alarmsOpen } from '../../shared/views/alarms.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { englishIn, madeUpLanguage, textsOf } from './made-up-language.ts';
import { wordyCases } from './wordy-cases.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const cases = new Map([
  ...wordyCases(),
  ...readdirSync(examples)
    .filter((name) => name.endsWith('.hoof'))
    .map((name): [string, string] => [name, readFileSync(join(examples, name), 'utf8')]),
]);

const folder = mkdtempSync(join(tmpdir(), 'ungula-spoken-'));

beforeAll(() => {
  useWords(madeUpLanguage(), 'qaa');
  for (const [name, text] of cases) writeFileSync(join(folder, name), text);
});
afterAll(() => {
  useWords(undefined);
  rmSync(folder, { recursive: true, force: true });
});

/** Fields of the views that hold words of the notation, keys and states, which no face shows as they are. */
const data =
  /^(?:kind|view|state|severity|code|scaleFrom|part|picture|measure|landmark|key|of|from|by|foot|name|leave|needs|source|side)$/;

/** All strings of plain data that a face may show. */
function* shownIn(value: unknown, field = ''): Iterable<string> {
  if (typeof value === 'string') {
    if (!data.test(field)) yield value;
  } else if (Array.isArray(value)) for (const one of value) yield* shownIn(one, field);
  else if (value instanceof Map) yield* shownIn([...value.values()], field);
  else if (typeof value === 'object' && value !== null)
    for (const [name, one] of Object.entries(value)) yield* shownIn(one, name);
}

/** What a page shows and reads aloud, a piece each. */
function* readIn(page: string): Iterable<string> {
  const body = page.replaceAll(/<style>[^]*?<\/style>/g, '');
  const plain = (text: string): string =>
    text
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', '’')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
  for (const [, words = ''] of body.matchAll(/(?:aria-label|alt|title)="([^"]*)"/g)) yield plain(words);
  for (const piece of body.split(/<[^>]*>/)) yield plain(piece);
}

/** English of what is said of each case, each with the sentence in which it stands. */
const leftIn = (said: Iterable<string>, own: readonly string[]): string[] => {
  const left = new Set<string>();
  for (const one of said) {
    const words = englishIn(one, own);
    if (words.length > 0) left.add(`${words.join(' ')} | ${one.slice(0, 300)}`);
  }
  return [...left];
};

describe('in a made-up language nothing of ours stays English', () => {
  it.each([...cases])('in findings and their fixes: %s', (_, text) => {
    const said = inspect(text).findings.flatMap(({ message, related, fixes, source = '' }) => [
      message,
      source,
      ...related.map((one) => one.message),
      ...fixes.map(({ title }) => title),
    ]);
    expect(leftIn(said, textsOf(text))).toEqual([]);
    for (const { message } of inspect(text).findings) expect(message).toMatch(/⟪/);
  });

  it.each([...cases])('in what the faces show: %s', (_, text) => {
    const inspection = inspect(text);
    const sheets = [
      filmSheets(inspection),
      visitSheets(inspection),
      courseSheet(inspection),
      alarmsOpen(alarmsOf(inspection)),
    ];
    expect(leftIn(shownIn(sheets), textsOf(text))).toEqual([]);
  });

  it.each([...cases])('in the page for print: %s', (name, text) => {
    const page = reportPage([{ file: name, inspection: inspect(text), pictures: new Map() }], '2026-06-01');
    expect(page).toContain('<html lang="qaa">');
    expect(leftIn(readIn(page), [name, ...textsOf(text)])).toEqual([]);
  });

  // The others say nothing more on these pages, and each takes its time.
  const handed = [...cases].filter(([name]) => !name.includes('-') || /^(?:trim|visit|course|accept)-/.test(name));
  it.each(handed)('in the pages to hand over: %s', (name, text) => {
    expect(handed.length).toBeGreaterThan(20);
    const inspection = inspect(text);
    for (const reader of pageReaders) {
      const page = handedPage(reader, { inspection, pictures: new Map(), date: '2026-06-01', names: true });
      expect(page).toContain('<html lang="qaa">');
      expect([reader, leftIn(readIn(page), [name, ...textsOf(text)])]).toEqual([reader, []]);
    }
  });

  it.each([
    ['--help'],
    ['check'],
    ['chek'],
    ['check', '--help'],
    ['check', 'nowhere.hoof'],
    ['check', '--severity', 'x=y', '.'],
    ['check', '.'],
    ['measure', '.'],
    ['measure', '--help'],
    ['course', '--all', '.'],
    ['course', '--help'],
    ['course', '--foot', 'middle', '.'],
    ['plan', '--help'],
    ['plan', '.', '--foot', 'LF', '--to', 'sole-plane'],
    ['plan', '.', '--foot', 'LF', '--to', 'palmar-angle=5', '--back', '2'],
    ['plan', '.', '--foot', 'LF', '--heel', '3'],
    ['plan', '.', '--foot', 'LF'],
    ['due', '--help'],
    ['due', '.'],
    ['due', '.', '--on', 'tomorrow'],
    ['agree', '--help'],
    ['agree', '.'],
    ['agree', '.', '--all'],
    ['summary', '--help'],
    ['summary', '.', '--all'],
    ['summary', '.', '--by', 'breed'],
    ['summary', '.', '--source', 'hand', '--shared'],
    ['summary', '.', '--measure', 'nothing'],
    ['methods', '--help'],
    ['methods', '.'],
    ['methods', '.', '--source', 'hand'],
    ['agree', '.', '--spread'],
    ['agree', '.', '--write'],
    ['blind', '--help'],
    ['blind', '.'],
    ['blind', '.', '-o', 'x'],
    ['blind', '.', '--join', '.'],
    ['mark', '--help'],
    ['mark', '.'],
    ['mark', '.', '--key', '.'],
    ['export', '--help'],
    ['export'],
    ['export', '.'],
    ['export', '-', '-o', 'x'],
    ['export', '.', '-o', 'PACKAGE'],
    ['export', '.', '-o', 'x', '--with', 'all'],
    ['export', '.', '-o', 'x', '--with', 'dates', '--shift-dates', 'x'],
    ['export', '.', '-o', 'x', '--seed', 'x'],
    ['export', '.', '-o', 'x', '--shard', '1/2'],
    ['export', '--join', '.'],
    ['textconv', '--help'],
    ['textconv', '.', '.'],
    ['draw', '--help'],
    ['draw', '.'],
    ['draw', '.', '-o', 'x.gif'],
    ['draw', '.', '--on', 'tomorrow', '-o', 'x.svg'],
    ['report', '--help'],
    ['report', '.'],
    ['format', '--help'],
    ['format', '--check', '.'],
    ['serve', '--help'],
    ['serve'],
  ])('in the answer to ungula %s %s %s %s %s %s', async (...words) => {
    const said: string[] = [];
    const args = words.map((word) => (word === '.' ? folder : word === 'PACKAGE' ? join(folder, 'package') : word));
    await commandLine(args, { out: (text) => said.push(...text.split('\n')), err: (line) => said.push(line) });
    // How grave a finding is stands as its code does, for programs; what `plan` would write is a text of a case.
    const ours = said
      .filter((line) => !/^(?:visit | *(?:plan|why|heel|toe|leave|\|) )/.test(line))
      .map((line) => line.replace(/(?<=:\d+:\d+: )(?:error|warning|info|hint) /, ''));
    // The usage of a command is written as it is typed.
    const usages = said.flatMap((line) => /^ *ungula [a-z]+ (?!.*⟪).*$/.exec(line)?.[0] ?? []);
    // The names of commands are typed too.
    const own = [
      folder,
      'due',
      'agree',
      'export',
      'summary',
      'methods',
      'blind',
      'order.json',
      'mark',
      'textconv',
      'draw',
      'merge',
      'package',
      'datapackage.json',
      ...extras,
      ...usages,
      ...words,
      ...cases.keys(),
      ...[...cases.values()].flatMap(textsOf),
    ];
    expect(leftIn([ours.join('\n')], own)).toEqual([]);
  });

  it('in the report of a package, but for the names of tables', async () => {
    const to = join(folder, 'reported');
    await commandLine(['export', examples, '-o', to], { out: () => {}, err: () => {} });
    const lines = readFileSync(join(to, 'report.md'), 'utf8').split('\n');
    expect(lines.length).toBeGreaterThan(30);
    expect(leftIn(lines, [...tableNames, '---', 'EX0', 'Ungula'])).toEqual([]);
  });
});
