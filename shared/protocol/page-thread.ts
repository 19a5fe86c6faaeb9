import type { WordTable } from '../language/words.ts';
import type { MadePdf, PdfQuestion } from '../report/pages/page-as-pdf.ts';
import type { CaseGrounds, PageAnswer, PageQuestion } from '../report/pages/page-maker.ts';

/** What a thread of the command line's bundle is given as its data where it is to make pages and take no arguments. */
export const pageThread = 'ungula pages';

/** A structured report that is made beside the editor. */
export interface ReportQuestion {
  readonly grounds: CaseGrounds;
  /** Of the case's file, without its folder. */
  readonly caseName: string;
  /** Which of the films that the answer to `null` lists; null where they are asked for. */
  readonly film: number | null;
  /** The beginning of the film's file, as far as its header goes; null where it cannot be read. */
  readonly header: Uint8Array | null;
  readonly names: boolean;
  /** YYYY-MM-DD. */
  readonly on: string;
}

/** A film that a report can be made of. Lines count from 0. */
export interface ListedReportFilm {
  readonly title: string;
  readonly fileName: string;
  /** As the case writes it. */
  readonly picture: string;
  readonly line: number;
  readonly endLine: number;
}

export type ReportAnswer = { readonly films: readonly ListedReportFilm[] } | { readonly report: Uint8Array };
export type NotMade = { readonly problem: string };

/** What the thread is asked for: a page, one that it has made as PDF, or a structured report. */
export type ThreadWish =
  { readonly page: PageQuestion } | { readonly print: PdfQuestion } | { readonly report: ReportQuestion };

export interface ThreadQuestion {
  readonly id: number;
  readonly wish: ThreadWish;
  /** A thread is a process of its own in this: it says everything in these words. */
  readonly words: WordTable | undefined;
  readonly language: string;
}

/** Told from the messages of the protocol, each of which says `jsonrpc` (JSON-RPC 2.0, 4). */
export function isPageQuestion(message: unknown): message is ThreadQuestion {
  return typeof message === 'object' && message !== null && 'wish' in message && !('jsonrpc' in message);
}

export interface ThreadAnswer {
  readonly id: number;
  readonly made: PageAnswer | { readonly pdf: MadePdf } | ReportAnswer | NotMade;
}
