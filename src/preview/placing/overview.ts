import type { XY } from '../../../shared/views/film-sheet.ts';
import type { Sight } from '../../messages/placing-messages.ts';
import { toPicture, toStage, wholeSight, type Size } from './view.ts';

/** The longer edge of the small picture, CSS pixels; on a small stage no more than this share of it. */
const LONGEST = 150;
const SHARE = 0.24;
const EDGE = 10;
/** Nearer than this share beyond the whole, all there is to see is on the stage. */
const CLOSER = 1.15;

export interface OverviewPlace {
  /** On the stage. */
  readonly at: XY;
  readonly size: Size;
  /** What the stage shows, on the small picture. */
  readonly window: XY & Size;
}

/**
 * Where the small whole picture stands while the film is looked at from near: in the corner that is furthest from what is looked at.
 * Null while the whole shows.
 */
export function overviewPlace(sight: Sight, stage: Size, picture: Size, looked: XY | null): OverviewPlace | null {
  if (sight.zoom < wholeSight(stage, picture).zoom * CLOSER) return null;
  const longest = Math.min(LONGEST, SHARE * Math.min(stage.width, stage.height));
  const share = longest / Math.max(picture.width, picture.height);
  const size = { width: picture.width * share, height: picture.height * share };
  const [from, to] = [
    toPicture(sight, stage, { x: 0, y: 0 }),
    toPicture(sight, stage, { x: stage.width, y: stage.height }),
  ];
  const left = clamp(from.x, picture.width);
  const top = clamp(from.y, picture.height);
  const window = {
    x: left * share,
    y: top * share,
    width: (clamp(to.x, picture.width) - left) * share,
    height: (clamp(to.y, picture.height) - top) * share,
  };
  const right = stage.width - size.width - EDGE;
  const low = stage.height - size.height - EDGE;
  const corners = [
    { x: EDGE, y: low },
    { x: right, y: low },
    { x: EDGE, y: EDGE },
    { x: right, y: EDGE },
  ];
  const spot = looked && toStage(sight, stage, looked);
  const off = ({ x, y }: XY): number =>
    spot ? Math.hypot(x + size.width / 2 - spot.x, y + size.height / 2 - spot.y) : 0;
  // It stays at the foot of the stage, left, unless what is looked at lies near.
  const [first] = corners;
  const near = Math.max(size.width, size.height) + 40;
  const at = first && (!spot || off(first) > near) ? first : corners.toSorted((a, b) => off(b) - off(a))[0];
  return { at: at ?? { x: EDGE, y: EDGE }, size, window };
}

const clamp = (value: number, high: number): number => Math.max(0, Math.min(high, value));

/** The small picture itself. It is looked at and never pressed: a click on it is one on the film below. */
export class Overview {
  readonly element = document.createElement('div');
  readonly #film = new Image();
  readonly #window = document.createElement('div');

  constructor() {
    this.element.className = 'overview';
    this.element.hidden = true;
    this.element.setAttribute('aria-hidden', 'true');
    this.#film.alt = '';
    this.#film.draggable = false;
    this.#window.className = 'overview-window';
    this.element.append(this.#film, this.#window);
  }

  show(href: string): void {
    this.#film.src = href;
  }

  light(filter: string): void {
    this.#film.style.filter = filter;
  }

  lay(place: OverviewPlace | null): void {
    this.element.hidden = place === null;
    if (!place) return;
    const { at, size, window } = place;
    this.element.style.transform = `translate(${at.x}px, ${at.y}px)`;
    this.element.style.width = `${size.width}px`;
    this.element.style.height = `${size.height}px`;
    this.#window.style.transform = `translate(${window.x}px, ${window.y}px)`;
    this.#window.style.width = `${window.width}px`;
    this.#window.style.height = `${window.height}px`;
  }
}
