import type { MessagePort } from 'node:worker_threads';
import { useWords } from '../../shared/language/words.ts';
import type { ThreadAnswer, ThreadQuestion, ThreadWish } from '../../shared/protocol/page-thread.ts';
import { madePage } from '../../shared/report/pages/page-maker.ts';
import { pdfOf } from './pdf-of.ts';
import { madeReport } from './structured.ts';

/** Makes the pages and reports that the editor asks for. It runs in the command line's bundle, which holds all that they take. */
export function makePages(port: Pick<MessagePort, 'on' | 'postMessage'>): void {
  port.on('message', async ({ id, wish, words, language }: ThreadQuestion) => {
    useWords(words, language);
    let made: ThreadAnswer['made'];
    try {
      made = await madeOf(wish);
    } catch (error) {
      made = { problem: error instanceof Error ? error.message : String(error) };
    }
    const answer: ThreadAnswer = { id, made };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    port.postMessage(answer);
  });
}

async function madeOf(wish: ThreadWish): Promise<ThreadAnswer['made']> {
  if ('page' in wish) return madePage(wish.page);
  return 'print' in wish ? { pdf: await pdfOf(wish.print) } : madeReport(wish.report);
}
