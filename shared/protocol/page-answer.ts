import { t, useWords } from '../language/words.ts';
import { madePage } from '../report/pages/page-maker.ts';
import type { ThreadAnswer, ThreadQuestion } from './page-thread.ts';

/**
 * What a thread answers that makes pages and nothing else, as in a browser. Never throws: what could not be made is told in a
 * sentence.
 */
export function answerPage({ id, wish, words, language }: ThreadQuestion): ThreadAnswer {
  useWords(words, language);
  try {
    if ('page' in wish) return { id, made: madePage(wish.page) };
    const not =
      'print' in wish
        ? t(
            'In a browser this editor makes no PDF. Save the page as HTML, or use “ungula report --for” on the command line.',
          )
        : t(
            'In a browser this editor makes no structured reports. Use the desktop, or “ungula report --structured” on the command line.',
          );
    return { id, made: { problem: not } };
  } catch (error) {
    return { id, made: { problem: error instanceof Error ? error.message : String(error) } };
  }
}
