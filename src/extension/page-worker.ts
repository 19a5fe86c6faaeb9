import { Worker } from 'node:worker_threads';
import { pageThread, type ThreadAnswer } from '../../shared/protocol/page-thread.ts';
import type { PageWorker } from './page-maker.ts';

/** The command line's bundle as a thread that makes pages: all that they take is in it already. */
export function pageWorker(bundle: string): PageWorker {
  const thread = new Worker(bundle, { workerData: pageThread });
  return {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    postMessage: (question) => thread.postMessage(question),
    hear(answered, failed) {
      thread.on('message', (answer: ThreadAnswer) => answered(answer));
      thread.on('error', failed);
    },
    terminate: () => void thread.terminate(),
  };
}
