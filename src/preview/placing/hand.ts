import type { XY } from '../../../shared/views/film-sheet.ts';
import type { Proposal } from '../../../shared/proposals/proposal.ts';
import { handlesOf } from './handles.ts';
import { keyPressed, keyReleased } from './keys.ts';
import type { PlacingStage } from './stage.ts';
import { isLineKey } from '../../../shared/views/what-to-place.ts';
import { pinched, wheelFactor } from './view.ts';

/** How far a pointer strays before it drags, CSS pixels. */
const STRAY: Readonly<Record<string, number>> = { mouse: 4, pen: 5, touch: 9 };

/** Two presses that are one double click. */
const DOUBLE = { ms: 400, px: 6 } as const;

type Grip =
  /** Something was pressed, and nobody knows yet what comes of it. */
  | { readonly kind: 'press'; readonly at: XY; readonly pans: boolean }
  | { readonly kind: 'pan'; readonly last: XY }
  /** `asked`: a place was asked for, so that this moves only if it is dragged, and a click places. */
  | {
      readonly kind: 'handle';
      readonly key: string;
      readonly at: XY;
      readonly offset: XY;
      readonly moving: boolean;
      readonly asked: boolean;
    }
  /** A proposed place: a click confirms it, a drag puts it elsewhere. */
  | { readonly kind: 'ghost'; readonly name: string; readonly at: XY; readonly offset: XY; readonly moving: boolean }
  | { readonly kind: 'rim'; readonly index: number; readonly at: XY; readonly offset: XY; readonly moving: boolean }
  /** A line drawn from one end to the other. */
  | { readonly kind: 'line'; readonly from: XY }
  /** A finger that looks for the place under the glass. */
  | { readonly kind: 'aim' }
  | { readonly kind: 'pinch'; readonly fingers: readonly [XY, XY] };

/** Mouse, pen, fingers and keys act on the stage from now on. */
export function layHand(holder: HTMLElement, stage: PlacingStage): void {
  new Hand(holder, stage).listen();
}

class Hand {
  readonly #holder: HTMLElement;
  readonly #stage: PlacingStage;
  readonly #down = new Map<number, XY>();
  #grip: Grip | null = null;
  /** What a press did last, on the stage. */
  #done: { readonly at: XY; readonly time: number } | null = null;
  /** What is pressed now is the second press of a double click. */
  #isSecond = false;

  constructor(holder: HTMLElement, stage: PlacingStage) {
    this.#holder = holder;
    this.#stage = stage;
  }

