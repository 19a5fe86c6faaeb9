import { Worker } from 'node:worker_threads';
import type { DecoderAnswer, DecoderWorker } from './worker-decoder.ts';

/** A thread of Node's, used as a worker in a browser is. */
export function nodeThread(file: string): DecoderWorker {
  const thread = new Worker(file);
  return {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    postMessage: (question) => thread.postMessage(question),
    addEventListener(kind: 'message' | 'error', hear: (event: { readonly data: DecoderAnswer }) => void) {
      thread.on(kind, (data: DecoderAnswer) => hear({ data }));
    },
    terminate: () => void thread.terminate(),
  };
}
