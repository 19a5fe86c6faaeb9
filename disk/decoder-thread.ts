import { Worker } from 'node:worker_threads';
import { t, wordsInUse } from '../shared/language/words.ts';
import type { Showable } from '../shared/picture/shown-picture.ts';

export interface DecoderBounds {
  /** Milliseconds for one picture. A film of 60 million pixels takes some seconds on a slow computer. */
  readonly patience: number;
  /** Of the thread's heap. Pixels lie elsewhere, and are bounded before they are made (`refuseImpossibleSize`). */
  readonly megabytes: number;
}

const usual: DecoderBounds = { patience: 60_000, megabytes: 1024 };

/**
 * Makes a picture into what a page can show, in a thread of its own, which holds nothing once it is done: a picture that takes
 * longer than any film does, or more memory, ends the thread and costs itself only. Never rejects.
 *
 * @param file the bundle of src/extension/decoder.thread.ts
 */
export function showableInThread(file: string, bytes: Uint8Array, bounds = usual): Promise<Showable> {
  return new Promise((resolve) => {
    const thread = new Worker(file, { resourceLimits: { maxOldGenerationSizeMb: bounds.megabytes } });
    const end = (shown: Showable): void => {
      clearTimeout(timer);
      resolve(shown);
      void thread.terminate();
    };
    const timer = setTimeout(
      () => end({ problem: t('It could not be decoded within a minute. Save it as PNG, and write that path.') }),
      bounds.patience,
    );
    thread.on('message', ({ shown }: { readonly shown: Showable }) => end(shown));
    thread.on('error', (error: NodeJS.ErrnoException) =>
      end({
        problem:
          error.code === 'ERR_WORKER_OUT_OF_MEMORY'
            ? t('It takes more memory than any film does. Save it as PNG, and write that path.')
            : t('It could not be decoded. Save it as PNG, and write that path.'),
      }),
    );
    thread.on('exit', () => end({ problem: t('It could not be decoded. Save it as PNG, and write that path.') }));
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    thread.postMessage({ id: 1, bytes, words: wordsInUse() });
  });
}
