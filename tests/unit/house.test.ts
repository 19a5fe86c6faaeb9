import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
const linter = join(dirname(createRequire(import.meta.url).resolve('oxlint/package.json')), 'bin', 'oxlint');

/** What each room of the house must not import, and one thing that it may. */
const rooms: readonly { file: string; not: readonly string[]; may: string }[] = [
  { file: 'shared/notation/x.ts', not: ['../record/schema.ts', 'vscode', 'node:fs'], may: './tree.ts' },
  { file: 'shared/geometry/x.ts', not: ['../record/schema.ts', 'node:path'], may: '../notation/landmarks.ts' },
  { file: 'shared/picture/decoders/x.ts', not: ['../../measures/take.ts', 'node:zlib'], may: '../raster.ts' },
  {
    file: 'shared/picture/seek/x.ts',
    not: ['../../notation/landmarks.ts', '../../geometry/frame.ts', 'node:fs'],
    may: '../../geometry/vector.ts',
  },
  { file: 'shared/picture/x.ts', not: ['../measures/take.ts', 'node:fs', 'vscode'], may: './raster.ts' },
  {
    file: 'shared/proposals/x.ts',
    not: ['../measures/take.ts', '../record/schema.ts', '../views/film-sheet.ts', 'node:fs'],
    may: '../picture/seek/patch-search.ts',
  },
  { file: 'shared/reference/x.ts', not: ['../measures/registry.ts'], may: './bands.ts' },
  { file: 'shared/reference/x.ts', not: ['../measures/values.ts', 'node:fs'], may: '../measures/names.ts' },
  {
    file: 'shared/record/x.ts',
    not: ['../measures/registry.ts', '../geometry/frame.ts', 'vscode'],
    may: '../notation/tree.ts',
  },
  {
    file: 'shared/measures/x.ts',
    not: ['../trim/predict.ts', '../findings/rule.ts', '../../server/node.ts'],
    may: '../geometry/frame.ts',
  },
  {
    file: 'shared/trim/x.ts',
    not: ['../findings/rule.ts', '../drawing/plate/plate.ts'],
    may: '../measures/registry.ts',
  },
  {
    file: 'shared/course/x.ts',
    not: ['../findings/rule.ts', '../report/page.ts', '../../server/node.ts', 'node:fs'],
    may: '../trim/study.ts',
  },
  {
    file: 'shared/agreement/x.ts',
    not: ['../findings/rule.ts', '../views/film-sheet.ts', '../../server/node.ts', 'node:fs'],
    may: '../trim/study.ts',
  },
  {
    file: 'shared/lessons/x.ts',
    not: ['../findings/rule.ts', '../views/film-sheet.ts', '../../server/node.ts', 'node:fs'],
    may: '../trim/study.ts',
  },
  {
    file: 'shared/findings/rules/x.ts',
    not: ['../../report/page.ts', '../../drawing/plate/plate.ts', 'node:os'],
    may: '../../trim/predict.ts',
  },
  { file: 'shared/drawing/x.ts', not: ['../findings/rule.ts', '../report/page.ts', 'vscode'], may: './scene.ts' },
  { file: 'shared/drawing/course/x.ts', not: ['../../findings/rule.ts', '../../report/page.ts'], may: '../scene.ts' },
  { file: 'shared/views/x.ts', not: ['../../src/cli/main.ts', 'node:fs'], may: '../drawing/plate/plate.ts' },
  { file: 'shared/edits/x.ts', not: ['../../server/node.ts', 'vscode'], may: '../notation/format.ts' },
  { file: 'shared/export/x.ts', not: ['../../src/cli/main.ts', 'node:fs'], may: '../trim/study.ts' },
  {
    file: 'src/messages/x.ts',
    not: ['../extension/main.ts', '../preview/main.ts', '../../server/node.ts', 'vscode'],
    may: '../../shared/views/film-sheet.ts',
  },
  { file: 'shared/report/x.ts', not: ['../../src/cli/main.ts', 'node:fs'], may: '../drawing/plate/plate.ts' },
  { file: 'shared/series/x.ts', not: ['../../src/cli/main.ts', 'node:crypto'], may: '../report/pages/unnamed.ts' },
  { file: 'shared/protocol/x.ts', not: ['../../server/node.ts', 'vscode'], may: '../views/film-sheet.ts' },
  {
    file: 'disk/x.ts',
    not: ['../server/serving/files.ts', '../src/cli/main.ts', '../shared/measures/take.ts', 'vscode'],
    may: '../shared/picture/raster.ts',
  },
  {
    file: 'server/x.ts',
    not: ['../src/extension/main.ts', '../disk/use-picture.ts', 'vscode', 'node:fs'],
    may: '../shared/findings/inspect.ts',
  },
  {
    file: 'src/extension/x.ts',
    not: ['../../server/node.ts', '../preview/main.ts', '../../disk/use-picture.ts'],
    may: 'vscode',
  },
  {
    file: 'src/preview/x.ts',
    not: ['../../shared/findings/inspect.ts', '../../server/node.ts', '../../disk/use-picture.ts', 'vscode', 'node:fs'],
    may: '../../shared/drawing/plate/plate.ts',
  },
  {
    file: 'src/pdf/x.ts',
    not: ['../cli/main.ts', '../../shared/findings/inspect.ts', '../../shared/views/film-sheet.ts', 'vscode'],
    may: '../../shared/drawing/ink.css.ts',
  },
  {
    file: 'src/cli/x.ts',
    not: ['../../server/node.ts', '../extension/main.ts', 'vscode'],
    may: '../../shared/findings/inspect.ts',
  },
];

