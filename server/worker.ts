import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { start } from './start.ts';

/** The only file that knows a web worker, as `node.ts` is the only one that knows Node. */
const port = self as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

start(createConnection(new BrowserMessageReader(port), new BrowserMessageWriter(port)), {
  now: () => new Date(),
  // A worker reaches no file of the workspace by itself.
  reaches: () => false,
  files: null,
});
