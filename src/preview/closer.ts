import type { XY } from '../../shared/geometry/vector.ts';

/** How a drawing that can be looked at more closely lies in its frame. Pure; CSS pixels from the corner of the frame. */
export interface Closer {
  /** How many times larger than whole. */
  readonly times: number;
  /** Where the drawing's corner lies; at or before the frame's own. */
  readonly x: number;
  readonly y: number;
}

export interface FrameSize {
  readonly width: number;
  readonly height: number;
}

export const whole: Closer = { times: 1, x: 0, y: 0 };

/** Closer than this shows nothing more. */
const MOST = 12;

/** Closer by a factor, with what lies under `at` staying there; never smaller than whole. */
export function closerBy(now: Closer, frame: FrameSize, at: XY, factor: number): Closer {
  const times = Math.min(MOST, Math.max(1, now.times * factor));
  const share = times / now.times;
  return within({ times, x: at.x - (at.x - now.x) * share, y: at.y - (at.y - now.y) * share }, frame);
}

/** The drawing moved along. */
export function movedBy(now: Closer, frame: FrameSize, dx: number, dy: number): Closer {
  return within({ ...now, x: now.x + dx, y: now.y + dy }, frame);
}

/** The frame stays filled. */
function within({ times, x, y }: Closer, { width, height }: FrameSize): Closer {
  const hold = (at: number, size: number): number => Math.min(0, Math.max(size * (1 - times), at));
  return { times, x: hold(x, width), y: hold(y, height) };
}
