import { build, type BuildOptions } from 'esbuild';
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
// @ts-expect-error -- plain JavaScript
import { asEsModules, esModule } from '../../scripts/as-es-modules.mjs';

const root = join(import.meta.dirname, '..', '..');
const require = createRequire(import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'ungula-es-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What a value is made of, two levels down: enough to see each namespace with what is in it. */
function shape(value: unknown, depth = 2): unknown {
  if (typeof value === 'function')
    return { is: 'function', takes: value.length, members: depth > 0 ? members(value, depth) : null };
  if (typeof value !== 'object' || value === null) return value;
  return depth > 0 ? members(value, depth) : Object.keys(value).sort();
}

function members(value: object, depth: number): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(value)
      .filter(([name]) => name !== '__esModule')
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, member]) => [name, shape(member, depth - 1)]),
  );
}

async function asImported(name: string, plugins: unknown[]): Promise<object> {
  const outfile = join(folder, `${name.replaceAll('/', '-')}.mjs`);
  await build({
    stdin: { contents: `export * from '${name}';`, resolveDir: root },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
    plugins: plugins as [],
    logLevel: 'warning',
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  });
  return (await import(pathToFileURL(outfile).href)) as object;
}

describe('the protocol’s libraries given back as ES modules', () => {
  // Two modules each give a function of this name, and both are passed on: CommonJS takes the first, ES modules none. Whoever
  // reads one of them here is told by the build.
  const twice = ['createMessageConnection', 'createProtocolConnection'];
  it.each([
    ['vscode-jsonrpc/node', []],
    ['vscode-languageserver-protocol/node', twice.slice(0, 1)],
    ['vscode-languageserver/node', twice],
  ] as const)('%s exports the very same, down into its namespaces', async (name, without) => {
    const original = shape(require(name) as object) as Record<string, unknown>;
    expect(Object.keys(original).length).toBeGreaterThan(50);
    for (const one of without) delete original[one];
    expect(shape(await asImported(name, [asEsModules]))).toEqual(original);
  });

  it('the build fails where something that is not exported is read', () => {
    for (const output of Object.values(outputs) as BuildOptions[])
      if (output.plugins?.includes(asEsModules)) expect(output.logOverride?.['import-is-undefined']).toBe('error');
  });

  it('a shape that is not known stops the build', () => {
    expect(() => esModule('if (x) exports.a = 1;\n', 'odd.js')).toThrow(/odd\.js is not in a shape/);
    expect(() => esModule('const a = require("a").b;\n', 'odd.js')).toThrow(/odd\.js/);
    expect(esModule('"use strict";\nexports.a = void 0;\nconst b = 1;\nexports.a = b;\n', 'plain.js')).toBe(
      'const b = 1;\nexport { b as a };\n',
    );
  });
});
