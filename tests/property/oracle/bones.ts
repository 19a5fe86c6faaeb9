/**
 * What `scale bone` rests on, computed apart from the product: the middle of each length over the films of the foot that have a
 * scale of their own, and how well those are known.
 *
 * Reading of the text, where the definition leaves room:
 *  1. Each length has a middle of its own: a film that lacks one counts for the others.
 *  2. How well they are known is that of a mean of the logarithms of all three, film by film; a length that a film lacks adds
 *     nothing. Over more than two films a median has π/2 times the variance of a mean.
 *  3. It is never better than 3 %.
 */

import { middleOf, pixelsBetween, scaleOf, type Film, type KnownBones, type Values } from './lateral.ts';
import { spreadsOf } from './spread.ts';

const BONES = [
  ['p3.tip', 'p3.wing'],
  ['p3.extensor', 'p3.wing'],
  ['coffin.centre', 'pastern.centre'],
] as const;

const LEAST_SHARE = 0.03;

function millimetres(film: Film, from: string, to: string): number | undefined {
  const [pixels, scale] = [pixelsBetween(film, from, to), scaleOf(film)];
  return pixels === undefined || scale === undefined ? undefined : pixels * scale;
}

function meanLogarithm(film: Film): Values {
  const sum = BONES.reduce((all, [from, to]) => all + Math.log(millimetres(film, from, to) ?? 1), 0);
  return new Map([['mean', sum / BONES.length]]);
}

/** `films`: those with a scale of their own that nothing speaks against. */
export function knownBones(films: readonly Film[]): KnownBones {
  const lengths = BONES.flatMap(([from, to]) => {
    const all = films.flatMap((film) => millimetres(film, from, to) ?? []);
    return all.length === 0 ? [] : [{ from, to, mm: middleOf(all) }];
  });
  const variances = films.map((film) => (spreadsOf(film, meanLogarithm).get('mean') ?? NaN) ** 2);
  const variance = variances.reduce((sum, one) => sum + one, 0) / films.length;
  const share = Math.sqrt(((films.length > 2 ? Math.PI / 2 : 1) * variance) / films.length);
  return { lengths, together: { x: 1, y: 0, spread: Math.max(LEAST_SHARE, share) } };
}
