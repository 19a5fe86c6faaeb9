import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { Lifecycle } from './serving/lifecycle.ts';
import { start } from './start.ts';

/** The only file that knows a web worker, as `node.ts` is the only one that knows Node. */
const port = self as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const lifecycle = new Lifecycle();
start(
  createConnection(new BrowserMessageReader(port), new BrowserMessageWriter(port), lifecycle.options),
  // A worker reaches no file of the workspace by itself.
  { now: () => new Date(), reaches: () => false, files: null },
  lifecycle,
);