  listen(): void {
    const holder = this.#holder;
    const stage = this.#stage;
    holder.addEventListener('pointerdown', (event) => this.#press(event));
    holder.addEventListener('pointermove', (event) => this.#move(event));
    holder.addEventListener('pointerup', (event) => this.#release(event));
    holder.addEventListener('pointercancel', (event) => this.#cancel(event));
    holder.addEventListener('pointerleave', () => {
      if (!this.#grip) stage.hover(null);
    });
    holder.addEventListener(
      'wheel',
      (event) => {
        event.preventDefault();
        stage.zoom(wheelFactor(event.deltaY, event.deltaMode), this.#placeOf(event));
      },
      { passive: false },
    );
    holder.addEventListener('keydown', (event) => keyPressed(event, stage));
    holder.addEventListener('keyup', (event) => keyReleased(event, stage));
    holder.addEventListener('focusin', ({ target }) => this.#focused(target));
    holder.addEventListener('focusout', () => {
      stage.leaveCross();
      if (stage.model.isDragging && !this.#grip && stage.shown) stage.model.drop(stage.shown.sheet);
    });
    holder.addEventListener('contextmenu', (event) => event.preventDefault());
    holder.addEventListener('auxclick', (event) => event.preventDefault());
  }

  #placeOf({ clientX, clientY }: MouseEvent): XY {
    const box = this.#holder.getBoundingClientRect();
    return { x: clientX - box.left, y: clientY - box.top };
  }

  #press(event: PointerEvent): void {
    const { shown, model } = this.#stage;
    if (!shown || event.button > 1) return;
    const at = this.#placeOf(event);
    this.#down.set(event.pointerId, at);
    this.#holder.setPointerCapture(event.pointerId);
    if (this.#down.size === 2) return this.#beginPinch();
    if (this.#down.size > 2) return;
    const target = event.target instanceof Element ? event.target : null;
    if (event.button === 1) {
      event.preventDefault();
      this.#grip = { kind: 'pan', last: at };
      return;
    }
    const done = this.#done;
    this.#isSecond = done !== null && event.timeStamp - done.time < DOUBLE.ms && distance(done.at, at) < DOUBLE.px;
    const rim = target?.closest('[data-rim]')?.getAttribute('data-rim');
    const spot = this.#stage.plain(at);
    if (rim !== null && rim !== undefined) {
      const point = model.rim?.[Number(rim)] ?? spot;
      this.#grip = { kind: 'rim', index: Number(rim), at, offset: minus(point, spot), moving: false };
      return;
    }
    const proposed =
      target?.closest('[data-ghost]') && model.selected === null && !model.rim ? this.#ghostAt(spot) : null;
    if (proposed) {
      this.#grip = { kind: 'ghost', name: proposed.name, at, offset: minus(proposed.at, spot), moving: false };
      return;
    }
    if (target?.closest('[data-centre]')) {
      this.#grip = { kind: 'press', at, pans: false };
      return;
    }
    if (target?.closest('[data-handle]')) {
      const handles = handlesOf(model.sheetOf(shown.sheet));
      // Of two that lie under the pointer the nearer one is meant, not the one that was drawn last.
      const handle = handles.toSorted((a, b) => distance(a.at, spot) - distance(b.at, spot))[0];
      if (!handle) return;
      const { key } = handle;
      const asked = model.awaits(shown.live);
      if (!asked) model.pick(shown.sheet, key);
      this.#grip = { kind: 'handle', key, at, offset: minus(handle.at, spot), moving: false, asked };
      return;
    }
    const step = model.step(shown.live);
    if (event.pointerType === 'touch' && step && model.awaits(shown.live)) {
      this.#grip = { kind: 'aim' };
      this.#stage.hover(at, true);
      return;
    }
    this.#grip = { kind: 'press', at, pans: !isLineKey(step?.key) || model.first !== null || model.selected !== null };
  }

  /** The nearest of those that take a press: while a place is asked for, its own alone. */
  #ghostAt(spot: XY): Proposal | null {
    const { shown, model } = this.#stage;
    if (!shown) return null;
    const asked = model.awaits(shown.live) ? model.ghostAsked(shown.live) : null;
    const among = asked ? [asked] : model.ghosts(shown.live);
    return among.toSorted((a, b) => distance(a.at, spot) - distance(b.at, spot))[0] ?? null;
  }

  #move(event: PointerEvent): void {
    this.#carry(event);
    // Last, so that where the page draws anew for what was carried, the stage need not draw by itself.
    if (this.#grip?.kind !== 'pinch') this.#stage.hover(this.#placeOf(event), event.pointerType === 'touch');
  }

  #carry(event: PointerEvent): void {
    const { shown, model } = this.#stage;
    if (!shown) return;
    const at = this.#placeOf(event);
    if (this.#down.has(event.pointerId)) this.#down.set(event.pointerId, at);
    const grip = this.#grip;
    if (!grip) return;
    const stray = STRAY[event.pointerType] ?? 4;
    switch (grip.kind) {
      case 'press':
        if (distance(grip.at, at) < stray) return;
        if (grip.pans) {
          this.#stage.pan(at.x - grip.at.x, at.y - grip.at.y);
          this.#grip = { kind: 'pan', last: at };
          this.#holder.classList.add('is-panning');
        } else if (isLineKey(model.step(shown.live)?.key)) {
          const from = this.#stage.aimed(grip.at, event.altKey);
          model.begin(from);
          this.#grip = { kind: 'line', from };
        }
        return;
      case 'pan':
        this.#stage.pan(at.x - grip.last.x, at.y - grip.last.y);
        this.#grip = { kind: 'pan', last: at };
        return;
      case 'handle': {
        if (!grip.moving && distance(grip.at, at) < stray) return;
        if (!grip.moving) model.pick(shown.sheet, grip.key);
        this.#grip = { ...grip, moving: true };
        const plain = plus(this.#stage.plain(at), grip.offset);
        model.drag(shown.sheet, grip.key, this.#snapped(plain, event.altKey));
        return;
      }
      case 'rim':
        if (!grip.moving && distance(grip.at, at) < stray) return;
        this.#grip = { ...grip, moving: true };
        model.moveRim(grip.index, this.#snapped(plus(this.#stage.plain(at), grip.offset), event.altKey));
        return;
      case 'ghost':
        if (!grip.moving && distance(grip.at, at) < stray) return;
        this.#grip = { ...grip, moving: true };
        model.dragGhost(grip.name, this.#snapped(plus(this.#stage.plain(at), grip.offset), event.altKey));
        return;
      case 'pinch':
        this.#pinch(grip.fingers);
        return;
      case 'line':
      case 'aim':
        return;
    }
  }

  /** The edge beside a place of the picture that is being moved. */
  #snapped(spot: XY, free: boolean): XY {
    return this.#stage.model.state.snaps ? this.#stage.aimedSpot(spot, free) : this.#stage.within(spot);
  }

  #release(event: PointerEvent): void {
    const { shown, model } = this.#stage;
    const wasDown = this.#down.delete(event.pointerId);
    const grip = this.#grip;
    if (!shown || !wasDown || !grip) return;
    // Of a pinch the second finger to go ends it too, without placing anything.
    if (grip.kind === 'pinch') {
      if (this.#down.size === 0) this.#grip = null;
      return;
    }
    this.#grip = null;
    this.#holder.classList.remove('is-panning');
    const at = this.#placeOf(event);
    const spot = this.#stage.aimed(at, event.altKey);
    // The second click of a double click is meant for what the first one did. A drag is one all the same.
    const isClick = grip.kind === 'press' || ('moving' in grip && !grip.moving);
    if (this.#isSecond && isClick) return this.#stage.soon();
    switch (grip.kind) {
      case 'press':
        if (!model.acceptRimAt(shown.sheet, event.target)) this.#click(spot);
        this.#done = { at, time: event.timeStamp };
        break;
      case 'aim':
        model.click(shown.sheet, spot);
        break;
      case 'line':
        model.line(shown.sheet, [grip.from, spot]);
        break;
      case 'handle':
        if (grip.moving) model.drop(shown.sheet, grip.asked);
        else if (grip.asked) {
          this.#click(spot);
          this.#done = { at, time: event.timeStamp };
        }
        break;
      case 'ghost':
        if (grip.moving) model.dropGhost(shown.sheet);
        // What is only a place to look stands in no click's way.
        else if (!model.confirm(shown.sheet, grip.name)) this.#click(spot);
        this.#done = { at, time: event.timeStamp };
        this.#stage.focus();
        break;
      case 'rim':
        if (grip.moving) model.restRim();
        else if (model.awaits(shown.live)) this.#click(spot);
        break;
      case 'pan':
        break;
    }
    if (event.pointerType === 'touch') this.#stage.hover(null);
    this.#stage.soon();
  }

  #click(spot: XY): void {
    const { shown, model } = this.#stage;
    this.#stage.focus();
    if (shown) model.click(shown.sheet, spot);
  }

  #cancel(event: PointerEvent): void {
    const { shown, model } = this.#stage;
    const grip = this.#grip;
    this.#down.delete(event.pointerId);
    this.#grip = null;
    this.#holder.classList.remove('is-panning');
    if (model.isDragging || model.first) model.escape();
    model.restRim();
    if (shown && (grip?.kind === 'ghost' || (grip?.kind === 'handle' && grip.asked))) model.pick(shown.sheet, null);
  }

  #beginPinch(): void {
    const [one, other] = [...this.#down.values()];
    if (!one || !other) return;
    const { shown, model } = this.#stage;
    if (model.isDragging) model.escape();
    model.restRim();
    const held = this.#grip;
    if (shown && (held?.kind === 'ghost' || (held?.kind === 'handle' && held.asked))) model.pick(shown.sheet, null);
    this.#stage.hover(null);
    this.#grip = { kind: 'pinch', fingers: [one, other] };
  }

  #pinch(from: readonly [XY, XY]): void {
    const [one, other] = [...this.#down.values()];
    const { sight, shown, size } = this.#stage;
    if (!one || !other || !sight || !shown) return;
    this.#stage.look(pinched(sight, size, shown.picture, from, [one, other]));
    this.#grip = { kind: 'pinch', fingers: [one, other] };
  }

  #focused(target: EventTarget | null): void {
    const { shown, model } = this.#stage;
    if (!shown || !(target instanceof Element) || this.#grip) return;
    const proposed = target.closest('[data-ghost]')?.getAttribute('data-ghost');
    const ghost = model.ghosts(shown.live).find(({ name }) => name === proposed);
    if (ghost) this.#stage.reveal(ghost.at);
    const key = target.closest('[data-handle]')?.getAttribute('data-handle') ?? null;
    if (key === null) return;
    model.pick(shown.sheet, key);
    const handle = model.handle(shown.sheet);
    if (handle) this.#stage.reveal(handle.at);
  }
}

const minus = (a: XY, b: XY): XY => ({ x: a.x - b.x, y: a.y - b.y });
const plus = (a: XY, b: XY): XY => ({ x: a.x + b.x, y: a.y + b.y });
const distance = (a: XY, b: XY): number => Math.hypot(a.x - b.x, a.y - b.y);
