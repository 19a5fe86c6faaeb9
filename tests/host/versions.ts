import { homedir } from 'node:os';
import { join } from 'node:path';

// Pinned together: code-server's own native parts are built against exactly this Node.
export const CODE_SERVER = '4.139.1';
export const HOST_NODE = '24.21.0';

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

export interface HostPaths {
  node: string;
  entry: string;
  vscodeVersion: string;
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
