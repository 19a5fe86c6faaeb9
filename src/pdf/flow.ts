import { DomUtils } from 'htmlparser2';
import type { Element } from 'domhandler';
import { t } from '../../shared/language/words.ts';
import type {
  PageBlock,
  BoxBlock,
  ColumnsBlock,
  FigureBlock,
  ListBlock,
  TableBlock,
  Tag,
  TextBlock,
} from './blocks.ts';
import { drawSvg, viewBox } from './draw-svg.ts';
import { linesOf, widthsOf, type Inline } from './lines.ts';
import { FAINT, INK, RULE } from './page-look.ts';
import type { Pen } from './pen.ts';

/** What stays whole on a sheet: a line, a row, a drawing. Lengths in points. */
export interface SheetPiece {
  readonly height: number;
  readonly before: number;
  readonly after: number;
  /** Whether the next piece stays on the same sheet, where one can hold both. */
  readonly staysWithNext: boolean;
  readonly isOnNewSheet?: boolean;
  /** What stands above it again where it comes first on a sheet. */
  readonly head?: readonly SheetPiece[];
  paint(pen: Pen, x: number, y: number): void;
}

export interface SheetRoom {
  readonly width: number;
  readonly height: number;
}

/** What the blocks turn out to hold that no sheet can show. */
export interface Lacks {
  readonly sign: (sign: string) => void;
  /** A picture of a drawing; null where it could not be read. */
  readonly picture: (href: string) => PDFKit.Mixins.ImageSrc | null;
}

export function flow(blocks: readonly PageBlock[], room: SheetRoom, lacks: Lacks): SheetPiece[] {
  let isOnNewSheet = false;
  return blocks.flatMap((block) => {
    if (block.kind === 'break') {
      isOnNewSheet = true;
      return [];
    }
    const pieces = piecesOf(block, room, lacks);
    const [first, ...rest] = pieces;
    if (!first || !isOnNewSheet) return pieces;
    isOnNewSheet = false;
    return [{ ...first, isOnNewSheet: true }, ...rest];
  });
}

function piecesOf(block: Exclude<PageBlock, { kind: 'break' }>, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  switch (block.kind) {
    case 'text':
      return textPieces(block, room, lacks);
    case 'list':
      return listPieces(block, room, lacks);
    case 'table':
      return tablePieces(block, room, lacks);
    case 'figure':
      return figurePieces(block, room, lacks);
    case 'columns':
      return columnPieces(block, room, lacks);
    case 'box':
      return boxPieces(block, room, lacks);
    case 'kept': {
      const pieces = spaced(flow(block.blocks, room, lacks), block);
      return pieces.map((piece, index) => ({
        ...piece,
        staysWithNext: piece.staysWithNext || index < pieces.length - 1,
      }));
    }
  }
}

/** The room around a block, at its first and last piece. */
function spaced(
  pieces: readonly SheetPiece[],
  { before, after }: { readonly before: number; readonly after: number },
): SheetPiece[] {
  return pieces.map((piece, index) => ({
    ...piece,
    before: index === 0 ? Math.max(before, piece.before) : piece.before,
    after: index === pieces.length - 1 ? Math.max(after, piece.after) : piece.after,
  }));
}

const inOrder = (pieces: readonly SheetPiece[], at: number): number =>
  at === 0 ? 0 : Math.max(pieces[at - 1]?.after ?? 0, pieces[at]?.before ?? 0);

/** Of pieces below each other, without the room above the first and below the last. */
export const heightOf = (pieces: readonly SheetPiece[]): number =>
  pieces.reduce((sum, piece, index) => sum + inOrder(pieces, index) + piece.height, 0);

export function paintBelow(pieces: readonly SheetPiece[], pen: Pen, x: number, y: number): void {
  let at = y;
  for (const [index, piece] of pieces.entries()) {
    at += inOrder(pieces, index);
    piece.paint(pen, x, at);
    at += piece.height;
  }
}

/** Where words stand in a line of a height: about the middle of letters that reach from 0.335 below to 1.036 above. */
const baseline = (height: number, size: number): number => height / 2 + 0.35 * size;

interface SetText {
  readonly tag: Tag;
  readonly inlines: readonly Inline[];
  readonly look: TextBlock['look'];
}

