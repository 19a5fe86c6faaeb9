import { useWords } from '../language/words.ts';
import { madePage } from '../report/pages/page-maker.ts';
import type { ThreadAnswer, ThreadQuestion } from './page-thread.ts';

/** What a thread that makes pages answers, under Node and in a browser. Never throws: a page that could not be made is a sentence. */
export function answerPage({ id, page, words, language }: ThreadQuestion): ThreadAnswer {
  useWords(words, language);
  try {
    return { id, made: madePage(page) };
  } catch (error) {
    return { id, made: { problem: error instanceof Error ? error.message : String(error) } };
  }
}
