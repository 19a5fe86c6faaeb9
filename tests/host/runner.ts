import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { Browser } from 'playwright-core';
import { closeBrowser, launchBrowser } from './browser.ts';
import { within, type Outcome } from './checks.ts';
import { startCodeServer } from './code-server.ts';
import type { DesktopRun } from './desktop.ts';
import { addDicomCase } from './dicom-case.ts';
import { expectedFor } from './expected.ts';
import { Failure } from './failure.ts';
import { disownGroup, ownGroup, signalGroup } from './leftovers.ts';
import type { SetUp } from './setup.ts';
import { suiteInPage } from './suite-page.ts';
import { ROOT, copyOfCases, scratchFolder, type UnderTest } from './under-test.ts';

const LIMIT_SECONDS = 300;
const DESKTOP = 'the extension suite in a desktop VS Code';

/** The suite of suite/index.ts inside a real extension host: a desktop VS Code where one is named, else code-server. */
export async function runExtensionSuite(subject: UnderTest, setUp: () => Promise<SetUp>): Promise<Outcome> {
  const job = await prepare(subject);
  const desktop = process.env['VSCODE_EXECUTABLE_PATH'] ?? '';
  if (desktop !== '') {
    console.log(`Extension suite in the desktop VS Code at ${desktop}`);
    await runInDesktop(job, desktop);
    return outcomeOf(job);
  }
  const why = 'no VSCODE_EXECUTABLE_PATH and no download here';
  console.log(`desktop VS Code: not run: ${why}`);
  const host = await setUp();
  console.log(`Extension suite in code-server (VS Code ${host.vscodeVersion}, a Node extension host behind a browser)`);
  await runInCodeServer(job, host);
  const outcome = outcomeOf(job);
  return { ...outcome, skipped: [...outcome.skipped, { name: DESKTOP, why }] };
}

interface Job {
  extension: string;
  suite: string;
  workspace: string;
  result: string;
  env: Record<string, string>;
}

async function prepare(subject: UnderTest): Promise<Job> {
  const folder = scratchFolder('suite');
  const workspace = copyOfCases(subject.examples, folder);
  addDicomCase(workspace);
  const expected = join(folder, 'expected.json');
  writeFileSync(expected, JSON.stringify(expectedFor(subject.cli, workspace)));
  const result = join(folder, 'result.json');
  return {
    extension: subject.extension,
    suite: await bundleSuite(),
    workspace,
    result,
    env: { UNGULA_SUITE_EXPECTED: expected, UNGULA_SUITE_RESULT: result },
  };
}

async function bundleSuite(): Promise<string> {
  const folder = join(ROOT, '.cache', 'host-suite');
  mkdirSync(folder, { recursive: true });
  // The host loads it with require, and the clone's own package.json would make a .js file an ES module.
  writeFileSync(join(folder, 'package.json'), '{ "type": "commonjs" }\n');
  const suite = join(folder, 'index.js');
  await build({
    entryPoints: [join(import.meta.dirname, 'suite', 'index.ts')],
    outfile: suite,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    external: ['vscode'],
    sourcemap: 'inline',
    logLevel: 'warning',
  });
  return suite;
}

function outcomeOf(job: Job): Outcome {
  let text: string;
  try {
    text = readFileSync(job.result, 'utf8');
  } catch {
    throw new Failure(
      'the suite ended without saying what became of its checks',
      'look above for what the host printed; a suite that cannot be loaded looks like this too',
    );
  }
  const outcome = JSON.parse(text) as Outcome;
  if (outcome.passed + outcome.failed === 0)
    throw new Failure('the suite ran no check', 'see tests/host/suite/index.ts');
  return outcome;
}

async function runInDesktop(job: Job, executable: string): Promise<void> {
  if (!existsSync(executable)) {
    throw new Failure(
      `VSCODE_EXECUTABLE_PATH names ${executable}, and there is no such file`,
      "set it to a desktop VS Code's own executable, or unset it to use code-server",
    );
  }
  const run: DesktopRun = {
    executable,
    extension: job.extension,
    suite: job.suite,
    workspace: job.workspace,
    profile: scratchFolder('desktop'),
    env: job.env,
  };
  // In a process group of its own, since runTests gives no handle to stop a VS Code that hangs.
  const script = join(import.meta.dirname, 'desktop.ts');
  const child = spawn(process.execPath, [script, JSON.stringify(run)], { detached: true, stdio: 'inherit' });
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  try {
    // Failed checks end it with a status too; what they were is in the result, and without one outcomeOf complains.
    await within(LIMIT_SECONDS, 'the suite in the desktop VS Code', once(child, 'exit'));
  } finally {
    if (group !== undefined) {
      signalGroup(group, 'SIGKILL');
      disownGroup(group);
    }
  }
}

async function runInCodeServer(job: Job, host: SetUp): Promise<void> {
  const server = await startCodeServer(host, { testDriver: true, env: job.env });
  let browser: Browser | undefined;
  let passed = false;
  try {
    browser = await launchBrowser(host.chromium);
    const page = await browser.newPage();
    const run = suiteInPage(page, address(server.port, job));
    passed = (await within(LIMIT_SECONDS, 'the suite in code-server', run)).code === 0;
  } finally {
    await closeBrowser(browser);
    if (!passed) printLog(server.log());
    await server.stop();
  }
}

function address(port: number, job: Job): string {
  const remote = (path: string): string => `vscode-remote://127.0.0.1:${port}${path}`;
  const payload = [
    ['extensionDevelopmentPath', remote(job.extension)],
    ['extensionTestsPath', remote(job.suite)],
    ['skipWelcome', 'true'],
  ];
  const query = new URLSearchParams({ folder: job.workspace, payload: JSON.stringify(payload) });
  return `http://127.0.0.1:${port}/?${query.toString()}`;
}

function printLog(log: string): void {
  const tail = log.trimEnd().split('\n').slice(-15).join('\n');
  if (tail !== '') console.log(`  end of the host's log:\n${tail.replace(/^/gm, '    | ')}`);
}
