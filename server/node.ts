import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import { start } from './start.ts';

/** The only file that knows Node: it reads from the arguments whether to speak over IPC, a pipe or `--stdio`. */
start(createConnection(), {
  now: () => new Date(),
  async readBytes(uri) {
    try {
      return await readFile(fileURLToPath(uri));
    } catch {
      return null;
    }
  },
});
