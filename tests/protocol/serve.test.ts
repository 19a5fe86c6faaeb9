import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { build, type BuildOptions } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { commandLine } from '../../src/cli/command-line.ts';
import { LanguageClient } from './language-client.ts';

const root = resolve(import.meta.dirname, '..', '..');
// Below the checkout: its package.json is what makes cli.js an ES module.
const folder = join(root, '.cache', 'protocol', `serve-${process.pid}`);
const program = join(folder, 'cli.js');

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  for (const output of [outputs.commandLine, outputs.server] as { outfile: string }[]) {
    const { outfile, ...options } = output;
    const { outputFiles = [] } = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
    writeFileSync(join(folder, basename(outfile)), outputFiles[0]?.contents ?? '');
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const uri = 'file:///served.hoof';
const withoutGroupBy = ['--import', 'data:text/javascript,delete Object.groupBy'];

describe('the language server by the command line', () => {
  it.each<[string, readonly string[]]>([
    ['ungula serve --stdio', [program, 'serve', '--stdio']],
    ['with the number of the client', [program, 'serve', '--stdio', `--clientProcessId=${process.pid}`]],
    ['on Node 20, which has no Object.groupBy', [...withoutGroupBy, program, 'serve', '--stdio']],
    ['its own bundle on Node 20', [...withoutGroupBy, join(folder, 'server.js'), '--stdio']],
  ])('%s', async (_, command) => {
    const client = await LanguageClient.start({ command });
    expect(client.initialized.serverInfo).toEqual({ name: 'ungula' });
    client.open(uri, 'hoof 1\nvisit 2026-03-04\n  weight 512\n');
    expect(await client.diagnostics(uri)).toMatchObject([
      { code: 'notation/missing-unit', range: { start: { line: 2, character: 9 } } },
    ]);
    client.change(uri, 2, [{ text: 'hoof 1\nvisit 2026-03-04\n  weight 512 kg\n' }]);
    expect(await client.diagnostics(uri, 2)).toEqual([]);
    expect(await client.stop()).toBe(0);
    expect(client.log).toEqual([]);
  });

  it('ends with the connection, with status 1 where nobody shut it down', async () => {
    const child = spawn(process.execPath, [program, 'serve', '--stdio'], { stdio: ['pipe', 'ignore', 'inherit'] });
    child.stdin.end();
    expect(await once(child, 'exit')).toEqual([1, null]);
  });
});

describe('wrong arguments of serve', () => {
  it.each<[readonly string[], string]>([
    [[], 'serve speaks over standard input and output only: ungula serve --stdio'],
    [['--stdio', 'a.hoof'], 'serve takes no file, the editor opens them: ungula serve --stdio'],
    [['--socket=6000'], 'there is no option --socket'],
  ])('%j are refused in one line, and nothing is started', async (args, words) => {
    const told: string[] = [];
    const status = await commandLine(['serve', ...args], {
      out: (text) => told.push(text),
      err: (line) => told.push(line),
    });
    expect(status).toBe(2);
    expect(told).toEqual([expect.stringContaining(words)]);
  });

  it('the program ends with 2 at them, and its help tells of serve', () => {
    const refused = spawnSync(process.execPath, [program, 'serve'], { encoding: 'utf8', input: '' });
    expect(refused).toMatchObject({ status: 2, stdout: '' });
    expect(refused.stderr).toMatch(/^ungula: serve speaks [^\n]+\n$/);
    const help = spawnSync(process.execPath, [program, '--help'], { encoding: 'utf8' });
    expect(help.stdout).toContain('ungula serve --stdio\n');
  });
});
