import type { XY } from '../../../shared/views/film-sheet.ts';
import { circleThrough } from '../../../shared/geometry/circle.ts';
import type { CircleFit } from '../../../shared/picture/seek/circle-fit.ts';
import { edgeEnds } from '../../../shared/picture/seek/edge-ends.ts';
import { edgeCircle, edgeLine, longEdgeLine } from '../../../shared/picture/seek/edges.ts';
import type { Pyramid } from '../../../shared/picture/seek/pyramid.ts';
import type { EdgeFit, EdgeKind } from './edge-fit.ts';
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
   * Two places laid onto the edge beside them, all in pixels of the picture as the page counts them: the middle of the first lies at
   * 0.5, 0.5. Null where there is no such edge or nothing can be looked at.
   */
  edgeAlong(a: XY, b: XY, reach: number, what: EdgeKind = 'edge'): EdgeFit | null {
    return this.#lookedAt([a, b], reach, (picture, within, back) => {
      if (what === 'ends') {
        const ends = edgeEnds(picture, within(a), within(b), reach);
        return ends && { ends: [back(ends[0]), back(ends[1])] };
      }
      const line = (what === 'edge' ? edgeLine : longEdgeLine)(picture, within(a), within(b), reach);
      return line && { sds: line.sds, ends: [back(line.ends[0]), back(line.ends[1])] };
    });
  }

  /** The circle fitted to the rounded edge beside three places; the same otherwise. */
  edgeAround(a: XY, b: XY, c: XY, reach: number): CircleFit | null {
    const round = circleThrough(a, b, c);
    if (!round) return null;
    const { x, y, radius } = round;
    const corners = [
      { x: x - radius, y: y - radius },
      { x: x + radius, y: y + radius },
    ];
    return this.#lookedAt(corners, 2 * reach, (picture, within, back) => {
      const circle = edgeCircle(picture, [within(a), within(b), within(c)], reach);
      return circle && { ...circle, centre: back(circle.centre) };
    });
  }

  /** Looks at the part of the picture that some places lie in, and `reach` further; that part has coordinates of its own. */
  #lookedAt<Found>(
    places: readonly XY[],
    reach: number,
    look: (picture: Pyramid, within: (at: XY) => XY, back: (at: XY) => XY) => Found | null,
  ): Found | null {
    if (this.#state !== 'ready') return null;
    const room = Math.ceil(reach) + 8;
    const [xs, ys] = [places.map(({ x }) => x), places.map(({ y }) => y)];
    const left = Math.floor(Math.min(...xs)) - room;
    const top = Math.floor(Math.min(...ys)) - room;
    const width = Math.ceil(Math.max(...xs)) + room - left;
    const height = Math.ceil(Math.max(...ys)) + room - top;
    // Nothing of a foot is as large; a canvas of any size is not to be had.
    if (width * height > MOST_LOOKED_AT) return null;
    const patch = this.#shades(left, top, width, height);
    if (!patch) return null;
    return look(
      [{ width, height, greys: patch.shades }],
      ({ x, y }) => ({ x: x - left - 0.5, y: y - top - 0.5 }),
      ({ x, y }) => ({ x: x + left + 0.5, y: y + top + 0.5 }),
    );
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
