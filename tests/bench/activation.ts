// How long the extension takes to begin, in the real hosts, beside another extension with a language server in the same
// window: the one for CSS that comes with the editor. Nothing here fails on a time: machines differ.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { closeBrowser, launchBrowser } from '../host/browser.ts';
import { within } from '../host/checks.ts';
import { ensureChromium } from '../host/chromium.ts';
import { startCodeServer } from '../host/code-server.ts';
import { describe } from '../host/failure.ts';
import { installExtension } from '../host/install-extension.ts';
import { setUp } from '../host/setup.ts';
import { suiteInPage } from '../host/suite-page.ts';
import { copyOfExamples, scratchFolder, underTest } from '../host/under-test.ts';
import { openWebProfile, serveWeb } from '../host/web-host.ts';
import { setUpWebHost } from '../host/web-setup.ts';
import type { Began } from './activation-suite.ts';

const RUNS = 6;
const OURS = 'ungula.ungula';
const PEER = 'vscode.css-language-features';
const orders: readonly (readonly (readonly [string, string])[])[] = [
  [
    [OURS, 'juniper.hoof'],
    [PEER, 'broken.css'],
  ],
  [
    [PEER, 'broken.css'],
    [OURS, 'juniper.hoof'],
  ],
];

type Measured = Record<string, Began>;

const subject = underTest();
const scratch = scratchFolder('bench');
const workspace = copyOfExamples(subject.examples, scratch);
writeFileSync(join(workspace, 'broken.css'), 'a { no end\n');
const extension = installExtension(subject, scratch);

/** The suite that begins with one or the other extension, beside the extension, since the web host serves nothing else. */
async function suiteFor(order: number, platform: 'node' | 'browser'): Promise<string> {
  const folder = join(extension, `suite-${platform}-${order}`);
  mkdirSync(folder, { recursive: true });
  // The host loads it with require, and the package around it makes a .js file an ES module.
  writeFileSync(join(folder, 'package.json'), '{ "type": "commonjs" }\n');
  const outfile = join(folder, 'index.js');
  await build({
    entryPoints: [join(import.meta.dirname, 'activation-suite.ts')],
    outfile,
    bundle: true,
    platform,
    format: 'cjs',
    external: ['vscode'],
    define: { UNGULA_BENCH_ORDER: JSON.stringify(orders[order]) },
    logLevel: 'warning',
  });
  return outfile;
}

async function inCodeServer(): Promise<Measured[]> {
  const host = await setUp();
  const measured: Measured[] = [];
  const server = await startCodeServer(host, { testDriver: true });
  const browser = await launchBrowser(host.chromium);
  try {
    for (let run = 0; run < RUNS; run++) {
      const remote = (path: string): string => `vscode-remote://127.0.0.1:${server.port}${path}`;
      const payload = [
        ['extensionDevelopmentPath', remote(extension)],
        ['extensionTestsPath', remote(await suiteFor(run % 2, 'node'))],
        ['skipWelcome', 'true'],
      ];
      const query = new URLSearchParams({ folder: workspace, payload: JSON.stringify(payload) });
      const page = await browser.newPage();
      measured.push(read(await within(60, 'one window', suiteInPage(page, `${server.url}/?${query.toString()}`))));
      await page.close();
    }
  } finally {
    await closeBrowser(browser);
    await server.stop();
  }
  return measured;
}

async function inWebHost(): Promise<Measured[]> {
  const host = await setUpWebHost();
  const chromium = await ensureChromium();
  const measured: Measured[] = [];
  for (let run = 0; run < RUNS; run++) {
    const served = await serveWeb(host, extension, workspace, await suiteFor(run % 2, 'browser'));
    const context = await openWebProfile(chromium);
    try {
      measured.push(read(await within(60, 'one window', suiteInPage(await context.newPage(), served.url))));
    } finally {
      await context.close();
      served.stop();
    }
  }
  return measured;
}

function read({ result }: { result: string | null }): Measured {
  if (result === null) throw new Error('the window told no figures; UNGULA_HOST_VERBOSE=1 prints what it said');
  return JSON.parse(result) as Measured;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return ((sorted[middle] ?? NaN) + (sorted[sorted.length - 1 - middle] ?? NaN)) / 2;
}

function print(host: string, measured: readonly Measured[]): void {
  const of = (id: string, what: keyof Began): number => median(measured.map((one) => one[id]?.[what] ?? NaN));
  console.log(`\n${host}, median of ${measured.length} windows, each extension first in half of them\n`);
  console.log('| until | Ungula, ms | CSS, ms | ratio |\n| --- | --- | --- | --- |');
  for (const [what, words] of [
    ['active', 'activate has ended'],
    ['findings', 'first findings of an opened file'],
  ] as const) {
    const [ours, peer] = [of(OURS, what), of(PEER, what)];
    console.log(`| ${words} | ${ours.toFixed(0)} | ${peer.toFixed(0)} | ${(ours / peer).toFixed(2)} |`);
  }
}

try {
  print('code-server, extension host in Node', await inCodeServer());
  print('VS Code as a page, extension host in a web worker', await inWebHost());
  process.exit(0);
} catch (error) {
  console.error(describe(error));
  process.exit(1);
}
