import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions, type Metafile } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
// @ts-expect-error -- plain JavaScript
import * as bills from '../../scripts/bill-of-materials.mjs';
// @ts-expect-error -- plain JavaScript
import * as thirdParty from '../../scripts/third-party.mjs';

const root = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'ungula-third-party-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const { writeBill, problemsOf } = bills as {
  writeBill: (metafiles: readonly Metafile[], file: string) => Promise<void>;
  problemsOf: (text: string) => Promise<unknown>;
};
const { writeNotices } = thirdParty as { writeNotices: (metafiles: readonly Metafile[], file: string) => void };

interface Component {
  readonly name: string;
  readonly group?: string;
  readonly version?: string;
  readonly licenses?: readonly unknown[];
  readonly components?: readonly Component[];
}

let notices = '';
let bill = '';
/** By name: version, and whether something of it is left in a bundle when what nobody calls is gone. */
const packages = new Map<string, { readonly version: string; left: boolean }>();

beforeAll(async () => {
  const built = await Promise.all(
    Object.values<BuildOptions>(outputs).map((options) =>
      build({
        ...options,
        absWorkingDir: root,
        write: false,
        metafile: true,
        logLevel: 'silent',
      } as BuildOptions),
    ),
  );
  const metafiles = built.flatMap(({ metafile }) => metafile ?? []);
  writeNotices(metafiles, join(folder, 'notices.txt'));
  await writeBill(metafiles, join(folder, 'bill.json'));
  notices = readFileSync(join(folder, 'notices.txt'), 'utf8');
  bill = readFileSync(join(folder, 'bill.json'), 'utf8');
  const left = new Set(
    metafiles.flatMap((metafile) =>
      Object.values(metafile.outputs).flatMap(({ inputs }) =>
        Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
      ),
    ),
  );
  for (const path of metafiles.flatMap(({ inputs }) => Object.keys(inputs))) {
    const at = /^(.*node_modules\/((?:@[^/]+\/)?[^/]+))\//.exec(path);
    if (!at?.[1] || !at[2]) continue;
    const { version } = JSON.parse(readFileSync(join(root, at[1], 'package.json'), 'utf8')) as { version: string };
    packages.set(at[2], { version, left: left.has(path) || (packages.get(at[2])?.left ?? false) });
  }
});

describe('what is passed on with the package tells whose work is in it', () => {
  it('the notices name each package with the text of its licence', () => {
    expect(packages.size).toBeGreaterThan(30);
    for (const [name, { version }] of packages) expect(notices).toContain(`\n${name} ${version} (`);
    for (const notice of notices.split(/\n-{78}\n/)) expect(notice.length).toBeGreaterThan(400);
    expect(notices).not.toMatch(/^Licence: /m);
  });

  it.each([
    ['OpenJPEG', 'Communications and Remote Sensing Laboratory, Universite catholique de Louvain'],
    ['CharLS', 'Jan de Vaan 2007-2010'],
    ['Emscripten', '2010-2022 The Emscripten Authors'],
    ['lerc', 'Copyright 2015-2021 Esri'],
    ['zstddec', 'For Zstandard software'],
  ])('%s, which is compiled or comes without its text', (name, holder) => {
    expect(notices).toContain(name);
    expect(notices).toContain(holder);
  });

  it('the bill of materials fits the schema of CycloneDX 1.6, and the validator sees what does not', async () => {
    expect(await problemsOf(bill)).toBeNull();
    expect(await problemsOf(bill.replace('"type": "library"', '"type": "hoof"'))).not.toBeNull();
  });

  it('it names the same packages and versions, with licences, and what is compiled into them', () => {
    const { components: all } = JSON.parse(bill) as { components: Component[] };
    // What the tool calls virtual is a module that is put out of a bundle: Node's zlib in a browser's.
    const components = all.filter(({ name }) => !name.startsWith('VirtualComponent'));
    const named = components.map(({ group, name, version }) => `${group ? `${group}/` : ''}${name} ${version}`);
    const expected = [...packages].flatMap(([name, { version, left }]) => (left ? [`${name} ${version}`] : []));
    // One package in one version may lie in two places.
    expect([...new Set(named)].sort()).toEqual(expected.sort());
    expect(components.filter(({ licenses }) => !licenses?.length)).toEqual([]);
    const inside = components.flatMap((each) => each.components ?? []).map(({ name }) => name);
    expect(inside.sort()).toEqual(['CharLS', 'Emscripten', 'Emscripten', 'OpenJPEG']);
  });
});
