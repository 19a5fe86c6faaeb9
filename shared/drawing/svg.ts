import type { XY } from '../geometry/vector.ts';
import { inkCss, type Palette } from './ink.css.ts';
import type { ArcNode, NodeData, Scene, SceneNode, PathSegment } from './scene.ts';

export interface SvgOptions {
  /** With its own stylesheet and plain colours: a file that any viewer shows rightly. */
  readonly standalone?: boolean;
  readonly palette?: Partial<Palette>;
  /** Size on the page in CSS pixels; without it the drawing fills what holds it. */
  readonly width?: number;
  readonly height?: number;
  /** What width and height are given in; CSS pixels where it is left out. */
  readonly sizeIn?: 'mm';
  readonly classes?: readonly string[];
}

/** XML 1.0 cannot carry most control characters, even escaped. */
// oxlint-disable-next-line no-control-regex -- they are what is looked for
const unspeakable = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g;

/** For text and attributes. What XML cannot carry, half a surrogate pair too, becomes U+FFFD. A picture in it may have megabytes. */
export function escaped(text: string): string {
  return text
    .toWellFormed()
    .replace(unspeakable, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** No scheme that anything opens is longer, and no picture's type. */
const longestScheme = 100;

/** A picture comes from a file, the web page's own store, or the drawing itself; anything that could run is refused. */
function safeHref(href: string): string | null {
  const plain = beginning(href);
  const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(plain)?.[1]?.toLowerCase();
  if (scheme === undefined) return href;
  if (scheme === 'data') return /^data:image\/(png|jpe?g|webp|gif|bmp)[;,]/i.test(plain) ? href : null;
  return ['http', 'https', 'blob', 'file'].includes(scheme) || scheme.startsWith('vscode-') ? href : null;
}

/** Browsers overlook blanks and control characters inside a scheme, so they are overlooked here too. */
function beginning(href: string): string {
  let plain = '';
  for (const letter of href) {
    if (letter > ' ') plain += letter;
    if (plain.length >= longestScheme) break;
  }
  return plain;
}

function figure(value: number): string {
  if (!Number.isFinite(value)) return '0';
  const text = value.toFixed(2);
  return text.includes('.') ? text.replace(/\.?0+$/, '').replace(/^-0$/, '0') : text;
}

function pathText(segments: readonly PathSegment[]): string {
  return segments.map((s) => s[0] + (s.slice(1) as number[]).map(figure).join(' ')).join('');
}

function arcPath(arc: ArcNode): string {
  const at = (angle: number): XY => ({
    x: arc.centre.x + arc.radius * Math.cos(angle),
    y: arc.centre.y + arc.radius * Math.sin(angle),
  });
  const start = at(arc.from);
  const end = at(arc.to);
  const large = Math.abs(arc.to - arc.from) > Math.PI ? 1 : 0;
  const sweep = arc.to > arc.from ? 1 : 0;
  const r = figure(arc.radius);
  return `M${figure(start.x)} ${figure(start.y)}A${r} ${r} 0 ${large} ${sweep} ${figure(end.x)} ${figure(end.y)}`;
}

function dataText(data: NodeData | undefined): string {
  if (!data) return '';
  return (['layer', 'landmark', 'measure', 'part'] as const)
    .map((key) => (data[key] === undefined ? '' : ` data-${key}="${escaped(data[key])}"`))
    .join('');
}

function classText(classes: readonly string[] | undefined): string {
  return classes && classes.length > 0 ? ` class="${escaped(classes.join(' '))}"` : '';
}

type Inked = Extract<SceneNode, { weight?: number }>;

/** The way of a pen along a node, as the `d` of a path. */
export function wayOf(node: Inked): string {
  switch (node.kind) {
    case 'path':
      return pathText(node.segments);
    case 'arc':
      return arcPath(node);
    case 'line':
      return `M${figure(node.from.x)} ${figure(node.from.y)}L${figure(node.to.x)} ${figure(node.to.y)}`;
    case 'circle': {
      const [r, x] = [figure(node.radius), figure(2 * node.radius)];
      return `M${figure(node.centre.x - node.radius)} ${figure(node.centre.y)}a${r} ${r} 0 1 0 ${x} 0a${r} ${r} 0 1 0 -${x} 0`;
    }
  }
}

function shape(node: Inked, attributes: string): string {
  if (node.kind === 'circle')
    return `<circle${attributes} cx="${figure(node.centre.x)}" cy="${figure(node.centre.y)}" r="${figure(node.radius)}"/>`;
  return `<path${attributes} d="${wayOf(node)}"/>`;
}

function inked(node: Inked, onPicture: boolean): string {
  const weight = node.weight === undefined ? '' : ` stroke-width="${figure(node.weight)}"`;
  const dash = node.dash ? ` stroke-dasharray="${node.dash.map(figure).join(' ')}"` : '';
  const stroked = [...(node.classes ?? []), ...(node.weight === undefined ? [] : ['stroked'])];
  const ink = shape(node, `${classText(stroked)}${dataText(node.data)}${weight}${dash}`);
  if (node.weight === undefined || !(node.halo === 'always' || (onPicture && node.halo === 'film'))) return ink;
  return shape(node, ` class="halo" stroke-width="${figure(node.weight * 2.8)}"`) + ink;
}

function nodeText(node: SceneNode, onPicture: boolean): string {
  switch (node.kind) {
    case 'group': {
      const title = node.title ? `<title>${escaped(node.title)}</title>` : '';
      const inner = node.children.map((child) => nodeText(child, onPicture)).join('');
      return `<g${classText(node.classes)}${dataText(node.data)}>${title}${inner}</g>\n`;
    }
    case 'dots': {
      // A line of no length with a round end is a dot, and a thousand of them are one element.
      const d = node.points.map((p) => `M${figure(p.x)} ${figure(p.y)}h0`).join('');
      return `<path${classText([...(node.classes ?? []), 'dots'])} stroke-width="${figure(node.size)}" d="${d}"/>`;
    }
    case 'text': {
      const runs = node.runs
        .map((run) =>
          run.classes ? `<tspan${classText(run.classes)}>${escaped(run.text)}</tspan>` : escaped(run.text),
        )
        .join('');
      const at = `x="${figure(node.at.x)}" y="${figure(node.at.y)}"`;
      return `<text${classText(node.classes)} ${at} font-size="${figure(node.size)}" text-anchor="${node.anchor}">${runs}</text>`;
    }
    case 'image': {
      const href = safeHref(node.href);
      if (href === null) return '';
      const { x, y, width, height } = node.box;
      return `<image${classText(node.classes)}${dataText(node.data)} href="${escaped(href)}" x="${figure(x)}" y="${figure(y)}" width="${figure(width)}" height="${figure(height)}" preserveAspectRatio="none"/>`;
    }
    default:
      return inked(node, onPicture);
  }
}

export function sceneToSvg(scene: Scene, options: SvgOptions = {}): string {
  const { x, y, width, height } = scene.view;
  const classes = ['ungula-plate', ...(scene.onPicture ? ['on-picture'] : []), ...(options.classes ?? [])];
  const unit = options.sizeIn ?? '';
  const size =
    (options.width === undefined ? '' : ` width="${figure(options.width)}${unit}"`) +
    (options.height === undefined ? '' : ` height="${figure(options.height)}${unit}"`);
  const box = `x="${figure(x)}" y="${figure(y)}" width="${figure(width)}" height="${figure(height)}"`;
  // A file is named by elements, which every viewer reads out; a page by an attribute, as a title in it would hang at the pointer.
  const label = options.standalone ? '' : ` aria-label="${escaped(`${scene.title}. ${scene.description}`)}"`;
  const context = options.standalone
    ? `<title>${escaped(scene.title)}</title>\n<desc>${escaped(scene.description)}</desc>\n<style>${escaped(inkCss(options.palette ?? {}, scene.rules))}</style>\n<rect class="context" ${box}/>\n`
    : '';
  const text = (layer: Scene['layers'][number]): string => nodeText(layer, scene.onPicture);
  // One veil over the whole foot: layer by layer, what lies behind the bones would show through them.
  const isFoot = (layer: Scene['layers'][number]): boolean => layer.data?.layer !== 'measures';
  const layers = scene.ghost
    ? `<g class="ghost">${scene.layers.filter(isFoot).map(text).join('')}</g>\n` +
      scene.layers
        .filter((layer) => !isFoot(layer))
        .map(text)
        .join('')
    : scene.layers.map(text).join('');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg"${classText(classes)} viewBox="${[x, y, width, height].map(figure).join(' ')}"` +
    `${size} role="img"${label}>\n` +
    context +
    layers +
    `</svg>\n`
  );
}
