import type { WordTable } from '../language/words.ts';
import type { PageAnswer, PageQuestion } from '../report/pages/page-maker.ts';

/** What a thread of the command line's bundle is given as its data where it is to make pages and take no arguments. */
export const pageThread = 'ungula pages';

export interface ThreadQuestion {
  readonly id: number;
  readonly page: PageQuestion;
  /** A thread is a process of its own in this: it says everything in these words. */
  readonly words: WordTable | undefined;
  readonly language: string;
}

/** Told from the messages of the protocol, each of which says `jsonrpc` (JSON-RPC 2.0, 4). */
export function isPageQuestion(message: unknown): message is ThreadQuestion {
  return typeof message === 'object' && message !== null && 'page' in message && !('jsonrpc' in message);
}

export interface ThreadAnswer {
  readonly id: number;
  readonly made: PageAnswer | { readonly problem: string };
}
