import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import type { ListFolder, ReadBytes } from './files.ts';
import { Lifecycle } from './lifecycle.ts';
import { start } from './start.ts';

const readBytes: ReadBytes = async (uri) => {
  try {
    return await readFile(fileURLToPath(uri));
  } catch {
    return null;
  }
};

const listFolder: ListFolder = async (uri) => {
  try {
    const folder = fileURLToPath(uri);
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
};

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
  { now: () => new Date(), reaches: (uri) => uri.startsWith('file:'), readBytes, listFolder },
  lifecycle,
);
