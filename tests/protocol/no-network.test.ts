import { spawnSync } from 'node:child_process';
import { globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { LanguageClient, wholeWorkspace } from './language-client.ts';
import { serverBundle } from './server-bundle.ts';

/** The program speaks with nobody but the editor that it serves: it makes no connection, and counts nobody's steps. */

const root = resolve(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'ungula-network-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Loaded before the program: whatever would go out is said on standard error instead. */
const trap = `data:text/javascript,${encodeURIComponent(`
  import net from 'node:net';
  import dgram from 'node:dgram';
  import dns from 'node:dns';
  const told = (what) => () => { process.stderr.write('WENT OUT: ' + what); throw new Error('no network here'); };
  net.Socket.prototype.connect = told('connect');
  net.Server.prototype.listen = told('listen');
  dgram.Socket.prototype.bind = told('bind');
  dgram.Socket.prototype.send = told('send');
  dns.lookup = told('lookup');
`)}`;

const run = (...args: string[]) =>
  spawnSync(process.execPath, ['--import', trap, ...args], { cwd: root, encoding: 'utf8', timeout: 600_000 });

describe('nothing goes out', () => {
  it('and the trap would tell', () => {
    const { stderr } = run('-e', 'fetch("http://127.0.0.1:48123/").catch(() => undefined)');
    expect(stderr).toContain('WENT OUT: ');
  });

  it.each([
    ['check', 'examples/juniper.hoof'],
    ['measure', 'examples/juniper.hoof'],
    ['course', 'examples/juniper.hoof'],
    ['report', 'examples/juniper.hoof', '-o', join(folder, 'report.html')],
    ['export', 'examples/juniper.hoof', '-o', join(folder, 'package'), '--parquet'],
  ])('from ungula %s %s', { timeout: 600_000 }, (...args) => {
    const { stdout, stderr, status } = run('src/cli/main.ts', ...args);
    expect(stderr).not.toContain('WENT OUT');
    expect(status, stderr).toBeLessThan(2);
    expect(stdout.length + stderr.length).toBeGreaterThan(0);
  });

  it('from the language server with the examples open', { timeout: 600_000 }, async () => {
    const uri = new URL('../../examples/juniper.hoof', import.meta.url);
    const client = await LanguageClient.start({
      capabilities: wholeWorkspace,
      folder: new URL('.', uri).href,
      command: ['--import', trap, await serverBundle(), '--stdio'],
    });
    client.open(uri.href, readFileSync(uri, 'utf8'));
    expect((await client.symbols(uri.href)).length).toBeGreaterThan(0);
    await client.about('diagnostic', uri.href);
    await client.about('documentLink', uri.href);
    expect(await client.stop()).toBe(0);
    expect(client.log.join('\n')).not.toContain('WENT OUT');
  });
});

describe('the source', () => {
  const files = globSync('{server,shared,src}/**/*.{ts,tsx}', { cwd: root });

  it.each([
    ['a module of the network', /from '(?:node:)?(?:net|tls|http|https|http2|dgram|dns|inspector)(?:\/[^']*)?'/],
    ['what a page asks the network by', /\b(?:XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection)\b/],
    ['telemetry', /telemetry/i],
    ['what is not in it as text', /\beval\(|new Function\(/],
  ])('names nowhere %s', (_, pattern) => {
    expect(files.length).toBeGreaterThan(200);
    expect(files.filter((file) => pattern.test(readFileSync(join(root, file), 'utf8')))).toEqual([]);
  });
});
