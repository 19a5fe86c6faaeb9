import { showable, useWords } from '../../shared/picture/shown-picture.ts';
import type { DecoderAnswer, DecoderQuestion } from './worker-decoder.ts';

/** What runs in the worker that `WorkerDecoder` starts. */
self.addEventListener('message', ({ data }: MessageEvent<DecoderQuestion>) => {
  useWords(data.words);
  void showable(data.bytes).then((shown) => {
    const answer: DecoderAnswer = { id: data.id, shown };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
    self.postMessage(answer);
  });
});
