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
  /** The plane between hoof and shoe. */
  readonly bearing: readonly [XY, XY] | null;
  /** Whether the foot wears what stays on for a film: then its contacts do not stand on the ground. */
  readonly isShod: boolean;
  readonly scale: ScaleInput | null;
  /** How many times too large the scale shows the foot; 1 where nothing is said. */
  readonly magnify: number;
  readonly spread: UsualSpread;
}

export interface PlacedLandmark extends XY {
  readonly name: LandmarkName;
  /** One standard deviation of this placing, px; null where it is the usual one. */
  readonly spread: number | null;
  /** Whether it was proposed by the film before and confirmed; then `spread` counts that film's placing too. */
  readonly followed?: true | undefined;
}

/** `mmPerPx`: before it is divided by `magnify`; `mm`: how long the marker is between its ends. */
export type ScaleInput =
  | { readonly kind: 'pixel'; readonly mmPerPx: number }
  | { readonly kind: 'marker'; readonly mm: number; readonly ends: readonly [XY, XY] }
  | BoneScaleInput;

/**
 * A scale from lengths of bone that are known from other films. It holds at the bone itself, so `magnify` does not count.
 * `relativeSd`: one standard deviation of all these lengths together, as a share of them.
 */
export interface BoneScaleInput {
  readonly kind: 'bone';
  readonly lengths: readonly KnownLength[];
  readonly relativeSd: number;
}

/** How many mm lie between two landmarks. */
export interface KnownLength {
  readonly from: LandmarkName;
  readonly to: LandmarkName;
  readonly mm: number;
}

/** Of one length alone nobody could tell whether an end of it is placed elsewhere. */
const fewestLengths = 2;

/** One standard deviation of every placing that has none of its own, ends of the ground and of a marker included. */
export interface UsualSpread {
  /** Where the picture has a scale, mm; null where pixels count there too. */
  readonly mm: number | null;
  readonly px: number;
}

/** mm/px as a plain number, before any spread is known; null without a scale. */
export function plainScale({
  scale,
  magnify,
  landmarks,
}: Pick<FootInput, 'scale' | 'magnify' | 'landmarks'>): number | null {
  if (!scale) return null;
  if (scale.kind === 'bone') {
    const middle = middleRatios(scale, landmarks);
    return middle.length === 0 ? null : middle.reduce((sum, { mmPerPx }) => sum + mmPerPx, 0) / middle.length;
  }
  if (scale.kind === 'pixel') return scale.mmPerPx / magnify;
  const [from, to] = scale.ends;
  const pixels = Math.hypot(to.x - from.x, to.y - from.y);
  return pixels > 0 ? scale.mm / pixels / magnify : null;
}

/** The lengths whose ratio of mm to px is the median one: one, or two, whose mean it is; none where too few are placed. */
export function middleRatios(
  { lengths }: BoneScaleInput,
  landmarks: readonly PlacedLandmark[],
): readonly (KnownLength & { readonly mmPerPx: number })[] {
  const ratios = lengths.flatMap((length) => {
    const [from, to] = [placeOf(length.from, landmarks), placeOf(length.to, landmarks)];
    const px = from && to ? Math.hypot(to.x - from.x, to.y - from.y) : 0;
    return px > 0 ? [{ ...length, mmPerPx: length.mm / px }] : [];
  });
  if (ratios.length < fewestLengths) return [];
  ratios.sort((a, b) => a.mmPerPx - b.mmPerPx);
  return ratios.slice(Math.floor((ratios.length - 1) / 2), Math.floor(ratios.length / 2) + 1);
}

/** The wing is the middle of both wings where both are placed, as in the frame. */
export function placeOf(name: string, landmarks: readonly PlacedLandmark[]): XY | undefined {
  const place = landmarks.find((one) => one.name === name);
  const other = name === 'p3.wing' ? landmarks.find((one) => one.name === 'p3.wing.other') : undefined;
  return place && other ? { x: (place.x + other.x) / 2, y: (place.y + other.y) / 2 } : place;
}

/** The usual spread in pixels. */
export function spreadInPixels({ spread: { mm, px } }: FootInput, mmPerPx: number | null): number {
  return mmPerPx === null || mm === null ? px : mm / mmPerPx;
}
