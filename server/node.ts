import { createConnection } from 'vscode-languageserver/node';
import { start } from './start.ts';

/** The only file that knows Node: it reads from the arguments whether to speak over IPC, a pipe or `--stdio`. */
start(createConnection(), { now: () => new Date() });
