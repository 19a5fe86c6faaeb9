import { parentPort } from 'node:worker_threads';
import { storedScale } from '../shared/picture/stored-scale.ts';
import type { HeaderAnswer, HeaderQuestion } from './header-question.ts';
import { usePicture } from './use-picture.ts';

/** What runs in the thread that `HeaderThread` starts. */
parentPort?.on('message', ({ id, path, roots, name }: HeaderQuestion) => {
  const answer = (scale: HeaderAnswer['scale']): void => {
    const told: HeaderAnswer = { id, scale };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    parentPort?.postMessage(told);
  };
  usePicture(path, roots, (picture) => storedScale(picture, name)).then(answer, () =>
    answer({ refused: 'unreadable' }),
  );
});
