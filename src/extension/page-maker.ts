import { languageInUse, t, wordsInUse } from '../../shared/language/words.ts';
import type {
  NotMade,
  ReportAnswer,
  ReportQuestion,
  ThreadAnswer,
  ThreadQuestion,
  ThreadWish,
} from '../../shared/protocol/page-thread.ts';
import type { MadePdf, PdfQuestion } from '../../shared/report/pages/page-as-pdf.ts';
import type { PageAnswer, PageQuestion } from '../../shared/report/pages/page-maker.ts';

/** What is used of the thread that makes pages. */
export interface PageWorker {
  postMessage(question: ThreadQuestion): void;
  hear(answered: (answer: ThreadAnswer) => void, failed: () => void): void;
  terminate(): void;
}

/** Milliseconds. A case of forty visits takes a second or two. */
const PATIENCE = 60_000;

/** Pages and reports made in a thread, which is started for the first and ended when nobody looks at one any more. */
export class PageMaker {
  readonly makesPdf: boolean;
  readonly #start: () => PageWorker;
  readonly #waiting = new Map<number, (made: ThreadAnswer['made']) => void>();
  #worker: PageWorker | null = null;
  #last = 0;

  /** @param makesPdf a browser has what makes pages, and not what makes PDF */
  constructor(start: () => PageWorker, makesPdf = true) {
    this.#start = start;
    this.makesPdf = makesPdf;
  }

  /** Never rejects: what could not be made is told in a sentence. */
  async make(page: PageQuestion): Promise<PageAnswer | NotMade> {
    const made = await this.#ask({ page });
    return 'html' in made || 'wants' in made || 'problem' in made ? made : lost();
  }

  /** A page that was made, as PDF. Never rejects. */
  async pdf(print: PdfQuestion): Promise<MadePdf | NotMade> {
    const made = await this.#ask({ print });
    return 'pdf' in made ? made.pdf : 'problem' in made ? made : lost();
  }

  /** The same of a structured report. */
  async report(report: ReportQuestion): Promise<ReportAnswer | NotMade> {
    const made = await this.#ask({ report });
    return 'films' in made || 'report' in made || 'problem' in made ? made : lost();
  }

  #ask(wish: ThreadWish): Promise<ThreadAnswer['made']> {
    return new Promise((resolve) => {
      this.#last += 1;
      const id = this.#last;
      const timer = setTimeout(() => this.end(), PATIENCE);
      this.#waiting.set(id, (made) => {
        clearTimeout(timer);
        this.#waiting.delete(id);
        resolve(made);
      });
      try {
        // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
        this.#running().postMessage({ id, wish, words: wordsInUse(), language: languageInUse() });
      } catch {
        this.end();
      }
    });
  }

  end(): void {
    this.#worker?.terminate();
    this.#worker = null;
    for (const answer of this.#waiting.values()) answer(lost());
  }

  #running(): PageWorker {
    if (this.#worker) return this.#worker;
    const worker = this.#start();
    this.#worker = worker;
    worker.hear(
      ({ id, made }) => this.#waiting.get(id)?.(made),
      () => {
        if (worker === this.#worker) this.end();
      },
    );
    return worker;
  }
}

const lost = (): NotMade => ({
  problem: t(
    'The part that makes pages and reports did not answer. Reload the window, or use “ungula report” on the command line.',
  ),
});
