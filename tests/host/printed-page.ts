import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { getDocument, OPS, Util, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Points to a millimetre: a point of PDF is 1/72 inch (ISO 32000-1, 8.3.2.3). */
const POINTS = 72 / 25.4;

export interface PrintedSheet {
  /** mm. */
  readonly width: number;
  readonly height: number;
  readonly words: string;
  /** Lengths of the level and upright strokes on it, mm. */
  readonly strokes: readonly number[];
}

type Matrix = [number, number, number, number, number, number];

/** Where the fonts lie that a PDF may count on. */
const fonts = join(dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')), 'standard_fonts/');

/** The sheets of a PDF, read by a library that had no part in making it. */
export async function sheetsOf(pdf: Uint8Array): Promise<PrintedSheet[]> {
  const loading = getDocument({
    data: new Uint8Array(pdf),
    standardFontDataUrl: fonts,
    useSystemFonts: false,
    verbosity: VerbosityLevel.ERRORS,
  });
  const document = await loading.promise;
  try {
    const sheets: PrintedSheet[] = [];
    for (let number = 1; number <= document.numPages; number++) {
      const page = await document.getPage(number);
      const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
      const { items } = await page.getTextContent();
      sheets.push({
        width: (right - left) / POINTS,
        height: (top - bottom) / POINTS,
        words: items.map((item) => ('str' in item ? item.str : '')).join(' '),
        strokes: strokesOf(await page.getOperatorList()),
      });
    }
    return sheets;
  } finally {
    await loading.destroy();
  }
}

/** Every path that is as good as flat one way, by its box and the matrices that are in force (8.3.4). */
function strokesOf({ fnArray, argsArray }: { fnArray: number[]; argsArray: unknown[] }): number[] {
  const lengths: number[] = [];
  let at: Matrix = [1, 0, 0, 1, 0, 0];
  const kept: Matrix[] = [];
  fnArray.forEach((operator, index) => {
    const args = argsArray[index] as readonly unknown[] | null;
    if (operator === OPS.save) kept.push(at);
    else if (operator === OPS.restore) at = kept.pop() ?? at;
    else if (operator === OPS.paintFormXObjectBegin) {
      kept.push(at);
      if (args?.[0]) at = Util.transform(at, [...(args[0] as number[])]) as Matrix;
    } else if (operator === OPS.paintFormXObjectEnd) at = kept.pop() ?? at;
    else if (operator === OPS.transform) at = Util.transform(at, args as number[]) as Matrix;
    else if (operator === OPS.constructPath) {
      const box = args?.[2] as ArrayLike<number> | null | undefined;
      if (!box || box.length < 4) return;
      const [a, b, c, d] = at;
      const [wide, high] = [(box[2] ?? 0) - (box[0] ?? 0), (box[3] ?? 0) - (box[1] ?? 0)];
      const across = Math.hypot(a, b) * wide;
      const along = Math.hypot(c, d) * high;
      if (Math.min(across, along) < 0.01) lengths.push(Math.max(across, along) / POINTS);
    }
  });
  return lengths;
}
