import type { XY } from '../../../shared/views/film-sheet.ts';
import { shape } from './shapes.ts';
import { besidePlace, type Size } from './view.ts';

/** How many times larger than on the stage. */
const POWER = 3.5;
const ACROSS = 132;

/** A round glass beside the pointer, with a cross over the very place. */
export class Glass {
  readonly element = document.createElement('div');
  /** Further off, where a finger would lie over it. */
  lifted = false;
  readonly #film = new Image();

  constructor() {
    this.element.className = 'glass';
    this.element.hidden = true;
    this.element.setAttribute('aria-hidden', 'true');
    this.#film.alt = '';
    this.#film.draggable = false;
    const cross = shape('svg', { viewBox: `0 0 ${ACROSS} ${ACROSS}` });
    const half = ACROSS / 2;
    const way = `M${half} 10V${half - 7}M${half} ${half + 7}V${ACROSS - 10}M10 ${half}H${half - 7}M${half + 7} ${half}H${ACROSS - 10}`;
    cross.append(shape('path', { class: 'halo', d: way }), shape('path', { class: 'ink', d: way }));
    this.element.append(this.#film, cross);
  }

  show(href: string): void {
    this.#film.src = href;
  }

  light(filter: string): void {
    this.#film.style.filter = filter;
  }

  hide(): void {
    this.element.hidden = true;
  }

  /** `spot` on the picture, `at` the same on the stage, where one pixel of the picture takes `zoom` CSS pixels. */
  look(spot: XY, at: XY, zoom: number, stage: Size, picture: Size): void {
    const power = POWER * zoom;
    const corner = besidePlace(stage, at, ACROSS, this.lifted ? 64 : 30);
    this.element.hidden = false;
    this.element.style.transform = `translate(${corner.x}px, ${corner.y}px)`;
    this.#film.style.width = `${picture.width}px`;
    this.#film.style.height = `${picture.height}px`;
    this.#film.style.transform = `translate(${ACROSS / 2 - spot.x * power}px, ${ACROSS / 2 - spot.y * power}px) scale(${power})`;
  }
}
