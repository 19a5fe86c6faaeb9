import { type AnyNode, type Element, isTag, isText } from 'domhandler';
import { DomUtils, parseDocument } from 'htmlparser2';
import type { PageBlock, Cell, FigureBlock, ListBlock, TypeLook, TableBlock, Tag, TextBlock } from './blocks.ts';
import type { Inline } from './lines.ts';
import { classLooks, FAINT, INK, mm, mostHeights, readerLooks, type ReaderLook } from './page-look.ts';

/** A page that is handed over, read from its own HTML to be laid on sheets: so no sentence stands in two places. */
export interface ReadPage {
  readonly title: string;
  readonly language: string;
  readonly root: Tag;
  readonly blocks: readonly PageBlock[];
  /** Whether a foot on it is wider than an upright sheet. */
  readonly isAcross: boolean;
  readonly mostSheets: number;
}

/** What a part takes from what it stands in. */
interface Within {
  readonly look: TypeLook;
  readonly tag: Tag;
  readonly reader: ReaderLook;
  /** Classes of all that it stands in. */
  readonly classes: readonly string[];
}

const usual: ReaderLook = { size: 10.5, leading: 1.3, headMargin: 0.7, rowMargin: 0.16, mostSheets: Infinity };

/** `scale`: of the size of its type. */
export function readPage(html: string, scale = 1): ReadPage {
  const page = parseDocument(html, { recognizeSelfClosing: true });
  const one = (name: string): Element | null =>
    DomUtils.findOne((node) => isTag(node) && node.name === name, page.children) as Element | null;
  const body = one('body');
  const classes = body ? classesOf(body) : [];
  const reader = readerLooks[classes[0] ?? ''] ?? usual;
  const root: Tag = { role: 'Document', parent: null };
  const look: TypeLook = { size: reader.size * scale, leading: reader.leading, style: 'regular', colour: INK };
  const title = one('title');
  return {
    title: title ? DomUtils.textContent(title) : '',
    language: one('html')?.attribs['lang'] ?? 'en',
    root,
    mostSheets: reader.mostSheets,
    isAcross: DomUtils.existsOne((node) => isTag(node) && classesOf(node).includes('lies-across'), page.children),
    blocks: body ? blocksIn(body.children, { look, tag: root, reader, classes }) : [],
  };
}

export const classesOf = (element: Element): string[] => (element.attribs['class'] ?? '').split(' ').filter(Boolean);

const tagIn = (parent: Tag, role: string): Tag => ({ role, parent });

const inlineNames = new Set(['strong', 'small', 'cite', 'span', 'a', 'br', 'em', 'b', 'i']);
const isInline = (node: AnyNode): boolean => isText(node) || (isTag(node) && inlineNames.has(node.name));

/** Words that stand in no paragraph of their own become one, so that nothing is lost. */
function blocksIn(nodes: readonly AnyNode[], within: Within): PageBlock[] {
  const blocks: PageBlock[] = [];
  let loose: AnyNode[] = [];
  const paragraph = (): void => {
    const text = textBlock(loose, within, { role: 'P', margin: 0.35 });
    if (text) blocks.push(text);
    loose = [];
  };
  for (const node of nodes) {
    if (isInline(node)) loose.push(node);
    else if (isTag(node)) {
      paragraph();
      blocks.push(...blocksOf(node, within));
    }
  }
  paragraph();
  return blocks;
}

function lookOf(element: Element, { look }: Within): TypeLook & { readonly margin: number | null } {
  const own = classesOf(element).flatMap((name) => classLooks[name] ?? []);
  return {
    size: own.reduce((size, { scale = 1 }) => size * scale, look.size),
    leading: look.leading,
    style: own.some(({ isBold }) => isBold) ? 'bold' : look.style,
    colour: own.some(({ isFaint }) => isFaint) ? FAINT : look.colour,
    margin: own.find(({ margin }) => margin !== undefined)?.margin ?? null,
  };
}

function blocksOf(element: Element, above: Within): PageBlock[] {
  const classes = classesOf(element);
  const { margin, ...look } = lookOf(element, above);
  const within: Within = { ...above, look, classes: [...above.classes, ...classes] };
  switch (element.name) {
    case 'h1':
    case 'h2':
    case 'h3':
    case 'h4':
      return headingOf(element, within);
    case 'p':
    case 'dt':
    case 'dd':
    case 'caption':
      return paragraphOf(element, within, margin);
    case 'ul':
    case 'ol':
      return listOf(element, within, margin);
    case 'table':
      return tableOf(element, within);
    case 'figure':
      return figureOf(element, within);
    case 'header':
      return headerOf(element, within);
    default:
      return partOf(element, within, classes);
  }
}