/** A piece for each line of a text in a column of its own. */
function linePieces({ tag, inlines, look }: SetText, width: number, lacks: Lacks): SheetPiece[] {
  const { size, leading } = look;
  const height = size * leading;
  const lines = linesOf(inlines, width / size, lacks.sign);
  return lines.map((line, index) => ({
    height,
    before: 0,
    after: 0,
    // No line of a paragraph stands alone at the foot or the head of a sheet.
    staysWithNext: lines.length > 1 && (index === 0 || index === lines.length - 2),
    paint: (pen, x, y) => {
      const start = line.fromRight ? x + width - line.width * size : x;
      pen.tagged(tag, () => pen.line(line, start, y + baseline(height, size), { size }));
    },
  }));
}

function textPieces(block: TextBlock, { width }: SheetRoom, lacks: Lacks): SheetPiece[] {
  const { indent, ruled, isHeading, look } = block;
  const lines = linePieces(block, width - indent, lacks).map((piece) => indented(piece, indent));
  const gap = 0.35 * look.size;
  return spaced(
    lines.map((piece, index) => {
      const isRuled = (ruled === 'above' && index === 0) || (ruled === 'below' && index === lines.length - 1);
      const staysWithNext = isHeading || piece.staysWithNext;
      if (!isRuled) return { ...piece, staysWithNext };
      return {
        ...piece,
        height: piece.height + gap,
        staysWithNext,
        paint: (pen: Pen, x: number, y: number): void => {
          if (ruled === 'above') pen.rule(x, y, width, 0.75, INK);
          else pen.rule(x, y + piece.height + gap, width, 1.5, INK);
          piece.paint(pen, x, ruled === 'above' ? y + gap : y);
        },
      };
    }),
    block,
  );
}

const indented = (piece: SheetPiece, by: number): SheetPiece => ({
  ...piece,
  paint: (pen, x, y) => piece.paint(pen, x + by, y),
});

