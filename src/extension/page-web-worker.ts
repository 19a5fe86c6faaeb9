import type { ThreadAnswer } from '../../shared/protocol/page-thread.ts';
import type { PageWorker } from './page-maker.ts';

/** A worker of a browser that makes pages. */
export function pageWebWorker(worker: Worker): PageWorker {
  return {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
    postMessage: (question) => worker.postMessage(question),
    hear(answered, failed) {
      worker.addEventListener('message', ({ data }: MessageEvent<ThreadAnswer>) => answered(data));
      worker.addEventListener('error', failed);
    },
    terminate: () => worker.terminate(),
  };
}
