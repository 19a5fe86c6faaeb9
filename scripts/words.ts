// Gathers all that is said to a person into l10n/bundle.l10n.json, which is what a translation starts from.
import { globSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parsers } from 'prettier/plugins/typescript';
import { wordsOfRows } from '../shared/language/rows.ts';

const ROOT = join(import.meta.dirname, '..');
export const WORDS_FILE = join(ROOT, 'l10n', 'bundle.l10n.json');

export interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

/** Every file that says something to a person, from the root. */
export const speakingFiles = (): string[] =>
  globSync(['{shared,server,disk}/**/*.ts', 'src/{extension,preview,cli}/**/*.{ts,tsx}'], { cwd: ROOT })
    .map((path) => path.replaceAll('\\', '/'))
    .sort();

export function treeOf(file: string): Node {
  const options = { filepath: file } as Parameters<typeof parsers.typescript.parse>[1];
  return parsers.typescript.parse(readFileSync(join(ROOT, file), 'utf8'), options) as Node;
}

/** Sees each node after what holds it, with the way to it. */
export function walk(node: Node, see: (node: Node, above: readonly Node[]) => void, above: readonly Node[] = []): void {
  see(node, above);
  const within = [...above, node];
  for (const [key, value] of Object.entries(node)) {
    if (key === 'comments' || key === 'tokens' || key === 'loc' || key === 'range') continue;
    for (const one of Array.isArray(value) ? (value as unknown[]) : [value])
      if (typeof one === 'object' && one !== null && typeof (one as Node).type === 'string')
        walk(one as Node, see, within);
  }
}

/** How many sentences `t(…)` and `counted(…)` hold, and after how many other arguments. */
const sayings: Readonly<Record<string, readonly [from: number, to: number]>> = { t: [0, 1], counted: [1, 3] };

const calledIn = ({ type, callee }: Node): string =>
  type === 'CallExpression' && (callee as Node).type === 'Identifier' ? String((callee as Node)['name']) : '';

/** Whether a node is `t(…)` or `counted(…)`. */
export const isSaid = (node: Node): boolean => Object.hasOwn(sayings, calledIn(node));

/** The English of every `t('…')` and `counted(n, '…', '…')`; null for one whose words are not written there. */
export function saidIn(file: string): (string | null)[] {
  const said: (string | null)[] = [];
  walk(treeOf(file), (node) => {
    if (!isSaid(node)) return;
    for (const words of (node['arguments'] as Node[]).slice(...(sayings[calledIn(node)] as [number, number])))
      said.push(words.type === 'Literal' && typeof words['value'] === 'string' ? words['value'] : null);
  });
  return said;
}

/** Loads every file with rows whose words are said, and gathers them. */
async function saidByRows(): Promise<string[]> {
  for (const file of speakingFiles())
    if (/\bspoken(?:Rows)?\(/.test(readFileSync(join(ROOT, file), 'utf8')))
      await import(pathToFileURL(join(ROOT, file)).href);
  return wordsOfRows();
}

export async function bundleText(): Promise<string> {
  const said = new Set([
    ...speakingFiles()
      .flatMap(saidIn)
      .filter((one) => one !== null),
    ...(await saidByRows()),
  ]);
  const rows = [...said].sort((a, b) => (a < b ? -1 : 1)).map((english) => [english, english]);
  return `${JSON.stringify(Object.fromEntries(rows), null, 2)}\n`;
}

/** What each translation lacks, and what it holds that is said no more, a line each. */
export function untranslated(said: readonly string[]): string[] {
  return globSync('bundle.l10n.*.json', { cwd: join(ROOT, 'l10n') }).flatMap((file) => {
    const own = Object.keys(JSON.parse(readFileSync(join(ROOT, 'l10n', file), 'utf8')) as object);
    const [has, wanted] = [new Set(own), new Set(said)];
    return [
      ...said.filter((one) => !has.has(one)).map((one) => `l10n/${file} lacks: ${JSON.stringify(one)}`),
      ...own
        .filter((one) => !wanted.has(one))
        .map((one) => `l10n/${file} holds what is said no more: ${JSON.stringify(one)}`),
    ];
  });
}

if (process.argv[1] === import.meta.filename) {
  mkdirSync(join(ROOT, 'l10n'), { recursive: true });
  const text = await bundleText();
  writeFileSync(WORDS_FILE, text);
  for (const line of untranslated(Object.keys(JSON.parse(text) as object))) console.log(line);
}