let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-house-'));
  copyFileSync(join(root, '.oxlintrc.json'), join(folder, '.oxlintrc.json'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Complaint {
  readonly code?: string;
  readonly message: string;
  readonly filename?: string;
}

/** What the linter says of some files below a folder. */
function linted(cwd: string, files: readonly string[]): readonly Complaint[] {
  const { stdout, status, error } = spawnSync(process.execPath, [linter, '--format', 'json', ...files], {
    cwd,
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  if (error || status === null) throw error ?? new Error('the linter did not end');
  return (JSON.parse(stdout) as { diagnostics: Complaint[] }).diagnostics;
}

function write(file: string, text: string): string {
  const path = join(folder, file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
}

function complaints(file: string, imported: string): string {
  const path = write(file, `import { thing } from '${imported}';\n\nexport const it = thing;\n`);
  const said = linted(folder, [file]);
  rmSync(path);
  return said
    .map(({ code, message }) => `${code} ${message}`)
    .filter((line) => line.includes('no-restricted-imports'))
    .join('\n');
}

const circles = (said: readonly Complaint[]): string[] =>
  said.flatMap(({ code, filename }) => (code?.includes('no-cycle') ? [filename ?? ''] : []));

describe('the import rule of the house', () => {
  it.each(rooms.flatMap(({ file, not }) => not.map((imported) => [file, imported] as const)))(
    '%s may not import %s',
    (file, imported) => {
      expect(complaints(file, imported)).toContain('no-restricted-imports');
    },
  );

  it.each(rooms.map(({ file, may }) => [file, may] as const))('%s may import %s', (file, imported) => {
    expect(complaints(file, imported)).toBe('');
  });
});

describe('imports that lead back', () => {
  it('are found, of types alone too', () => {
    const written = [
      write('shared/trim/one.ts', "import type { Two } from './two.ts';\n\nexport type One = Two | 1;\n"),
      write('shared/trim/two.ts', "import type { One } from './one.ts';\n\nexport type Two = { one: One };\n"),
    ];
    expect(circles(linted(folder, ['shared/trim'])).sort()).toEqual(['shared/trim/one.ts', 'shared/trim/two.ts']);
    for (const path of written) rmSync(path);
  });

  it('are nowhere in the house', () => {
    expect(circles(linted(root, ['shared', 'server', 'src', 'scripts', 'tests', 'examples']))).toEqual([]);
  }, 600_000);
});

describe('a name of a type', () => {
  const declared = /^(?:export )?(?:declare )?(?:abstract )?(?:interface|type|class) (\w+)/gm;

  it('stands for one thing in the whole house', () => {
    const files = ['shared', 'server', 'src', 'disk'].flatMap((room) =>
      readdirSync(join(root, room), { recursive: true, encoding: 'utf8' })
        .filter((name) => /\.tsx?$/.test(name))
        .map((name) => `${room}/${name}`),
    );
    const places = new Map<string, string[]>();
    for (const file of files)
      for (const [, name = ''] of readFileSync(join(root, file), 'utf8').matchAll(declared))
        places.set(name, [...(places.get(name) ?? []), file]);
    expect(places.size).toBeGreaterThan(400);
    expect([...places].filter(([, those]) => those.length > 1)).toEqual([]);
  });
});
