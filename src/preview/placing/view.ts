import type { XY } from '../../../shared/views/film-sheet.ts';
import type { Sight } from '../../messages/placing-messages.ts';

/** How the picture lies on the stage. Pure: places on the stage in CSS pixels from its corner, on the picture in its own pixels. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A pixel of the picture is never larger on the screen than this, CSS pixels. */
const LARGEST = 32;
/** Never smaller than a half of the whole picture. */
const SMALLEST = 0.5;
/** Room about the whole picture, CSS pixels. */
const MARGIN = 6;

/** The whole picture. */
export function wholeSight(stage: Size, picture: Size): Sight {
  const zoom = Math.min(
    Math.max(stage.width - 2 * MARGIN, 1) / picture.width,
    Math.max(stage.height - 2 * MARGIN, 1) / picture.height,
  );
  return { x: picture.width / 2, y: picture.height / 2, zoom };
}

/** Within what can be looked at: some of the picture is always in the middle of the stage. */
export function held(sight: Sight, stage: Size, picture: Size): Sight {
  const whole = wholeSight(stage, picture).zoom;
  const zoom = clamp(sight.zoom, whole * SMALLEST, Math.max(LARGEST, whole));
  return { x: clamp(sight.x, 0, picture.width), y: clamp(sight.y, 0, picture.height), zoom };
}

export function toPicture(sight: Sight, stage: Size, { x, y }: XY): XY {
  return { x: sight.x + (x - stage.width / 2) / sight.zoom, y: sight.y + (y - stage.height / 2) / sight.zoom };
}

export function toStage(sight: Sight, stage: Size, { x, y }: XY): XY {
  return { x: (x - sight.x) * sight.zoom + stage.width / 2, y: (y - sight.y) * sight.zoom + stage.height / 2 };
}

/** Closer by a factor, with what lies under `at` staying there. */
export function zoomed(sight: Sight, stage: Size, picture: Size, at: XY, factor: number): Sight {
  const spot = toPicture(sight, stage, at);
  const { zoom } = held({ ...sight, zoom: sight.zoom * factor }, stage, picture);
  const x = spot.x - (at.x - stage.width / 2) / zoom;
  const y = spot.y - (at.y - stage.height / 2) / zoom;
  return held({ x, y, zoom }, stage, picture);
}

/** The picture moved by so many CSS pixels. */
export function panned(sight: Sight, stage: Size, picture: Size, dx: number, dy: number): Sight {
  return held({ ...sight, x: sight.x - dx / sight.zoom, y: sight.y - dy / sight.zoom }, stage, picture);
}

/** Two fingers: what lay under each lies under each, as far as a picture that does not turn allows. */
export function pinched(
  sight: Sight,
  stage: Size,
  picture: Size,
  from: readonly [XY, XY],
  to: readonly [XY, XY],
): Sight {
  const before = Math.hypot(from[1].x - from[0].x, from[1].y - from[0].y);
  const after = Math.hypot(to[1].x - to[0].x, to[1].y - to[0].y);
  const factor = before > 0 && after > 0 ? after / before : 1;
  const [middle, now] = [midway(from), midway(to)];
  const closer = zoomed(sight, stage, picture, middle, factor);
  return panned(closer, stage, picture, now.x - middle.x, now.y - middle.y);
}

/** Turns of a wheel as a factor of zoom; `mode` is that of the event: pixels, lines or pages. */
export function wheelFactor(delta: number, mode: number): number {
  const pixels = delta * (mode === 1 ? 16 : mode === 2 ? 400 : 1);
  return Math.exp(-clamp(pixels, -240, 240) / 320);
}

/** A place that lies on the picture. */
export function onto(picture: Size, { x, y }: XY): XY {
  return { x: clamp(x, 0, picture.width), y: clamp(y, 0, picture.height) };
}

/**
 * The corner of a glass of this size beside a place, where it hides neither the place nor leaves the stage: above it, or below
 * where there is no room above.
 */
export function besidePlace(stage: Size, at: XY, size: number, gap: number): XY {
  const above = at.y - gap - size;
  const y = above >= 0 ? above : Math.min(at.y + gap, stage.height - size);
  const hides = y < at.y && at.y < y + size;
  const x = hides
    ? at.x > stage.width / 2
      ? at.x - gap - size
      : at.x + gap
    : clamp(at.x - size / 2, 0, stage.width - size);
  return { x, y };
}

const midway = ([a, b]: readonly [XY, XY]): XY => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));
