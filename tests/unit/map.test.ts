import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..', '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const page = read('DEVELOPERS.md');
const pages = ['DEVELOPERS.md', 'tests/README.md'] as const;

/** Paragraphs, list items and table rows, each in one line. */
const pieces = page
  .replace(/\n {2,}(?=\S)/g, ' ')
  .split(/\n(?=$|[-|#*]|\d+\. )/)
  .map((piece) => piece.trim().replace(/\s+/g, ' '))
  .filter((piece) => piece !== '');

/** Paths between backticks, from the root; what a build makes is not there before it. */
function pathsIn(text: string): string[] {
  const folders = readdirSync(root, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? entry.name : [],
  );
  const quoted = [...text.matchAll(/`([^`\s]+)`/g)].map(([, path = '']) => path);
  const linked = [...text.matchAll(/\]\(([^)#:]+)\)/g)].map(([, path = '']) => path);
  const isPath = (one: string): boolean =>
    folders.some((folder) => one.startsWith(`${folder}/`)) || /^[\w.-]+\.(?:ts|mjs|json|md)$/.test(one);
  return [...new Set([...quoted.filter(isPath), ...linked])].filter(
    (path) => !/^(?:dist|out|node_modules)\//.test(path),
  );
}

/** Whether there is such a file or folder; `*` in its name stands for anything. */
function isThere(path: string): boolean {
  if (!path.includes('*')) return existsSync(join(root, path));
  const [before = '', behind = ''] = path.slice(path.lastIndexOf('/') + 1).split('*');
  const folder = join(root, dirname(path));
  return existsSync(folder) && readdirSync(folder).some((name) => name.startsWith(before) && name.endsWith(behind));
}

interface Question {
  readonly asks: string;
  /** What somebody looks for on the page. */
  readonly looksFor: string;
  readonly answer: string;
  /** What the file has to hold to be the answer. */
  readonly holds: RegExp;
}

/** Each is to be answered by the first passage of the page that has the words looked for and names a file. */
const questions: readonly Question[] = [
  {
    asks: 'A line of the notation wants a new word. Where is it declared?',
    looksFor: '**A word.**',
    answer: 'shared/notation/vocabulary.ts',
    holds: /The one table of every word of the notation/,
  },
  {
    asks: 'A point is moved wrongly by a cut: where does it stand what moves how?',
    looksFor: 'how it moves under a cut',
    answer: 'shared/notation/landmarks.ts',
    holds: /'heel\.ground'/,
  },
  {
    asks: 'A usual range of a measure is to be another. Which file?',
    looksFor: 'usual range',
    answer: 'shared/reference/bands.ts',
    holds: /export const bands\b/,
  },
  {
    asks: 'A finding is told too late after an edit. What decides that it still holds?',
    looksFor: 'holds as long as',
    answer: 'shared/findings/engine/remembered.ts',
    holds: /class Recall\b/,
  },
  {
    asks: 'A rule was written and is never asked. Where does it have to be listed?',
    looksFor: '**A rule.**',
    answer: 'shared/findings/catalogue.ts',
    holds: /export const rules\b/,
  },
  {
    asks: 'Two films of one foot are turned against each other. What says how a foot lies on its picture?',
    looksFor: 'how a foot lies on its picture',
    answer: 'shared/geometry/foot-axes.ts',
    holds: /export function footAxes\b/,
  },
  {
    asks: 'A picture is refused that should be shown. Who decides which file a path means?',
    looksFor: 'which file a film’s path means',
    answer: 'shared/picture/picture-place.ts',
    holds: /export function/,
  },
  {
    asks: 'The pane follows typing too slowly. What holds the questions back?',
    looksFor: 'every 120 ms',
    answer: 'src/extension/pace.ts',
    holds: /export class Pace\b/,
  },
  {
    asks: 'A request of the server is to be answered. Where are requests and features joined?',
    looksFor: 'wires the features',
    answer: 'server/start.ts',
    holds: /connection\.onHover\(/,
  },
  {
    asks: 'A file was overwritten although it had changed. Who writes files?',
    looksFor: 'written half',
    answer: 'src/cli/save-file.ts',
    holds: /export async function|export function/,
  },
];

describe('a reader who knows only DEVELOPERS.md finds the file at the first try', () => {
  it('of ten questions', () => expect(questions).toHaveLength(10));

  it.each(questions.map((question) => [question.asks, question] as const))('%s', (_, { looksFor, answer, holds }) => {
    const plain = (text: string): string => text.replaceAll('’', "'");
    const passage = pieces.find((piece) => plain(piece).includes(plain(looksFor)) && pathsIn(piece).length > 0);
    expect(passage, `nothing says «${looksFor}» and names a file`).toBeDefined();
    // Tests that hold it are named too; the first file is where one looks.
    expect(pathsIn(passage ?? '').find((path) => /\.\w+$/.test(path))).toBe(answer);
    expect(read(answer)).toMatch(holds);
  });
});

describe('what the page names', () => {
  it.each(pathsIn(page))('%s is there', (path) => expect(isThere(path)).toBe(true));

  it.each(pathsIn(page).filter((path) => /^tests\/.*\.test\.ts$/.test(path)))('%s checks something', (path) =>
    expect(read(path)).toMatch(/\bexpect\(/),
  );

  it('would be missed if it were not there', () => {
    expect(pathsIn('see `shared/no-such-room/x.ts`').map(isThere)).toEqual([false]);
    expect(pathsIn(page).length).toBeGreaterThan(80);
  });

  const files = pieces.flatMap((piece) =>
    [...piece.matchAll(/`([\w./-]+\.tsx?)` \((`[^)]*\(\)`)\)/g)].flatMap(([, file = '', names = '']) =>
      [...names.matchAll(/`(?:(\w+)\.)?(#?\w+)\(\)`/g)].map(([, owner, name = '']) => ({ file, owner, name })),
    ),
  );

  it('has functions behind their files in the walk from key to pane', () => expect(files.length).toBeGreaterThan(15));

  it.each(files.map(({ file, owner, name }) => [file, owner ?? '', name] as const))(
    '%s has %s %s()',
    (file, owner, name) => {
      const code = read(file);
      if (owner !== '') expect(code).toMatch(new RegExp(`class ${owner}\\b`));
      expect(code).toMatch(
        new RegExp(`(?:function |^ +(?:async |static )*|^export const )${name}(?:<[^(]*>)?(?: = once)?\\(`, 'm'),
      );
    },
  );
});

