import type { MessagePort } from 'node:worker_threads';
import { useWords } from '../../shared/language/words.ts';
import type { ThreadAnswer, ThreadQuestion } from '../../shared/protocol/page-thread.ts';
import { madePage } from '../../shared/report/pages/page-maker.ts';
import { madeReport } from './structured.ts';

/** Makes the pages and reports that the editor asks for. It runs in the command line's bundle, which holds all that they take. */
export function makePages(port: Pick<MessagePort, 'on' | 'postMessage'>): void {
  const answer = (id: number, made: ThreadAnswer['made']): void => {
    const answered: ThreadAnswer = { id, made };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    port.postMessage(answered);
  };
  port.on('message', (question: ThreadQuestion) => {
    useWords(question.words, question.language);
    const failed = (error: unknown): void =>
      answer(question.id, { problem: error instanceof Error ? error.message : String(error) });
    try {
      if ('page' in question) answer(question.id, madePage(question.page));
      else madeReport(question.report).then((made) => answer(question.id, made), failed);
    } catch (error) {
      failed(error);
    }
  });
}
