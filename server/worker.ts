import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { answerPage } from '../shared/protocol/page-answer.ts';
import { isPageQuestion } from '../shared/protocol/page-thread.ts';
import { Lifecycle } from './serving/lifecycle.ts';
import { start } from './start.ts';

/** The only file that knows a web worker, as `node.ts` is the only one that knows Node. */
const scope = self as unknown as Worker;

/**
 * What a server hears, less the questions for pages. A browser runs this bundle a second time to make those: a page takes
 * nearly all that a server does, and a bundle of their own would carry it twice.
 */
const port = {
  set onmessage(hear: (event: MessageEvent) => void) {
    // oxlint-disable-next-line unicorn/prefer-add-event-listener -- one listener, as the reader sets its own
    scope.onmessage = (event: MessageEvent<unknown>) => {
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
      if (isPageQuestion(event.data)) scope.postMessage(answerPage(event.data));
      else hear(event);
    };
  },
  addEventListener: (kind: 'error', hear: (event: Event) => void) => scope.addEventListener(kind, hear),
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
  postMessage: (message: unknown) => scope.postMessage(message),
} as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const lifecycle = new Lifecycle();
start(
  createConnection(new BrowserMessageReader(port), new BrowserMessageWriter(port), lifecycle.options),
  // A worker reaches no file of the workspace by itself.
  { now: () => new Date(), reaches: () => false, files: null },
  lifecycle,
);