describe('the table of rooms', () => {
  const table = page.slice(page.indexOf('## The rooms'), page.indexOf('### '));
  const rooms = [...table.matchAll(/^\| `([\w/-]+)` \|/gm)].map(([, room = '']) => room);
  const folders = (path: string): string[] =>
    readdirSync(join(root, path), { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? [`${path}/${entry.name}`] : [],
    );

  it.each(rooms)('%s is a folder', (room) => expect(statSync(join(root, room)).isDirectory()).toBe(true));

  it('has every folder of shared and src', () => {
    expect(rooms).toEqual(expect.arrayContaining([...folders('shared'), ...folders('src'), 'disk', 'server']));
  });
});

describe('lines that are written by hand', () => {
  const made = ['words.md', 'measures.md', 'codes.md', 'export-tables.md'];
  const byHand = [
    'README.md',
    ...pages,
    ...readdirSync(join(root, 'docs'))
      .filter((name) => name.endsWith('.md') && !made.includes(name))
      .map((name) => `docs/${name}`),
  ];

  it.each(byHand)('of %s are at most 120 characters long', (path) => {
    let within: string | null = null;
    const long = read(path)
      .split('\n')
      .filter((line) => {
        // Between these marks the bench writes; tables, code and an image's words cannot be broken.
        if (/^<!-- (?:Tables|End) of /.test(line)) within = line.includes('Tables') ? 'made' : null;
        if (line.startsWith('```')) within = within === null ? 'code' : null;
        return within === null && [...line].length > 120 && !/^(?:\||!\[| {4})/.test(line);
      });
    expect(long).toEqual([]);
  });
});
