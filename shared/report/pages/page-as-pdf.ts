/** What a page that is made already takes to become a PDF; the writer of PDF is a bundle of its own. */

export const papers = ['a4', 'letter'] as const;
export type Paper = (typeof papers)[number];

export interface PdfQuestion {
  /** A page that is handed over, as `handedPage()` makes it. */
  readonly html: string;
  /** Its day, YYYY-MM-DD. The file holds no other date, so that the same page makes the same bytes. */
  readonly date: string;
  readonly paper: Paper;
}

export interface MadePdf {
  readonly bytes: Uint8Array;
  /** A sentence for each thing that could not be shown; the PDF itself says so too. */
  readonly notShown: readonly string[];
}
