import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, delimiter, join } from 'node:path';
import { builtOnce } from './built-once.ts';
import { ensureChromium } from './chromium.ts';
import { runCommand } from './command.ts';
import { Failure, describe } from './failure.ts';
import { npmEnvironment } from './npm-environment.ts';
import { CODE_SERVER, HOST_NODE, cacheHome, hostFolder, hostPaths } from './versions.ts';

export interface Host {
  node: string;
  entry: string;
  vscodeVersion: string;
}

export interface SetUp extends Host {
  chromium: string;
}

const MARK = 'complete.json';
export const AGAIN = 'see that the npm registry can be reached and that 2 GB of disk are free, then run this again';

export async function setUp(): Promise<SetUp> {
  const host = await setUpHost();
  const chromium = await ensureChromium();
  console.log(
    `  host: code-server ${CODE_SERVER} (VS Code ${host.vscodeVersion}), Node ${HOST_NODE}; browser: ${chromium}`,
  );
  return { ...host, chromium };
}

export async function setUpHost(): Promise<Host> {
  const folder = hostFolder();
  const ready = readHost(folder);
  if (ready !== null) return ready;
  if (process.platform !== 'linux') {
    throw new Failure(
      `the code-server host is set up on Linux only, and this is ${process.platform}`,
      'set VSCODE_EXECUTABLE_PATH to a desktop VS Code for the extension tests, or run this in a Linux container',
    );
  }
  return builtOnce(folder, readHost, build);
}

function readHost(folder: string): Host | null {
  const { node, entry } = hostPaths(folder);
  try {
    const mark = JSON.parse(readFileSync(join(folder, MARK), 'utf8')) as { vscode: string };
    return existsSync(node) && existsSync(entry) ? { node, entry, vscodeVersion: mark.vscode } : null;
  } catch {
    return null;
  }
}

async function build(folder: string): Promise<void> {
  const { node, nodeHome, vscode } = hostPaths(folder);
  const log = (name: string): string => join(cacheHome(), `log-${name}.txt`);
  writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');

  const plain = npmEnvironment();
  await runCommand({
    title: `Node ${HOST_NODE}`,
    argv: ['npm', 'install', '--ignore-scripts', '--no-audit', '--no-fund', `${basename(nodeHome)}@${HOST_NODE}`],
    cwd: folder,
    env: plain,
    log: log('node'),
    limitSeconds: 600,
    remedy: AGAIN,
  });

  const env = {
    ...plain,
    PATH: [join(nodeHome, 'bin'), plain['PATH']].join(delimiter),
    npm_config_nodedir: nodeHome,
  };
  await runCommand({
    title: `code-server ${CODE_SERVER}`,
    argv: ['npm', 'install', '--ignore-scripts', '--no-audit', '--no-fund', `code-server@${CODE_SERVER}`],
    cwd: folder,
    env,
    log: log('code-server'),
    limitSeconds: 600,
    remedy: AGAIN,
  });
  // Its scripts are ignored: they would build Kerberos bindings, which need headers this host has no use for.
  await runCommand({
    title: 'the VS Code inside it',
    argv: ['npm', 'install', '--omit=dev', '--ignore-scripts', '--no-audit', '--no-fund'],
    cwd: vscode,
    env,
    log: log('vscode'),
    limitSeconds: 600,
    remedy: AGAIN,
  });
  await buildNative(vscode, env, log('native'));

  await runCommand({
    title: 'asking it for its version',
    argv: [node, hostPaths(folder).entry, '--version'],
    cwd: folder,
    env: {
      ...env,
      XDG_CONFIG_HOME: join(folder, 'version-check'),
      XDG_DATA_HOME: join(folder, 'version-check'),
    },
    log: log('version'),
    limitSeconds: 60,
    remedy: 'run this again; if it stays so, the pinned versions in tests/host/versions.ts do not fit this machine',
  });
  const product = JSON.parse(readFileSync(join(vscode, 'package.json'), 'utf8')) as { version: string };
  writeFileSync(
    join(folder, MARK),
    JSON.stringify({ vscode: product.version, codeServer: CODE_SERVER, node: HOST_NODE }),
  );
}

async function buildNative(vscode: string, env: NodeJS.ProcessEnv, log: string): Promise<void> {
  try {
    await runCommand({
      title: 'its two small native parts',
      argv: ['npm', 'rebuild', '@vscode/spdlog', '@vscode/native-watchdog'],
      cwd: vscode,
      env,
      log,
      limitSeconds: 600,
      remedy: 'install python3, make and g++',
    });
  } catch (error) {
    // Logging and a watchdog: the host runs without them, only its own log is noisier.
    console.log(`  going on without them: ${describe(error)}`);
  }
}

if (import.meta.main) {
  try {
    await setUp();
  } catch (error) {
    console.error(describe(error));
    process.exit(1);
  }
}
