import { parentPort } from 'node:worker_threads';
import type { DecoderAnswer, DecoderQuestion } from './worker-decoder.ts';

/** What runs in the thread that the desktop's decoder starts: a large film is decoded while the editor goes on. */
parentPort?.on('message', ({ id, bytes, words }: DecoderQuestion) => {
  void import('../../shared/picture/shown-picture.ts').then(async ({ showable, useWords }) => {
    useWords(words);
    const answer: DecoderAnswer = { id, shown: await showable(bytes) };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    parentPort?.postMessage(answer);
  });
});
