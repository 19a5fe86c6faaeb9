// Gathers what the extension and its page say into l10n/bundle.l10n.json, which is what a translation starts from.
import { globSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parsers } from 'prettier/plugins/typescript';

const ROOT = join(import.meta.dirname, '..');
export const WORDS_FILE = join(ROOT, 'l10n', 'bundle.l10n.json');

export interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

/** Every file that says something to a person, from the root. */
export const speakingFiles = (): string[] =>
  globSync(['src/{extension,preview}/**/*.{ts,tsx}', 'shared/picture/refusal-words.ts'], { cwd: ROOT })
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

/** Whether a node is `t(…)`. */
export const isSaid = ({ type, callee }: Node): boolean =>
  type === 'CallExpression' && (callee as Node).type === 'Identifier' && (callee as Node)['name'] === 't';

/** The English of every `t('…')`; null for one whose words are not written there. */
export function saidIn(file: string): (string | null)[] {
  const said: (string | null)[] = [];
  walk(treeOf(file), (node) => {
    if (!isSaid(node)) return;
    const [first] = node['arguments'] as Node[];
    said.push(first?.type === 'Literal' && typeof first['value'] === 'string' ? first['value'] : null);
  });
  return said;
}

export function bundleText(): string {
  const said = new Set(
    speakingFiles()
      .flatMap(saidIn)
      .filter((one) => one !== null),
  );
  const rows = [...said].sort((a, b) => (a < b ? -1 : 1)).map((english) => [english, english]);
  return `${JSON.stringify(Object.fromEntries(rows), null, 2)}\n`;
}

if (process.argv[1] === import.meta.filename) {
  mkdirSync(join(ROOT, 'l10n'), { recursive: true });
  writeFileSync(WORDS_FILE, bundleText());
}
