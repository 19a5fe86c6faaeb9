import type { LandmarkName, View } from '../notation/landmarks.ts';
import type { XY } from './vector.ts';

/**
 * All that a foot's measures are taken from: what one reader placed on one picture, and what the film says beside. Plain data,
 * so that the server, which reads it out of a text, and the page, where somebody moves a place of it, measure the same thing.
 * Places are pixels of the picture, y downwards.
 */
export interface FootInput {
  readonly view: View;
  /** Each name once. */
  readonly landmarks: readonly PlacedLandmark[];
  readonly ground: readonly [XY, XY] | null;
  readonly scale: ScaleInput | null;
  /** How many times too large the scale shows the foot; 1 where nothing is said. */
  readonly magnify: number;
  readonly spread: UsualSpread;
}

export interface PlacedLandmark extends XY {
  readonly name: LandmarkName;
  /** One standard deviation of this placing, px; null where it is the usual one. */
  readonly spread: number | null;
}

/** `mmPerPx`: before it is divided by `magnify`; `mm`: how long the marker is between its ends. */
export type ScaleInput =
  | { readonly kind: 'pixel'; readonly mmPerPx: number }
  | { readonly kind: 'marker'; readonly mm: number; readonly ends: readonly [XY, XY] };

/** One standard deviation of every placing that has none of its own, ends of the ground and of a marker included. */
export interface UsualSpread {
  /** Where the picture has a scale, mm; null where pixels count there too. */
  readonly mm: number | null;
  readonly px: number;
}

/** mm/px as a plain number, before any spread is known; null without a scale. */
export function plainScale({ scale, magnify }: Pick<FootInput, 'scale' | 'magnify'>): number | null {
  if (!scale) return null;
  if (scale.kind === 'pixel') return scale.mmPerPx / magnify;
  const [from, to] = scale.ends;
  const pixels = Math.hypot(to.x - from.x, to.y - from.y);
  return pixels > 0 ? scale.mm / pixels / magnify : null;
}

/** The usual spread in pixels. */
export function spreadInPixels({ spread: { mm, px } }: FootInput, mmPerPx: number | null): number {
  return mmPerPx === null || mm === null ? px : mm / mmPerPx;
}
