import type { MessagePort } from 'node:worker_threads';
import { useWords } from '../../shared/language/words.ts';
import type { ThreadAnswer, ThreadQuestion } from '../../shared/protocol/page-thread.ts';
import { madePage } from '../../shared/report/pages/page-maker.ts';

/** Makes the pages that the editor asks for. It runs in the command line's bundle, which holds all that a page takes. */
export function makePages(port: Pick<MessagePort, 'on' | 'postMessage'>): void {
  port.on('message', ({ id, page, words, language }: ThreadQuestion) => {
    useWords(words, language);
    let made: ThreadAnswer['made'];
    try {
      made = madePage(page);
    } catch (error) {
      made = { problem: error instanceof Error ? error.message : String(error) };
    }
    const answer: ThreadAnswer = { id, made };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    port.postMessage(answer);
  });
}
