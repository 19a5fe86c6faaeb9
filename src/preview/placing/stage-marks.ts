import type { XY } from '../../../shared/views/film-sheet.ts';
import { t } from '../../../shared/language/words.ts';
import { nameOfLandmark } from '../../../shared/views/landmark-names.ts';
import type { Handle } from './handles.ts';
import { shape } from './shapes.ts';
import type { NamePlace } from './stage-labels.ts';

/** A place that is proposed and nobody has confirmed. */
export interface GhostMark {
  readonly name: string;
  readonly at: XY;
  readonly distinct: boolean;
  /** It may be confirmed as it lies. */
  readonly found: boolean;
}

export interface Marks {
  readonly handles: readonly Handle[];
  readonly ghosts: readonly GhostMark[];
  /** Lines of which both ends are proposed. */
  readonly ghostLines: readonly (readonly [XY, XY])[];
  /** The ghost of the place that is asked for. */
  readonly asked: string | null;
  /** Where each name stands when it shows; a name without an entry has no room. */
  readonly names: ReadonlyMap<string, NamePlace>;
  readonly selected: string | null;
  readonly cursor: string | null;
  /** The first end of a line, and where the second would be. */
  readonly first: XY | null;
  readonly to: XY | null;
  readonly rim: readonly XY[];
  readonly circle: { readonly at: XY; readonly radius: number } | null;
}

const CROSS = 'M-9 0H-3M3 0H9M0-9V-3M0 3V9';
/** No cross, whatever its colour: what stands there is no placing. Where the picture did not tell it, its sides are open. */
const GHOST = { distinct: 'M0-8L8 0 0 8-8 0ZM0-1V1', carried: 'M-3-5L0-8 3-5M5-3L8 0 5 3M3 5L0 8-3 5M-5 3L-8 0-5-3' };

/** Marks of one size on the screen, whatever the zoom; each is made once and then moved. */
export class StageMarks {
  readonly beneath = shape('g', { class: 'stage-helps', 'aria-hidden': 'true' });
  readonly above = shape('g', { class: 'spots' });
  readonly #spots = new Map<string, SVGElement>();
  readonly #ghosts = new Map<string, SVGElement>();
  readonly #rim: SVGElement[] = [];
  readonly #ghostLines = shape('path', { class: 'ghost-line' });
  readonly #line = shape('path', { class: 'help' });
  readonly #lineHalo = shape('path', { class: 'help-halo' });
  readonly #circle = shape('circle', { class: 'help' });
  readonly #circleHalo = shape('circle', { class: 'help-halo' });
  readonly #centre = spot('centre', t('Centre of the circle'));
  readonly #edge = shape('circle', { class: 'edge-found', r: 5 });

