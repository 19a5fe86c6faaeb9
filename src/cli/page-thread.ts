import type { MessagePort } from 'node:worker_threads';
import { answerPage } from '../../shared/protocol/page-answer.ts';
import type { ThreadQuestion } from '../../shared/protocol/page-thread.ts';

/** Makes the pages that the editor asks for. It runs in the command line's bundle, which holds all that a page takes. */
export function makePages(port: Pick<MessagePort, 'on' | 'postMessage'>): void {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
  port.on('message', (question: ThreadQuestion) => port.postMessage(answerPage(question)));
}