/** Sections and what else holds other parts. */
function partOf(element: Element, within: Within, classes: readonly string[]): PageBlock[] {
  const spaced = { before: 0.8 * within.look.size, after: 0.8 * within.look.size };
  const breaks: PageBlock[] = classes.includes('rest') ? [{ kind: 'break' }] : [];
  if (classes.includes('beside') || classes.includes('plates') || classes.includes('month-row')) {
    const columns = element.children.filter(isTag).map((child) => blocksOf(child, within));
    const gap = classes.includes('beside') ? 1.2 * within.look.size : mm(3);
    return [{ kind: 'columns', columns, gap, before: 0, after: 0 }];
  }
  const blocks = blocksIn(element.children, within);
  if (classes.includes('alarms'))
    return [{ kind: 'box', look: 'double', blocks: blocks.map(inBold), leastHeight: 0, ...spaced }];
  if (classes.includes('notes-room')) return [{ kind: 'box', look: 'room', blocks, leastHeight: mm(36), ...spaced }];
  if (classes.includes('foot')) return [...breaks, { kind: 'kept', blocks, ...spaced }];
  return [...breaks, ...blocks];
}

/** What stands in the frame of the alarms is heavier than all else. */
function inBold(block: PageBlock): PageBlock {
  const heavy = (inlines: readonly Inline[]): Inline[] => inlines.map((one) => ({ ...one, style: 'bold' }));
  if (block.kind === 'text') return { ...block, inlines: heavy(block.inlines) };
  if (block.kind !== 'list') return block;
  return {
    ...block,
    items: block.items.map((item) => ({ ...item, text: { ...item.text, inlines: heavy(item.text.inlines) } })),
  };
}

interface TextAbout {
  readonly role: string;
  /** In units of the size. */
  readonly margin: number;
  readonly indent?: number;
  readonly tag?: Tag;
}

function textBlock(nodes: readonly AnyNode[], within: Within, about: TextAbout): TextBlock | null {
  const inlines = inlinesOf(nodes, within.look);
  if (inlines.every(({ text }) => text.trim() === '')) return null;
  const space = about.margin * within.look.size;
  return {
    kind: 'text',
    tag: about.tag ?? tagIn(within.tag, about.role),
    inlines,
    look: within.look,
    indent: about.indent ?? 0,
    isHeading: false,
    ruled: null,
    before: space,
    after: space,
  };
}

const headScales: Readonly<Record<string, number>> = { h1: 1.8, h2: 1.15, h3: 1, h4: 1 };

function headingOf(element: Element, within: Within): PageBlock[] {
  const isPlain = within.classes.includes('alarms') || within.classes.includes('cautions');
  const scale = isPlain && element.name === 'h2' ? 1 : (headScales[element.name] ?? 1);
  const look: TypeLook = { ...within.look, size: within.look.size * scale, leading: 1.2, style: 'bold' };
  const text = textBlock(element.children, { ...within, look }, { role: element.name.toUpperCase(), margin: 0 });
  if (!text) return [];
  const isRuled = element.name === 'h2' && !within.classes.includes('alarms');
  const before = element.name === 'h1' || within.classes.includes('alarms') ? 0 : within.reader.headMargin * look.size;
  return [{ ...text, isHeading: true, ruled: isRuled ? 'above' : null, before, after: 0.35 * look.size }];
}

function paragraphOf(element: Element, within: Within, margin: number | null): PageBlock[] {
  const isDefined = element.name === 'dd';
  if (isDefined && element.children.some((child) => !isInline(child))) return blocksIn(element.children, within);
  const role = element.name === 'caption' ? 'Caption' : 'P';
  const look: TypeLook =
    element.name === 'dt' || element.name === 'caption' ? { ...within.look, style: 'italic' } : within.look;
  const indent = isDefined ? look.size : 0;
  const text = textBlock(element.children, { ...within, look }, { role, margin: margin ?? 0.35, indent });
  if (!text) return [];
  if (element.name === 'dt') return [{ ...text, isHeading: true, after: 0.1 * look.size }];
  if (classesOf(element).includes('withheld'))
    return [{ kind: 'box', look: 'bar', blocks: [text], leastHeight: 0, before: text.before, after: text.after }];
  return [text];
}

function headerOf(element: Element, within: Within): PageBlock[] {
  const blocks = blocksIn(element.children, within);
  const last = blocks.at(-1);
  return last?.kind === 'text' ? [...blocks.slice(0, -1), { ...last, isHeading: false, ruled: 'below' }] : blocks;
}

function listOf(element: Element, within: Within, margin: number | null): PageBlock[] {
  const points = element.children.filter(isTag).filter(({ name }) => name === 'li');
  const space = (margin ?? 0.35) * within.look.size;
  if (classesOf(element).includes('marks')) {
    // The heights of the line stand in one row.
    const row = points.flatMap((point, index) => [
      ...(index === 0 ? [] : [inlineOf('\u2003 \u2003', within.look)]),
      ...inlinesOf(point.children, within.look),
    ]);
    const text = textBlock(
      points.flatMap(({ children }) => children),
      within,
      { role: 'P', margin: 0.2 },
    );
    return text ? [{ ...text, inlines: row }] : [];
  }
  const list = tagIn(within.tag, 'L');
  const items = points.flatMap((point, index) => {
    const item = tagIn(list, 'LI');
    const markTag = tagIn(item, 'Lbl');
    const text = textBlock(point.children, within, { role: 'LBody', margin: 0.15, tag: tagIn(item, 'LBody') });
    return text ? [{ mark: element.name === 'ol' ? `${index + 1}.` : '•', markTag, text }] : [];
  });
  if (items.length === 0) return [];
  const block: ListBlock = {
    kind: 'list',
    items,
    columns: classesOf(element).includes('two-up') ? 2 : 1,
    before: space,
    after: space,
  };
  return [block];
}