  constructor() {
    this.beneath.append(this.#ghostLines, this.#lineHalo, this.#line, this.#circleHalo, this.#circle, this.#edge);
    this.#edge.setAttribute('hidden', '');
  }

  show({ handles, ghosts, ghostLines, asked, names, selected, cursor, first, to, rim, circle }: Marks): void {
    const gone = new Set(this.#spots.keys());
    let before: SVGElement | null = null;
    for (const { key, name, at } of handles) {
      gone.delete(key);
      const known = this.#spots.get(key);
      const mark = known ?? spot('handle', name);
      if (!known) {
        mark.setAttribute('data-handle', key);
        this.#spots.set(key, mark);
        if (before) before.after(mark);
        else this.above.prepend(mark);
      }
      lay(mark, at);
      layName(mark, names.get(key));
      mark.classList.toggle('is-picked', key === selected);
      mark.classList.toggle('at-cursor', key === cursor);
      mark.setAttribute('aria-pressed', String(key === selected));
      before = mark;
    }
    for (const key of gone) {
      this.#spots.get(key)?.remove();
      this.#spots.delete(key);
    }
    this.#showGhosts(ghosts, asked);
    this.#ghostLines.setAttribute('d', ghostLines.map(([from, to]) => `M${from.x} ${from.y}L${to.x} ${to.y}`).join(''));
    this.#showRim(first ? [first, ...rim] : rim, first === null);
    const way = first && to ? `M${first.x} ${first.y}L${to.x} ${to.y}` : '';
    this.#line.setAttribute('d', way);
    this.#lineHalo.setAttribute('d', way);
    for (const ring of [this.#circle, this.#circleHalo]) {
      ring.setAttribute('cx', String(circle?.at.x ?? 0));
      ring.setAttribute('cy', String(circle?.at.y ?? 0));
      ring.setAttribute('r', String(circle?.radius ?? 0));
    }
    if (circle) {
      lay(this.#centre, circle.at);
      this.#centre.setAttribute('data-centre', '');
      this.above.append(this.#centre);
    } else this.#centre.remove();
  }

  /** The edge that a click would take. */
  aim(edge: XY | null): void {
    if (!edge) return this.#edge.setAttribute('hidden', '');
    this.#edge.removeAttribute('hidden');
    this.#edge.setAttribute('cx', String(edge.x));
    this.#edge.setAttribute('cy', String(edge.y));
  }

  #showGhosts(ghosts: readonly GhostMark[], asked: string | null): void {
    const gone = new Set(this.#ghosts.keys());
    for (const { name, at, distinct, found } of ghosts) {
      gone.delete(name);
      const mark = this.#ghosts.get(name) ?? ghost(name);
      this.#ghosts.set(name, mark);
      lay(mark, at);
      for (const line of mark.querySelectorAll('path'))
        line.setAttribute('d', distinct ? GHOST.distinct : GHOST.carried);
      mark.setAttribute('aria-label', ghostWords(name, distinct, found));
      mark.classList.toggle('is-asked', name === asked);
      if (!mark.isConnected) this.above.append(mark);
    }
    for (const name of gone) {
      this.#ghosts.get(name)?.remove();
      this.#ghosts.delete(name);
    }
  }

  #showRim(points: readonly XY[], canMove: boolean): void {
    points.forEach((at, index) => {
      const mark = (this.#rim[index] ??= spot('rim', t('Point {0} on the edge', index + 1)));
      lay(mark, at);
      if (canMove) mark.setAttribute('data-rim', String(index));
      else mark.removeAttribute('data-rim');
      if (!mark.isConnected) this.above.append(mark);
    });
    for (const mark of this.#rim.slice(points.length)) mark.remove();
  }
}

function spot(kind: string, name: string): SVGElement {
  const mark = shape('g', { class: `spot ${kind}`, tabindex: 0, role: 'button', 'aria-label': name });
  const words = shape('text', { x: 13, y: -9 });
  words.textContent = name;
  mark.append(
    shape('circle', { class: 'hit', r: 13 }),
    shape('path', { class: 'halo', d: CROSS }),
    shape('path', { class: 'ink', d: CROSS }),
    shape('circle', { class: 'ring', r: 13 }),
    words,
  );
  return mark;
}

function ghostWords(landmark: string, distinct: boolean, found: boolean): string {
  const name = nameOfLandmark(landmark);
  if (!found) return t('{0}, only where to look', name);
  return distinct
    ? t('{0}, proposed: Enter confirms it', name)
    : t('{0}, proposed, not for sure: Enter confirms it', name);
}

function ghost(landmark: string): SVGElement {
  const mark = spot('ghost', nameOfLandmark(landmark));
  mark.setAttribute('data-ghost', landmark);
  const words = mark.querySelector('text');
  if (words) words.textContent = nameOfLandmark(landmark);
  return mark;
}

/** A name that finds no room stays away: the card says it. */
function layName(mark: SVGElement, place: NamePlace | undefined): void {
  const words = mark.querySelector('text');
  words?.toggleAttribute('hidden', place === undefined);
  if (!words || !place) return;
  words.setAttribute('x', String(place.dx));
  words.setAttribute('y', String(place.dy));
  words.setAttribute('text-anchor', place.anchor);
}

function lay(mark: SVGElement, { x, y }: XY): void {
  const lie = `translate(${x.toFixed(2)} ${y.toFixed(2)})`;
  if (mark.getAttribute('transform') !== lie) mark.setAttribute('transform', lie);
}
