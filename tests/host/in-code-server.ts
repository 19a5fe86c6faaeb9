import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { closeBrowser, launchBrowser, openWorkbench, type Workbench } from './browser.ts';
import { Checks, type Outcome } from './checks.ts';
import { startCodeServer, type CodeServer } from './code-server.ts';
import { installExtension } from './install-extension.ts';
import { installPackage } from './install-package.ts';
import type { SetUp } from './setup.ts';
import { ROOT, type UnderTest } from './under-test.ts';

export const SHOTS = join(ROOT, 'out', 'screenshots');

/** The editor itself, for who opens another window on it or does it harm. */
export interface RunningEditor {
  readonly server: Pick<CodeServer, 'url' | 'group'>;
  readonly browser: Browser;
}

/** What is done in a real editor, with the folder that it has open. */
interface Play {
  /** `a newcomer`. */
  readonly name: string;
  /** Makes the folder. */
  workspace(): string;
  work(bench: Workbench, checks: Checks, workspace: string, editor: RunningEditor): Promise<void>;
}

/** A part of the host tests that runs in code-server, which is VS Code in a browser. What failed is on a screenshot. */
export async function inCodeServer(
  { name, ...play }: Play,
  subject: UnderTest,
  setUp: () => Promise<SetUp>,
): Promise<Outcome> {
  const heading = name.replace(/^./, (letter) => letter.toUpperCase());
  if (process.platform !== 'linux') {
    const why = `the code-server host is set up on Linux only, and this is ${process.platform}`;
    console.log(`${heading}: not run: ${why}`);
    return { passed: 0, failed: 0, skipped: [{ name, why }] };
  }
  const host = await setUp();
  console.log(`${heading}: code-server (VS Code ${host.vscodeVersion}) in Chromium`);
  const workspace = play.workspace();
  const checks = new Checks();
  const server = await startCodeServer(host, {
    fillExtensions: (folder) => {
      if (subject.vsix === null) installExtension(subject, folder);
      else installPackage(host, subject.vsix, folder);
    },
  });
  let browser: Browser | undefined;
  try {
    browser = await launchBrowser(host.chromium);
    const bench = await openWorkbench(browser, server.url, workspace);
    await play.work(bench, checks, workspace, { server, browser });
    if (checks.outcome.failed > 0) await bench.screenshot(join(SHOTS, 'last-failure.png'));
  } finally {
    await closeBrowser(browser);
    await server.stop();
  }
  console.log(`  screenshots are in ${SHOTS}`);
  return checks.outcome;
}
