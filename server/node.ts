import { readdir, realpath, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import { HeaderThread } from '../disk/header-thread.ts';
import { liesIn, usePlainFile } from '../disk/plain-file.ts';
import { usePicture } from '../disk/use-picture.ts';
import { isOfPath } from '../shared/picture/picture-files.ts';
import type { Files } from './serving/files.ts';
import { Lifecycle } from './serving/lifecycle.ts';
import { start } from './start.ts';

/** Beside this bundle. */
const headers = new HeaderThread(join(dirname(fileURLToPath(import.meta.url)), 'picture-header.thread.cjs'));

const files: Files = {
  async readBytes(uri, roots, most) {
    try {
      const read = await usePlainFile(fileURLToPath(uri), pathsOf(roots), most, (file) => file.read(0, file.size));
      return 'found' in read ? read.found : read.refused === 'too large' ? 'too large' : null;
    } catch {
      return null;
    }
  },

  async listFolder(uri, roots) {
    try {
      const folder = await realpath(fileURLToPath(uri));
      if (!(await liesIn(folder, pathsOf(roots)))) return null;
      const entries = await readdir(folder, { withFileTypes: true });
      return await Promise.all(
        entries
          .filter((entry) => entry.isFile() || entry.isDirectory())
          .map(async (entry) =>
            entry.isDirectory()
              ? { name: entry.name, kind: 'folder' as const, size: null }
              : { name: entry.name, kind: 'file' as const, size: await sizeOf(join(folder, entry.name)) },
          ),
      );
    } catch {
      return null;
    }
  },

  async storedScale(uri, roots, name) {
    return headers.storedScale(fileURLToPath(uri), pathsOf(roots), name);
  },

  async isThere(uri, roots) {
    try {
      const looked = await usePicture(fileURLToPath(uri), pathsOf(roots), () => Promise.resolve(true));
      if ('found' in looked) return true;
      return looked.refused === 'not there' ? false : isOfPath(looked.refused) ? looked.refused : null;
    } catch {
      return null;
    }
  },

  async stampOf(uri, roots) {
    try {
      const looked = await usePicture(fileURLToPath(uri), pathsOf(roots), ({ stamp }) => Promise.resolve(stamp));
      return 'found' in looked ? looked.found : null;
    } catch {
      return null;
    }
  },
};

/** A folder that is no file of this machine is none that a file may lie in. */
function pathsOf(roots: readonly string[]): string[] {
  return roots.flatMap((root) => {
    try {
      return [fileURLToPath(root)];
    } catch {
      return [];
    }
  });
}

async function sizeOf(path: string): Promise<number | null> {
  try {
    return (await stat(path)).size;
  } catch {
    return null;
  }
}

/** The only file that knows Node: it reads from the arguments whether to speak over IPC, a pipe or `--stdio`. */
const lifecycle = new Lifecycle();
start(
  createConnection(lifecycle.options),
  { now: () => new Date(), reaches: (uri) => uri.startsWith('file:'), files },
  lifecycle,
);
