import { closerBy, movedBy, whole, type Closer, type FrameSize } from './closer.ts';
import { wheelFactor } from './placing/view.ts';

/** A press that goes further than this, CSS pixels, moves the drawing and presses nothing. */
const SLACK = 4;
const STEP = 1.5;

/**
 * Lets a person look closer at the drawing in an element: the wheel with Ctrl, or two fingers on a touchpad, come closer where the
 * pointer is; closer, a drag moves it along; a double click, or 0, shows the whole again. The plain wheel scrolls the page.
 */
export class CloseLook {
  readonly #frame: HTMLElement;
  #now: Closer = whole;
  #drag: { readonly pointer: number; readonly x: number; readonly y: number; readonly from: Closer } | null = null;
  #moved = false;

  constructor(frame: HTMLElement) {
    this.#frame = frame;
    frame.addEventListener('wheel', (event) => this.#wheel(event), { passive: false });
    frame.addEventListener('pointerdown', (event) => this.#down(event));
    frame.addEventListener('pointermove', (event) => this.#move(event));
    for (const end of ['pointerup', 'pointercancel'] as const) frame.addEventListener(end, () => this.#end());
    frame.addEventListener('dblclick', () => this.whole());
  }

  /** The last press moved the drawing, so that it is no press on what lies under it. */
  get wasMoved(): boolean {
    return this.#moved;
  }

  whole(): void {
    this.#show(whole);
  }

  /** `+` and `-` come closer and go back, `0` shows the whole; true where it was one of these. */
  pressedKey({ key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
    if (ctrlKey || metaKey || altKey) return false;
    const { width, height } = this.#size();
    const middle = { x: width / 2, y: height / 2 };
    if (key === '+' || key === '=') this.#show(closerBy(this.#now, this.#size(), middle, STEP));
    else if (key === '-') this.#show(closerBy(this.#now, this.#size(), middle, 1 / STEP));
    else if (key === '0') this.whole();
    else return false;
    return true;
  }

  #size(): FrameSize {
    return { width: this.#frame.clientWidth, height: this.#frame.clientHeight };
  }

  #wheel(event: WheelEvent): void {
    // A touchpad tells two fingers that part as a wheel with Ctrl.
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    const { left, top } = this.#frame.getBoundingClientRect();
    const at = { x: event.clientX - left, y: event.clientY - top };
    this.#show(closerBy(this.#now, this.#size(), at, wheelFactor(event.deltaY, event.deltaMode)));
  }

  #down({ pointerId, clientX, clientY, button }: PointerEvent): void {
    this.#moved = false;
    if (button !== 0 || this.#now.times === 1) return;
    this.#drag = { pointer: pointerId, x: clientX, y: clientY, from: this.#now };
  }

  #move({ pointerId, clientX, clientY }: PointerEvent): void {
    const drag = this.#drag;
    if (drag?.pointer !== pointerId) return;
    const [dx, dy] = [clientX - drag.x, clientY - drag.y];
    if (!this.#moved && Math.hypot(dx, dy) < SLACK) return;
    if (!this.#moved) this.#frame.setPointerCapture(pointerId);
    this.#moved = true;
    this.#show(movedBy(drag.from, this.#size(), dx, dy));
  }

  #end(): void {
    this.#drag = null;
  }

  #show(closer: Closer): void {
    this.#now = closer;
    const { style } = this.#frame;
    // No class: those are the page's to set.
    this.#frame.toggleAttribute('data-closer', closer.times > 1);
    style.setProperty('--closer', String(closer.times));
    style.setProperty('--closer-x', `${closer.x}px`);
    style.setProperty('--closer-y', `${closer.y}px`);
  }
}
