import { getDocument, OPS, type PDFDocumentProxy, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What a PDF holds, by pdf.js: another reader than what wrote it. Lengths in mm, from the upper left of the sheet. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A line that was drawn with a pen; of curves the ends alone. */
export interface Stroke {
  readonly points: readonly Point[];
  readonly weight: number;
}

export interface ReadSheet {
  readonly width: number;
  readonly height: number;
  /** In the order in which it stands in the file, without blanks: where a line was broken none tells. */
  readonly text: string;
  readonly strokes: readonly Stroke[];
  readonly pictures: number;
}

export interface ReadPdf {
  readonly document: PDFDocumentProxy;
  readonly info: Readonly<Record<string, unknown>>;
  readonly sheets: readonly ReadSheet[];
  readonly text: string;
}

/** Without blanks, and without what shows nothing; of two signs that look the same, one (the micro sign and the Greek letter). */
export const unspaced = (text: string): string =>
  text.normalize('NFKC').replaceAll(/[\s\p{Default_Ignorable_Code_Point}]+/gu, '');

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  // The reader takes the bytes for itself.
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const { info } = await document.getMetadata();
  const sheets: ReadSheet[] = [];
  for (let number = 1; number <= document.numPages; number += 1)
    sheets.push(await readSheet(await document.getPage(number)));
  return { document, info: info as Record<string, unknown>, sheets, text: sheets.map(({ text }) => text).join('') };
}

const inMm = (points: number): number => (points / 72) * 25.4;

/** a b c d e f, as PDF writes it. */
type Matrix = readonly [number, number, number, number, number, number];

function times([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix {
  return [a * A + c * B, b * A + d * B, a * C + c * D, b * C + d * D, a * E + c * F + e, b * E + d * F + f];
}

async function readSheet(page: PDFPageProxy): Promise<ReadSheet> {
  const [, , width = 0, height = 0] = page.view;
  const { items } = await page.getTextContent();
  const text = items.map((item) => ('str' in item ? item.str : '')).join('');
  const { fnArray, argsArray } = await page.getOperatorList();
  const strokes: Stroke[] = [];
  let pictures = 0;
  let now: { matrix: Matrix; weight: number } = { matrix: [1, 0, 0, 1, 0, 0], weight: 1 };
  const kept: (typeof now)[] = [];
  for (const [index, operator] of fnArray.entries()) {
    const args = argsArray[index] as unknown[] | null;
    if (operator === OPS.save) kept.push(now);
    else if (operator === OPS.restore) now = kept.pop() ?? now;
    else if (operator === OPS.transform) now = { ...now, matrix: times(now.matrix, args as unknown as Matrix) };
    else if (operator === OPS.setLineWidth) now = { ...now, weight: Number(args?.[0]) };
    else if (operator === OPS.paintImageXObject || operator === OPS.paintInlineImageXObject) pictures += 1;
    else if (operator === OPS.constructPath && args?.[0] === OPS.stroke) {
      const [data] = args[1] as [Float32Array | null];
      const [a, b] = now.matrix;
      const weight = inMm(now.weight * Math.hypot(a, b));
      const onSheet = ({ x, y }: Point): Point => {
        const [ma, mb, mc, md, me, mf] = now.matrix;
        return { x: inMm(ma * x + mc * y + me), y: inMm(height - (mb * x + md * y + mf)) };
      };
      for (const points of partsOf(data ?? new Float32Array())) strokes.push({ points: points.map(onSheet), weight });
    }
  }
  return { width: inMm(width), height: inMm(height), text: unspaced(text), strokes, pictures };
}

/** How many numbers follow each sign of a path in pdf.js: move, line, curve, curve of one handle, close. */
const lengths = [2, 2, 6, 4, 0] as const;

function partsOf(data: Float32Array): Point[][] {
  const parts: Point[][] = [];
  for (let at = 0; at < data.length;) {
    const sign = data[at] ?? 0;
    const length = lengths[sign];
    if (length === undefined) throw new Error(`a path with the sign ${sign}`);
    at += length + 1;
    if (length === 0) continue;
    if (sign === 0) parts.push([]);
    parts.at(-1)?.push({ x: data[at - 2] ?? 0, y: data[at - 1] ?? 0 });
  }
  return parts;
}
