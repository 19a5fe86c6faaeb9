import type { XY } from '../../../shared/views/film-sheet.ts';
import { edgeLine, type EdgeLine } from '../../../shared/picture/seek/edges.ts';
import { nearestEdge, type Edge, type Patch } from './edge.ts';

const MOST_LOOKED_AT = 16_000_000;

/** A second copy of a film whose pixels may be looked at; how a page gets at them the browser decides. */
export class FilmPixels {
  readonly #image = new Image();
  readonly #canvas = document.createElement('canvas');
  #state: 'loading' | 'ready' | 'barred' = 'loading';

  constructor(href: string, onNews: () => void) {
    this.#image.crossOrigin = 'anonymous';
    this.#image.addEventListener('load', () => {
      this.#state = this.#shades(0, 0, 1, 1) ? 'ready' : 'barred';
      onNews();
    });
    this.#image.addEventListener('error', () => {
      this.#state = 'barred';
      onNews();
    });
    this.#image.src = href;
  }

  /** The browser would not let the page look. */
  get isBarred(): boolean {
    return this.#state === 'barred';
  }

  /** The edge next to a place of the picture, in its pixels; null where there is none or nothing can be looked at. */
  edgeNear(at: XY, radius: number): Edge | null {
    if (this.#state !== 'ready') return null;
    const reach = Math.min(Math.max(radius, 2), 28);
    const side = Math.ceil(2 * reach) + 8;
    const left = Math.floor(at.x - side / 2);
    const top = Math.floor(at.y - side / 2);
    const patch = this.#shades(left, top, side, side);
    const edge = patch && nearestEdge(patch, { x: at.x - left, y: at.y - top }, reach);
    return edge && { ...edge, x: edge.x + left, y: edge.y + top };
  }

  /** The copy has been loaded, and may be looked at. */
  get isReady(): boolean {
    return this.#state === 'ready';
  }

  /**
   * The line fitted to the edge beside two places, all in pixels of the picture as the page counts them: the middle of the first
   * lies at 0.5, 0.5. Null where there is no such edge or nothing can be looked at.
   */
  edgeAlong(a: XY, b: XY, reach: number): EdgeLine | null {
    if (this.#state !== 'ready') return null;
    const room = Math.ceil(reach) + 8;
    const left = Math.floor(Math.min(a.x, b.x)) - room;
    const top = Math.floor(Math.min(a.y, b.y)) - room;
    const width = Math.ceil(Math.max(a.x, b.x)) + room - left;
    const height = Math.ceil(Math.max(a.y, b.y)) + room - top;
    // No line of a foot is as long; a canvas of any size is not to be had.
    if (width * height > MOST_LOOKED_AT) return null;
    const patch = this.#shades(left, top, width, height);
    if (!patch) return null;
    const within = ({ x, y }: XY): XY => ({ x: x - left - 0.5, y: y - top - 0.5 });
    const back = ({ x, y }: XY): XY => ({ x: x + left + 0.5, y: y + top + 0.5 });
    const line = edgeLine([{ width, height, greys: patch.shades }], within(a), within(b), reach);
    return line && { ...line, ends: [back(line.ends[0]), back(line.ends[1])] };
  }

  #shades(left: number, top: number, width: number, height: number): Patch | null {
    const { naturalWidth, naturalHeight } = this.#image;
    // Beyond the picture there is nothing: what lies at its rim goes on, so that the rim is no edge.
    const x = Math.max(0, Math.min(left, naturalWidth - width));
    const y = Math.max(0, Math.min(top, naturalHeight - height));
    this.#canvas.width = width;
    this.#canvas.height = height;
    const pen = this.#canvas.getContext('2d', { willReadFrequently: true });
    if (!pen) return null;
    pen.drawImage(this.#image, x, y, width, height, 0, 0, width, height);
    try {
      const { data } = pen.getImageData(0, 0, width, height);
      const shades = new Float32Array(width * height);
      for (let row = 0; row < height; row++)
        for (let column = 0; column < width; column++) {
          // The patch is asked for where `left` and `top` are, whatever part of it could be drawn.
          const from = 4 * (clamp(row + top - y, height) * width + clamp(column + left - x, width));
          shades[row * width + column] =
            0.299 * (data[from] ?? 0) + 0.587 * (data[from + 1] ?? 0) + 0.114 * (data[from + 2] ?? 0);
        }
      return { width, height, shades };
    } catch {
      return null;
    }
  }
}

const clamp = (value: number, size: number): number => Math.max(0, Math.min(size - 1, value));
