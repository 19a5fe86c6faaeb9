import { parentPort } from 'node:worker_threads';
import type { OpenPicture } from '../shared/picture/picture-files.ts';
import type { ScaleFound } from '../shared/picture/stored-scale.ts';
import type { HeaderAnswer, HeaderQuestion } from './header-question.ts';
import { usePicture } from './use-picture.ts';

/** What runs in the thread that `HeaderThread` starts. */
parentPort?.on('message', ({ id, path, roots, name, words }: HeaderQuestion) => {
  const answer = (scale: HeaderAnswer['scale']): void => {
    const told: HeaderAnswer = { id, scale };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    parentPort?.postMessage(told);
  };
  const look = async (picture: OpenPicture): Promise<ScaleFound> => {
    const { storedScale, useWords } = await import('../shared/picture/stored-scale.ts');
    useWords(words);
    return storedScale(picture, name);
  };
  usePicture(path, roots, look).then(answer, () => answer({ refused: 'unreadable' }));
});
