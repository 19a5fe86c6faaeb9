import { spawn, type ChildProcess } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { Failure } from './failure.ts';
import { disownGroup, discardFolder, ownGroup, signalGroup } from './leftovers.ts';
import type { Host } from './setup.ts';
import { scratchFolder } from './under-test.ts';

export interface Start {
  /** Puts extensions into the still empty folder before the server reads it. */
  fillExtensions?: (folder: string) => void;
  settings?: Record<string, unknown>;
  env?: Record<string, string>;
  port?: number;
  /** The workbench's test driver, which the extension test runner needs. */
  testDriver?: boolean;
}

export interface CodeServer {
  port: number;
  url: string;
  /** The process group that all its processes are in. */
  group: number | undefined;
  log(): string;
  ended: Promise<void>;
  stop(): Promise<void>;
}

const QUIET_SETTINGS: Record<string, unknown> = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.colorTheme': 'Default Light Modern',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'telemetry.telemetryLevel': 'off',
  'chat.disableAIFeatures': true,
  'chat.commandCenter.enabled': false,
  'git.enabled': false,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'security.workspace.trust.enabled': false,
  // So that every folder is a row of its own.
  'explorer.compactFolders': false,
  'files.simpleDialog.enable': true,
};

export async function startCodeServer(host: Host, start: Start = {}): Promise<CodeServer> {
  const folder = scratchFolder('host');
  const user = join(folder, 'user');
  const extensions = join(folder, 'extensions');
  mkdirSync(join(user, 'User'), { recursive: true });
  mkdirSync(extensions);
  mkdirSync(join(folder, 'tmp'));
  writeFileSync(join(user, 'User', 'settings.json'), JSON.stringify({ ...QUIET_SETTINGS, ...start.settings }));
  // Without a file of its own it writes one into the home folder.
  const config = join(folder, 'config.yaml');
  writeFileSync(config, '{}\n');
  start.fillExtensions?.(extensions);

  const port = start.port ?? (await freePort());
  const logFile = join(folder, 'log.txt');
  const output = openSync(logFile, 'w');
  const args = [
    ['--config', config, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`],
    ['--user-data-dir', user, '--extensions-dir', extensions],
    ['--disable-telemetry', '--disable-update-check', '--disable-workspace-trust', '--ignore-last-opened'],
    start.testDriver === true ? ['--vscode-option', 'enable-smoke-test-driver'] : [],
  ];
  const child = spawn(host.node, [host.entry, ...args.flat()], {
    cwd: folder,
    detached: true,
    stdio: ['ignore', output, output],
    env: { ...environment(folder), ...start.env },
  });
  closeSync(output);
  const group = child.pid;
  if (group !== undefined) ownGroup(group);
  const ended = new Promise<void>((resolve) => {
    child.once('exit', () => resolve());
    child.once('error', () => resolve());
  });
  const server: CodeServer = {
    port,
    url: `http://127.0.0.1:${port}`,
    group,
    log: () => readFileSync(logFile, 'utf8'),
    ended,
    stop: async () => {
      if (group !== undefined) await stopGroup(group);
      discardFolder(folder);
    },
  };
  await ready(server, child);
  return server;
}

function environment(folder: string): NodeJS.ProcessEnv {
  const env: NodeJS.ProcessEnv = {};
  for (const [name, value] of Object.entries(process.env)) {
    // A terminal inside another VS Code would hand its own variables on, and npm's are the clone's.
    if (!/^(VSCODE_|npm_|CODE_SERVER_|ELECTRON_|NODE_OPTIONS$|PASSWORD$|HASHED_PASSWORD$)/.test(name))
      env[name] = value;
  }
  // All that it would leave in the home folder and in /tmp goes into the folder that is removed at the end.
  const xdg = join(folder, 'xdg');
  return {
    ...env,
    EXTENSIONS_GALLERY: '{}',
    TMPDIR: join(folder, 'tmp'),
    XDG_CONFIG_HOME: xdg,
    XDG_DATA_HOME: xdg,
    XDG_CACHE_HOME: xdg,
    XDG_RUNTIME_DIR: join(folder, 'tmp'),
  };
}

async function ready(server: CodeServer, child: ChildProcess): Promise<void> {
  const until = Date.now() + 30_000;
  while (Date.now() < until && child.exitCode === null && child.signalCode === null && child.pid !== undefined) {
    try {
      const answer = await fetch(`${server.url}/healthz`, { signal: AbortSignal.timeout(2000) });
      if (answer.ok) return;
    } catch {
      // Not listening yet.
    }
    await sleep(100);
  }
  const log = server.log().trimEnd();
  await server.stop();
  throw new Failure(
    `code-server did not come up on port ${server.port}${log === '' ? '' : `:\n${log}`}`,
    'see that the port is free and that /tmp can be written, then run this again',
  );
}

async function stopGroup(group: number): Promise<void> {
  signalGroup(group, 'SIGTERM');
  const until = Date.now() + 4000;
  while (signalGroup(group, 0) && Date.now() < until) await sleep(50);
  signalGroup(group, 'SIGKILL');
  disownGroup(group);
}

export async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve, reject) => {
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', resolve);
  });
  const address = probe.address();
  await new Promise((resolve) => probe.close(resolve));
  if (address === null || typeof address === 'string') throw new Error('the probe has no port');
  return address.port;
}