function tableOf(element: Element, within: Within): PageBlock[] {
  const look: TypeLook = { ...within.look, size: within.look.size * 0.92 };
  const table = tagIn(within.tag, 'Table');
  const rowsIn = (part: string): Element[] =>
    DomUtils.findAll((node) => node.name === 'tr' && (node.parent as Element | null)?.name === part, element.children);
  const cellsOf = (row: Element): Cell[] => {
    const tag = tagIn(table, 'TR');
    return row.children.filter(isTag).map((cell): Cell => {
      const isHead = cell.name === 'th';
      const scope = cell.attribs['scope'] === 'col' ? 'Column' : 'Row';
      const isTop = (row.parent as Element | null)?.name === 'thead';
      return {
        tag: isHead ? { ...tagIn(tag, 'TH'), scope } : tagIn(tag, 'TD'),
        inlines: inlinesOf(cell.children, isTop ? { ...look, style: 'bold' } : look),
      };
    });
  };
  const caption = element.children.filter(isTag).find(({ name }) => name === 'caption');
  const block: TableBlock = {
    kind: 'table',
    look,
    rowMargin: within.reader.rowMargin,
    head: rowsIn('thead').map(cellsOf),
    rows: rowsIn('tbody').map(cellsOf),
    before: 0.4 * look.size,
    after: 0.4 * look.size,
  };
  return [...(caption ? paragraphOf(caption, within, 0.2) : []), block];
}

function figureOf(element: Element, within: Within): PageBlock[] {
  const svg = DomUtils.findOne((node) => node.name === 'svg', element.children);
  if (!svg) return blocksIn(element.children, within);
  const words = element.children.filter(isTag).find(({ name }) => name === 'figcaption');
  const look: TypeLook = { ...within.look, size: within.look.size * 0.88, colour: FAINT };
  const tag: Tag = { ...tagIn(within.tag, 'Figure'), alt: svg.attribs['aria-label'] ?? '' };
  const caption = words
    ? textBlock(
        words.children,
        { ...within, look },
        { role: 'Caption', margin: 0.2, tag: tagIn(within.tag, 'Caption') },
      )
    : null;
  const figure: FigureBlock = {
    kind: 'figure',
    tag,
    svg,
    caption,
    trueSize: sizeInMm(svg),
    mostHeight: mostHeights.find(([names]) => names.every((name) => within.classes.includes(name)))?.[1] ?? Infinity,
    before: 0.5 * within.look.size,
    after: 0.5 * within.look.size,
  };
  return [figure];
}

function sizeInMm({ attribs }: Element): FigureBlock['trueSize'] {
  const [width, height] = [attribs['width'], attribs['height']].map((text) => /^([\d.]+)mm$/.exec(text ?? '')?.[1]);
  return width === undefined || height === undefined ? null : { width: mm(Number(width)), height: mm(Number(height)) };
}

const inlineOf = (text: string, { style, colour }: TypeLook): Inline => ({ text, style, colour, scale: 1, href: null });

/** Blanks are joined across tags, as a browser joins them. */
function inlinesOf(nodes: readonly AnyNode[], look: TypeLook): Inline[] {
  const found: Inline[] = [];
  const walk = (children: readonly AnyNode[], like: Inline): void => {
    for (const node of children) {
      if (isText(node)) {
        const joined = node.data.replaceAll(/[ \t\n\r\f]+/g, ' ');
        const isDouble = joined.startsWith(' ') && /(?:^|[ \n])$/.test(found.at(-1)?.text ?? '');
        const text = isDouble ? joined.slice(1) : joined;
        if (text !== '') found.push({ ...like, text });
      } else if (isTag(node)) {
        if (node.name === 'br') found.push({ ...like, text: '\n' });
        else walk(node.children, likeIn(node, like));
      }
    }
  };
  walk(nodes, inlineOf('', look));
  const last = found.at(-1);
  return last ? [...found.slice(0, -1), { ...last, text: last.text.trimEnd() }] : found;
}

function likeIn({ name, attribs }: Element, like: Inline): Inline {
  switch (name) {
    case 'strong':
    case 'b':
      return { ...like, style: 'bold' };
    case 'cite':
    case 'em':
    case 'i':
      return { ...like, style: 'italic' };
    case 'small':
      return { ...like, scale: like.scale * 0.83, colour: FAINT };
    case 'a':
      return { ...like, href: attribs['href'] ?? null };
    default:
      return like;
  }
}