function listPieces(block: ListBlock, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  const [first] = block.items;
  if (!first) return [];
  const { size } = first.text.look;
  const indent = 1.2 * size;
  const gap = 2.6 * size;
  const width = block.columns === 2 ? (room.width - gap) / 2 : room.width;
  const items = block.items.map(({ mark, markTag, text }) =>
    textPieces(text, { ...room, width: width - indent }, lacks).map((piece, index): SheetPiece => {
      const body = indented(piece, indent);
      if (index > 0) return body;
      const [drawn] = linesOf(
        [{ text: mark, style: 'regular', scale: 1, colour: text.look.colour, href: null }],
        Infinity,
        lacks.sign,
      );
      return {
        ...body,
        paint: (pen, x, y) => {
          const at = drawn ? x + indent - (drawn.width + 0.45) * size : x;
          if (drawn) pen.tagged(markTag, () => pen.line(drawn, at, y + baseline(piece.height, size), { size }));
          body.paint(pen, x, y);
        },
      };
    }),
  );
  if (block.columns === 1) return spaced(items.flat(), block);
  // As even as the points allow; the first column is read first.
  const tall = items.map((pieces) => heightOf(pieces));
  const until = items.findIndex((_, index) => sum(tall.slice(0, index + 1)) >= sum(tall) / 2) + 1;
  const halves = [items.slice(0, until).flat(), items.slice(until).flat()];
  return spaced([besideEachOther(halves, width, gap)], block);
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

function besideEachOther(columns: readonly (readonly SheetPiece[])[], width: number, gap: number): SheetPiece {
  return {
    height: Math.max(0, ...columns.map(heightOf)),
    before: Math.max(0, ...columns.map(([first]) => first?.before ?? 0)),
    after: Math.max(0, ...columns.map((pieces) => pieces.at(-1)?.after ?? 0)),
    staysWithNext: false,
    paint: (pen, x, y) => {
      for (const [index, pieces] of columns.entries()) paintBelow(pieces, pen, x + index * (width + gap), y);
    },
  };
}

function columnPieces(block: ColumnsBlock, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  const count = block.columns.length;
  if (count === 0) return [];
  const width = (room.width - block.gap * (count - 1)) / count;
  const columns = block.columns.map((blocks) => flow(blocks, { ...room, width }, lacks));
  const piece = besideEachOther(columns, width, block.gap);
  // What no sheet holds next to each other stands below each other, in the whole width.
  if (piece.height > room.height) return block.columns.flatMap((blocks) => flow(blocks, room, lacks));
  return spaced([piece], block);
}

function boxPieces(block: BoxBlock, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  const pad = block.look === 'bar' ? { left: 9, right: 0, end: 0 } : { left: 9, right: 9, end: 4 };
  const inner = flow(block.blocks, { ...room, width: room.width - pad.left - pad.right }, lacks);
  if (block.look === 'room' && inner.length === 0)
    return spaced(
      [
        {
          ...emptyPiece,
          height: block.leastHeight,
          paint: (pen, x, y) => frame(pen, x, y, room.width, block.leastHeight),
        },
      ],
      block,
    );
  const pieces = inner.map((piece, index): SheetPiece => {
    const [isFirst, isLast] = [index === 0, index === inner.length - 1];
    const above = isFirst ? pad.end : inOrder(inner, index);
    const below = isLast ? pad.end : 0;
    const height = above + piece.height + below;
    return {
      ...piece,
      height,
      before: 0,
      after: 0,
      // Of a short frame no piece stands apart.
      staysWithNext: !isLast && (piece.staysWithNext || index < 6),
      paint: (pen, x, y) => {
        if (block.look === 'bar') pen.upright(x + 1.5, y, height, 3, INK);
        else {
          for (const at of [0, 2.2]) {
            pen.upright(x + at, y, height, 0.75, INK);
            pen.upright(x + room.width - at, y, height, 0.75, INK);
            if (isFirst) pen.rule(x + at, y + at, room.width - 2 * at, 0.75, INK);
            if (isLast) pen.rule(x + at, y + height - at, room.width - 2 * at, 0.75, INK);
          }
        }
        piece.paint(pen, x + pad.left, y + above);
      },
    };
  });
  return spaced(pieces, block);
}

const emptyPiece: SheetPiece = { height: 0, before: 0, after: 0, staysWithNext: false, paint: () => {} };

function frame(pen: Pen, x: number, y: number, width: number, height: number): void {
  pen.rule(x, y, width, 0.75, RULE);
  pen.rule(x, y + height, width, 0.75, RULE);
  pen.upright(x, y, height, 0.75, RULE);
  pen.upright(x + width, y, height, 0.75, RULE);
}

function figurePieces(block: FigureBlock, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  const view = viewBox(block.svg);
  const { trueSize, tag, svg, caption } = block;
  // What is as large as it is takes its width, whatever the column has: for a wide one all sheets lie across.
  const height = trueSize ? trueSize.height : Math.min(block.mostHeight, (room.width * view.height) / view.width);
  const width = trueSize ? trueSize.width : room.width;
  const pictures = picturesIn(svg, lacks);
  tellSigns(svg, lacks);
  const drawing: SheetPiece = {
    height,
    before: 0,
    after: 0,
    staysWithNext: caption !== null,
    paint: (pen, x, y) =>
      pen.tagged(tag, () =>
        drawSvg(svg, { x, y, width, height }, { pen, pictures: pictures.found, lacks: lacks.sign }),
      ),
  };
  const words = caption ? keptTogether(textPieces(caption, room, lacks)) : [];
  const left = pictures.left > 0 ? textPieces(leftOutBlock(block), room, lacks) : [];
  const below =
    words.length > 0 && left.length > 0
      ? [...words.map((one) => ({ ...one, staysWithNext: true })), ...left]
      : [...words, ...left];
  return spaced([{ ...drawing, staysWithNext: below.length > 0 }, ...below], block);
}

/** A drawing is drawn when all is laid; what its words lack is told before. */
function tellSigns(svg: Element, { sign }: Lacks): void {
  for (const text of DomUtils.getElementsByTagName('text', svg))
    linesOf(
      [{ text: DomUtils.textContent(text), style: 'regular', scale: 1, colour: INK, href: null }],
      Infinity,
      sign,
    );
}

const keptTogether = (pieces: readonly SheetPiece[]): SheetPiece[] =>
  pieces.map((piece, index) => ({ ...piece, staysWithNext: index < pieces.length - 1 }));

function picturesIn(
  svg: Element,
  lacks: Lacks,
): { readonly found: Map<string, PDFKit.Mixins.ImageSrc>; readonly left: number } {
  const found = new Map<string, PDFKit.Mixins.ImageSrc>();
  const hrefs = DomUtils.getElementsByTagName('image', svg).map(({ attribs }) => attribs['href'] ?? '');
  for (const href of hrefs) {
    const picture = lacks.picture(href);
    if (picture) found.set(href, picture);
  }
  return { found, left: hrefs.length - found.size };
}

function leftOutBlock({ tag, caption }: FigureBlock): TextBlock {
  const look: TextBlock['look'] = caption?.look ?? { size: 8, leading: 1.25, style: 'regular', colour: FAINT };
  return {
    kind: 'text',
    tag: { role: 'P', parent: tag.parent },
    inlines: [{ text: leftOutWords(), style: 'bold', scale: 1, colour: look.colour, href: null }],
    look,
    indent: 0,
    isHeading: false,
    ruled: null,
    before: 0,
    after: 2,
  };
}

export const leftOutWords = (): string =>
  t('The picture is left out: a PDF takes sound JPEG and PNG files. The page in HTML shows it.');

function tablePieces(block: TableBlock, room: SheetRoom, lacks: Lacks): SheetPiece[] {
  const { size } = block.look;
  const gap = 0.6 * size;
  const count = Math.max(0, ...[...block.head, ...block.rows].map((row) => row.length));
  if (count === 0) return [];
  const columns = columnWidths(block, count, room.width - gap * (count - 1));
  const rowPieces = (row: TableBlock['rows'][number], isHead: boolean): SheetPiece[] => {
    const cells = row.map(({ tag, inlines }, index) =>
      linePieces({ tag, inlines, look: block.look }, columns[index] ?? 0, lacks),
    );
    const count = Math.max(1, ...cells.map((cell) => cell.length));
    const line = size * block.look.leading;
    const margin = block.rowMargin * size;
    // A row is not cut, but for one that would fill most of a sheet.
    const most = count * line > room.height / 2 ? 1 : count;
    return Array.from({ length: Math.ceil(count / most) }, (_, part): SheetPiece => {
      const isLast = (part + 1) * most >= count;
      const above = part === 0 ? margin : 0;
      const height = most * line + above + (isLast ? margin : 0);
      return {
        height,
        before: 0,
        after: 0,
        // No heading of a table stands alone.
        staysWithNext: isHead,
        paint: (pen, x, y) => {
          let left = x;
          for (const [index, cell] of cells.entries()) {
            paintBelow(cell.slice(part * most, (part + 1) * most), pen, left, y + above);
            left += (columns[index] ?? 0) + gap;
          }
          if (isLast) pen.rule(x, y + height, room.width, isHead ? 0.75 : 0.5, isHead ? INK : RULE);
        },
      };
    });
  };
  const head = block.head.flatMap((row) => rowPieces(row, true));
  const again = head.map((piece): SheetPiece => ({
    ...piece,
    paint: (pen, x, y) => pen.tagged(null, () => piece.paint(pen, x, y)),
  }));
  const body = block.rows.flatMap((row) => rowPieces(row, false).map((piece) => ({ ...piece, head: again })));
  return spaced([...head, ...body], block);
}

/** Of the width of a table. */
const narrow = 0.18;

/** As a browser shares out a table: each column gets what its longest word needs, and of the rest as its text is long. */
function columnWidths({ head, rows, look }: TableBlock, count: number, width: number): number[] {
  const columns = Array.from({ length: count }, (_, index) => {
    const cells = [...head, ...rows].flatMap((row) => row[index]?.inlines ?? []);
    const wide = [...head, ...rows].map((row) => widthsOf(row[index]?.inlines ?? []));
    if (cells.length === 0) return { least: 0, most: 0 };
    // One word as long as a sheet takes no more of a column than any other.
    const least = Math.min(Math.max(...wide.map((one) => one.least)) * look.size, width / count);
    const most = Math.max(least, Math.max(...wide.map((one) => one.most)) * look.size);
    // Figures and single words stay in one line where their column is narrow anyhow.
    return most < width * narrow ? { least: most, most } : { least, most };
  });
  const [least, most] = [sum(columns.map((one) => one.least)), sum(columns.map((one) => one.most))];
  if (most <= width) return columns.map((one) => one.most + ((width - most) * one.most) / most);
  const share = (width - least) / Math.max(1e-9, most - least);
  return columns.map((one) => one.least + (one.most - one.least) * share);
}
