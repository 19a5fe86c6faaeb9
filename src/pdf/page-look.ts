import type { Paper } from '../../shared/report/pages/page-as-pdf.ts';

/** How a page looks on paper: what `shared/report/pages/pages.css.ts` says for print, in points. */

export const mm = (length: number): number => (length * 72) / 25.4;

export const INK = '#1d1a16';
export const FAINT = '#5f584e';
export const RULE = '#c9c1b4';

export interface ReaderLook {
  readonly size: number;
  readonly leading: number;
  /** Above a heading, in units of the size. */
  readonly headMargin: number;
  /** Above and below a row of a table, in units of its size. */
  readonly rowMargin: number;
  /** Sheets that it is to have at most: a page that would have more is set a little smaller. */
  readonly mostSheets: number;
}

/** By the class of the page's body. */
export const readerLooks: Readonly<Record<string, ReaderLook>> = {
  'for-owner': { size: 11.5, leading: 1.28, headMargin: 0.7, rowMargin: 0.16, mostSheets: 2 },
  'for-vet': { size: 8.3, leading: 1.22, headMargin: 0.5, rowMargin: 0.12, mostSheets: Infinity },
  'for-yard': { size: 9.6, leading: 1.28, headMargin: 0.5, rowMargin: 0.16, mostSheets: Infinity },
};

interface ClassLook {
  /** Of the size of what it stands in. */
  readonly scale?: number;
  readonly isFaint?: boolean;
  readonly isBold?: boolean;
  /** Above and below, in units of its own size. */
  readonly margin?: number;
}

export const classLooks: Readonly<Record<string, ClassLook>> = {
  for: { scale: 0.85, isFaint: true, margin: 0 },
  who: { scale: 0.88, isFaint: true, margin: 0.2 },
  faint: { scale: 0.88, isFaint: true, margin: 0.2 },
  tight: { scale: 0.9 },
  big: { scale: 1.25, isBold: true },
  cautions: { scale: 0.85 },
  published: { scale: 0.82, isFaint: true },
  marks: { scale: 1.1, margin: 0.2 },
};

/** The tallest that drawings stand, by the classes of what they stand in; the first that fits counts. */
export const mostHeights: readonly (readonly [within: readonly string[], height: number])[] = [
  [['plates'], mm(46)],
  [['plate'], mm(88)],
  [['for-owner', 'course'], mm(62)],
  [[], mm(230)],
];

/** Room at the edges of a sheet; at the foot stands which sheet it is. */
export const edges = { top: mm(12), side: mm(13), bottom: mm(16) };

/** Upright: width and height. */
export const paperSizes: Readonly<Record<Paper, readonly [number, number]>> = {
  a4: [mm(210), mm(297)],
  letter: [612, 792],
};
