import Document from 'pdfkit';
import { t } from '../../shared/language/words.ts';
import type { MadePdf, PdfQuestion } from '../../shared/report/pages/page-as-pdf.ts';
import type { PageBlock, Tag, TextBlock } from './blocks.ts';
import { flow, leftOutWords, paintBelow, type Lacks, type SheetRoom } from './flow.ts';
import { linesOf, nameOfSign, type SetLine } from './lines.ts';
import { edges, FAINT, paperSizes } from './page-look.ts';
import { Pen } from './pen.ts';
import { readPage, type ReadPage } from './read-page.ts';
import { isSoundPng } from './sound-png.ts';
import { sheetsOf, type Sheet } from './sheets.ts';

export { useWords } from '../../shared/language/words.ts';

/** Of the size of its type, where a page would have too many sheets. */
const smaller = [0.95, 0.9] as const;

/** A page as PDF: the same words in the same order, and the same drawings. */
export async function pagePdf({ html, date, paper }: PdfQuestion): Promise<MadePdf> {
  let page = readPage(html);
  const doc = new Document({
    autoFirstPage: false,
    bufferPages: false,
    font: null as unknown as string,
    pdfVersion: '1.7',
    tagged: true,
    lang: page.language,
    displayTitle: true,
    info: { Title: page.title, Producer: 'Ungula', Creator: 'Ungula', CreationDate: new Date(`${date}T00:00:00Z`) },
  });
  const bytes = collected(doc);
  const [narrow, long] = paperSizes[paper];
  const [wide, tall] = page.isAcross ? [long, narrow] : [narrow, long];
  const room: SheetRoom = { width: wide - 2 * edges.side, height: tall - edges.top - edges.bottom };
  const signs = new Set<string>();
  const pictures = new Map<string, PDFKit.Mixins.ImageSrc | null>();
  const laidOut = ({ blocks, root }: ReadPage): Sheet[] => {
    const pieces = flow(blocks, room, lacks);
    const said = signs.size > 0 ? flow(noteBlocks(root, [...signs]), room, lacks) : [];
    return sheetsOf([...pieces, ...said], room);
  };
  const lacks: Lacks = {
    sign: (sign) => void signs.add(sign),
    picture: (href) => {
      const known = pictures.get(href);
      if (known !== undefined) return known;
      const opened = openedPicture(doc, href);
      pictures.set(href, opened);
      return opened;
    },
  };
  let sheets = laidOut(page);
  for (const scale of smaller) {
    if (sheets.length <= page.mostSheets) break;
    page = readPage(html, scale);
    sheets = laidOut(page);
  }
  const pen = new Pen(doc, page.root);
  for (const [index, sheet] of sheets.entries()) {
    doc.addPage({ size: [wide, tall], margin: 0 });
    paintBelow(sheet, pen, edges.side, edges.top);
    footOf({ pen, title: page.title, words: t('page {0} of {1}', index + 1, sheets.length) });
  }
  doc.end();
  const left = [...pictures.values()].filter((picture) => picture === null).length;
  return {
    bytes: await bytes,
    notShown: [...(signs.size > 0 ? [signWords([...signs])] : []), ...(left > 0 ? [leftOutWords()] : [])],
  };
}

function collected(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      const bytes = new Uint8Array(chunks.reduce((length, chunk) => length + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, at);
        at += chunk.length;
      }
      resolve(bytes);
    });
  });
}

/** JPEG and PNG go into a PDF as they are; of anything else, and of what is broken, nothing does. */
function openedPicture(doc: PDFKit.PDFDocument, href: string): PDFKit.Mixins.ImageSrc | null {
  const [, kind, base64 = ''] = /^data:image\/(png|jpeg);base64,([^]*)$/.exec(href) ?? [];
  if (kind === undefined) return null;
  try {
    if (kind === 'png' && !isSoundPng(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)))) return null;
    return (doc as unknown as { openImage(src: string): PDFKit.Mixins.ImageSrc }).openImage(href);
  } catch {
    return null;
  }
}

const mostSigns = 20;

function signWords(signs: readonly string[]): string {
  const names = signs.slice(0, mostSigns).map(nameOfSign).join(', ');
  const all = signs.length > mostSigns ? t('{0} and more', names) : names;
  return t(
    'The type of this file has no letters for {0}. Their names stand in boxes in their place; the page in HTML shows them.',
    all,
  );
}

function noteBlocks(root: Tag, signs: readonly string[]): PageBlock[] {
  const note: TextBlock = {
    kind: 'text',
    tag: { role: 'P', parent: root },
    inlines: [{ text: signWords(signs), style: 'bold', scale: 1, colour: FAINT, href: null }],
    look: { size: 8, leading: 1.25, style: 'regular', colour: FAINT },
    indent: 0,
    isHeading: false,
    ruled: null,
    before: 6,
    after: 0,
  };
  return [note];
}

const footSize = 7;
const footGap = 12;

/** What the page is not, whose it is, and which sheet of how many. */
function footOf({ pen, title, words }: { readonly pen: Pen; readonly title: string; readonly words: string }): void {
  const { doc } = pen;
  const width = doc.page.width - 2 * edges.side;
  const y = doc.page.height - edges.bottom * 0.5;
  const mind = footLine(t('Decision support only. Diagnosis, films and pain belong to the vet.'), width);
  const which = footLine(words, width);
  const wide = (line: SetLine | null): number => (line?.width ?? 0) * footSize;
  const whose = footLine(title, width - wide(mind) - wide(which) - 2 * footGap);
  const right = edges.side + width - wide(which);
  doc.markContent('Artifact', { type: 'Pagination' });
  if (mind) pen.line(mind, edges.side, y, { size: footSize });
  if (whose) pen.line(whose, right - wide(whose) - footGap, y, { size: footSize });
  if (which) pen.line(which, right, y, { size: footSize });
  doc.endMarkedContent();
}

/** As much as one line holds. */
function footLine(text: string, most: number): SetLine | null {
  const said = (words: string): readonly SetLine[] =>
    linesOf([{ text: words, style: 'regular', scale: 1, colour: FAINT, href: null }], most / footSize, () => {});
  const letters = [...text];
  for (let count = letters.length; count > 0; count -= 1) {
    const lines = said(count === letters.length ? text : `${letters.slice(0, count).join('').trim()}…`);
    if (lines.length === 1) return lines[0] ?? null;
  }
  return null;
}
