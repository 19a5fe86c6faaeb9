import { footAxes, intoFrame, lineOf, ontoImage, placedIn, type FootAxes } from '../geometry/foot-axes.ts';
import { placeOf, plainScale, spreadInPixels, type FootInput, type PlacedLandmark } from '../geometry/foot-input.ts';
import { cross, plus, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { VectorMap } from '../picture/seek/patch-search.ts';
import type { Pyramid } from '../picture/seek/pyramid.ts';

/** A film with what is placed on it. */
export interface PicturedFoot {
  readonly foot: FootInput;
  readonly picture: Pyramid;
}

export interface FilmInFrame extends PicturedFoot {
  readonly mmPerPx: number;
  readonly axes: FootAxes;
  /** Of a placing that says nothing of its own, px. */
  readonly usual: number;
  at(name: LandmarkName): XY | undefined;
  spreadOf(name: LandmarkName): number;
  /** It was followed from an earlier film itself. */
  isFollowed(name: LandmarkName): boolean;
}

/** Two films of a foot that may be laid over one another. */
export interface FilmPair {
  readonly before: FilmInFrame;
  readonly now: FilmInFrame;
  /** They look opposite ways. */
  readonly mirrored: boolean;
}

/** Or why they may not, in a sentence. */
export function filmPair(before: PicturedFoot, now: PicturedFoot): FilmPair | string {
  const bothWings = [before, now].every(({ foot }) => foot.landmarks.some(isOtherWing));
  const [one, other] = [before, now].map((film) => inFrame(bothWings ? film : withoutOtherWing(film)));
  if (!one) return t('The film before lacks its scale, its ground or the two ends of the pedal bone.');
  if (!other) return notBegun();
  const sense = ({ axes }: FilmInFrame): number => Math.sign(cross(axes.u, axes.v));
  return { before: one, now: other, mirrored: sense(one) !== sense(other) };
}

const isOtherWing = ({ name }: PlacedLandmark): boolean => name === 'p3.wing.other';

/** The wing is the middle of both where both are placed: one wing of a film is laid on one of the other, and never on a middle. */
function withoutOtherWing({ foot, picture }: PicturedFoot): PicturedFoot {
  return { picture, foot: { ...foot, landmarks: foot.landmarks.filter((one) => !isOtherWing(one)) } };
}

/** What somebody places before anything is proposed, in a sentence. */
export const notBegun = (): string =>
  t('Place the marker, the ground, and the tip and the wing of the pedal bone; then the rest can be proposed.');

/** Null where what is placed says too little. */
export function inFrame({ foot, picture }: PicturedFoot): FilmInFrame | null {
  const mmPerPx = plainScale(foot);
  const places = new Map(foot.landmarks.map((one) => [one.name, one]));
  const axes = footAxes(foot.view, placedIn(places), lineOf(foot));
  if (foot.view !== 'lateral' || mmPerPx === null || axes.lack !== null) return null;
  if (!places.has('p3.tip') || !places.has('p3.wing')) return null;
  const usual = spreadInPixels(foot, mmPerPx);
  return {
    foot,
    picture,
    mmPerPx,
    axes,
    usual,
    at: (name) => placeOf(name, foot.landmarks),
    spreadOf: (name) => places.get(name)?.spread ?? usual,
    isFollowed: (name) => places.get(name)?.followed === true,
  };
}

/** Where the ground, the scale and the tip's place along the ground put a place of the film before. */
export function byGround({ before, now }: FilmPair, place: XY): XY {
  const { x, y } = intoFrame(before.axes, place);
  const size = before.mmPerPx / now.mmPerPx;
  return ontoImage(now.axes, { x: x * size, y: y * size });
}

/** How ways of the film before look on the new one, by the ground and the scale. */
export function groundMap(pair: FilmPair): VectorMap {
  const { origin } = pair.before.axes;
  const image = (way: XY): XY => {
    const [from, to] = [byGround(pair, origin), byGround(pair, plus(origin, way))];
    return { x: to.x - from.x, y: to.y - from.y };
  };
  return { right: image({ x: 1, y: 0 }), down: image({ x: 0, y: 1 }) };
}
