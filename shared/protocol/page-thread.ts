import type { WordTable } from '../language/words.ts';
import type { MadePdf, PdfQuestion } from '../report/pages/page-as-pdf.ts';
import type { PageAnswer, PageQuestion } from '../report/pages/page-maker.ts';

/** What a thread of the command line's bundle is given as its data where it is to make pages and take no arguments. */
export const pageThread = 'ungula pages';

/** What the thread is asked for: a page, or one that it has made as PDF. */
export type ThreadWish = { readonly page: PageQuestion } | { readonly print: PdfQuestion };

export interface ThreadQuestion {
  readonly id: number;
  readonly wish: ThreadWish;
  /** A thread is a process of its own in this: it says everything in these words. */
  readonly words: WordTable | undefined;
  readonly language: string;
}

export interface ThreadAnswer {
  readonly id: number;
  readonly made: PageAnswer | { readonly pdf: MadePdf } | { readonly problem: string };
}
