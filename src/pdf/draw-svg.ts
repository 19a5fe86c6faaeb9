import { isTag, isText, type Element } from 'domhandler';
import type { Box } from '../../shared/drawing/scene.ts';
import { INK } from './page-look.ts';
import { linesOf, type Inline } from './lines.ts';
import type { Pen } from './pen.ts';
import { inkOf, type Ink } from './svg-ink.ts';

/** A drawing of a page, drawn from its SVG. The drawings are made of few things (`shared/drawing/svg.ts`), and all of them are known here. */

export function viewBox(svg: Element): Box {
  const [x = 0, y = 0, width = 1, height = 1] = (svg.attribs['viewbox'] ?? '').split(/\s+/).map(Number);
  return { x, y, width, height };
}

export interface SvgParts {
  readonly pen: Pen;
  /** Pictures that stand in the drawing, by what they are called in it; those that could not be read are left out. */
  readonly pictures: ReadonlyMap<string, PDFKit.Mixins.ImageSrc>;
  readonly lacks: (sign: string) => void;
}

/** In a box of points, as large as fits into it without being cut or drawn out. */
export function drawSvg(svg: Element, into: Box, parts: SvgParts): void {
  const { doc } = parts.pen;
  const view = viewBox(svg);
  const scale = Math.min(into.width / view.width, into.height / view.height);
  const [left, top] = [(into.width - view.width * scale) / 2, (into.height - view.height * scale) / 2];
  doc.save();
  doc
    .translate(into.x + left, into.y + top)
    .scale(scale, scale)
    .translate(-view.x, -view.y);
  doc.rect(view.x, view.y, view.width, view.height).clip();
  const { ink, path } = inkOf(svg, { ink: new Map(), path: '' });
  for (const child of svg.children) if (isTag(child)) drawNode(child, { ink, path, opacity: 1 }, parts);
  doc.restore();
}

interface Above {
  readonly ink: Ink;
  readonly path: string;
  readonly opacity: number;
}

function drawNode(element: Element, above: Above, parts: SvgParts): void {
  const { ink, path } = inkOf(element, above);
  if (ink.get('visibility') === 'hidden' && element.name !== 'g') return;
  const own: Above = { ink, path, opacity: above.opacity * Number(ink.get('opacity') ?? 1) };
  switch (element.name) {
    case 'g':
      for (const child of element.children) if (isTag(child)) drawNode(child, own, parts);
      return;
    case 'path':
    case 'circle':
      drawShape(element, own, parts.pen.doc);
      return;
    case 'text':
      drawText(element, own, parts);
      return;
    case 'image':
      drawImage(element, own, parts);
      return;
    case 'title':
      // Shown where a pointer rests.
      return;
    default:
      throw new Error(`a drawing holds <${element.name}>, which no PDF is written of`);
  }
}

const paintIn = (ink: Ink, property: string): string | null => {
  const colour = ink.get(property);
  return colour === undefined || colour === 'none' || colour === 'transparent' ? null : colour;
};

function drawShape(element: Element, { ink, opacity }: Above, doc: PDFKit.PDFDocument): void {
  const [fill, stroke] = [paintIn(ink, 'fill'), paintIn(ink, 'stroke')];
  if (fill === null && stroke === null) return;
  const { attribs } = element;
  doc.save();
  if (element.name === 'circle') doc.circle(Number(attribs['cx']), Number(attribs['cy']), Number(attribs['r']));
  else doc.path(attribs['d'] ?? '');
  if (stroke !== null) {
    doc
      .lineWidth(Number(ink.get('stroke-width') ?? 1))
      .lineCap(ink.get('stroke-linecap') === 'butt' ? 'butt' : 'round');
    doc.lineJoin('round').strokeColor(stroke, opacity);
    const dash = (ink.get('stroke-dasharray') ?? '')
      .split(/[\s,]+/)
      .map(Number)
      .filter((length) => length > 0);
    if (dash.length > 0) doc.dash(dash as unknown as number, {});
  }
  if (fill !== null) doc.fillColor(fill, opacity);
  if (fill !== null && stroke !== null) doc.fillAndStroke();
  else if (fill !== null) doc.fill();
  else doc.stroke();
  doc.restore();
}

function drawText(element: Element, above: Above, { pen, lacks }: SvgParts): void {
  const inlines = element.children.flatMap((child): Inline[] => {
    if (isText(child)) return [inlineOf(child.data, above.ink)];
    if (!isTag(child)) return [];
    const { ink } = inkOf(child, above);
    return child.children.flatMap((one) => (isText(one) ? [inlineOf(one.data, ink)] : []));
  });
  const [line] = linesOf(inlines, Infinity, lacks);
  if (!line) return;
  const size = Number(element.attribs['font-size'] ?? 12);
  const anchor = element.attribs['text-anchor'];
  const back = anchor === 'middle' ? line.width / 2 : anchor === 'end' ? line.width : 0;
  const around = above.ink.get('paint-order') === 'stroke' ? paintIn(above.ink, 'stroke') : null;
  const [, wide] = /^([\d.]+)em$/.exec(above.ink.get('stroke-width') ?? '') ?? [];
  pen.line(line, Number(element.attribs['x']) - back * size, Number(element.attribs['y']), {
    size,
    opacity: above.opacity,
    outline: around !== null && wide !== undefined ? { colour: around, width: Number(wide) * size } : null,
  });
}

function inlineOf(text: string, ink: Ink): Inline {
  const style = ink.get('font-weight') === 'bold' ? 'bold' : ink.get('font-style') === 'italic' ? 'italic' : 'regular';
  return { text, style, scale: 1, colour: paintIn(ink, 'fill') ?? INK, href: null };
}

function drawImage({ attribs }: Element, { opacity }: Above, { pen: { doc }, pictures }: SvgParts): void {
  const picture = pictures.get(attribs['href'] ?? '');
  if (!picture) return;
  const [x = 0, y = 0, width = 0, height = 0] = ['x', 'y', 'width', 'height'].map((name) => Number(attribs[name]));
  doc.save().opacity(opacity);
  doc.image(picture, x, y, { width, height });
  doc.restore();
}
