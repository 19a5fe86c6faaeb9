import { Worker, type ResourceLimits } from 'node:worker_threads';
import type { DecoderWorker } from './worker-decoder.ts';

/** For the heap. Pixels lie outside it, bounded before they are allocated (`refuseImpossibleSize`). */
const usual: ResourceLimits = { maxOldGenerationSizeMb: 1024 };

/** A thread of Node's, used as a worker in a browser is. One that takes more memory than it may ends alone. */
export function nodeThread(file: string, resourceLimits: ResourceLimits = usual): DecoderWorker {
  const thread = new Worker(file, { resourceLimits });
  return {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    postMessage: (question) => thread.postMessage(question),
    addEventListener(kind: 'message' | 'error', hear: (event: never) => void) {
      const tell = hear as (event: object) => void;
      if (kind === 'message') thread.on('message', (data: unknown) => tell({ data }));
      else
        thread.on('error', (error: unknown) =>
          tell({ outOfMemory: (error as NodeJS.ErrnoException | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY' }),
        );
    },
    terminate: () => void thread.terminate(),
  };
}
