import { spawn } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { chromium, type BrowserContext } from 'playwright-core';
import { CHROMIUM_ARGS } from './browser.ts';
import { freePort } from './code-server.ts';
import { Failure } from './failure.ts';
import { disownGroup, ownGroup, signalGroup } from './leftovers.ts';
import type { ServeWeb } from './serve-web.ts';
import { scratchFolder } from './under-test.ts';
import type { WebHost } from './web-setup.ts';

export interface Served {
  url: string;
  stop(): void;
}

/** Serves the page with an extension; `folder` becomes a workspace whose changes stay in the page. */
export async function serveWeb(host: WebHost, extension: string, folder: string, suite?: string): Promise<Served> {
  const port = await freePort();
  const serve: ServeWeb = {
    server: host.server,
    options: {
      browserType: 'none',
      quality: 'stable',
      commit: host.commit,
      testRunnerDataDir: host.builds,
      extensionDevelopmentPath: extension,
      ...(suite === undefined ? {} : { extensionTestsPath: suite }),
      folderPath: folder,
      host: 'localhost',
      port,
    },
  };
  const logFile = join(scratchFolder('web-log'), 'log.txt');
  const output = openSync(logFile, 'w');
  const child = spawn(process.execPath, [join(import.meta.dirname, 'serve-web.ts'), JSON.stringify(serve)], {
    detached: true,
    stdio: ['ignore', output, output],
  });
  closeSync(output);
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  const stop = (): void => {
    if (group === undefined) return;
    signalGroup(group, 'SIGKILL');
    disownGroup(group);
  };
  const url = `http://localhost:${port}`;
  const until = Date.now() + 30_000;
  while (Date.now() < until && child.exitCode === null && child.signalCode === null && child.pid !== undefined) {
    try {
      if ((await fetch(url, { signal: AbortSignal.timeout(5000) })).ok) return { url, stop };
    } catch {
      // Not listening yet.
    }
    await sleep(100);
  }
  stop();
  throw new Failure(
    `the web host did not come up on port ${port}:\n${readFileSync(logFile, 'utf8').trimEnd()}`,
    'see that the port is free and that /tmp can be written, then run this again',
  );
}

/** A browser in which webviews of the page work: their service worker stands on another name than the page. */
export async function openWebProfile(executablePath: string): Promise<BrowserContext> {
  const profile = scratchFolder('web-profile');
  mkdirSync(join(profile, 'Default'), { recursive: true });
  const preferences = { profile: { cookie_controls_mode: 0, block_third_party_cookies: false } };
  writeFileSync(join(profile, 'Default', 'Preferences'), JSON.stringify(preferences));
  return chromium.launchPersistentContext(profile, {
    executablePath,
    args: CHROMIUM_ARGS,
    timeout: 30_000,
    viewport: { width: 1440, height: 900 },
    locale: 'en-US',
  });
}
