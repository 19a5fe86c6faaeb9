import { lateralLandmark } from '../../shared/notation/landmarks.ts';
import { proposedTypical } from '../../shared/proposals/from-typical-foot.ts';
import type { Dice } from '../property/dice.ts';
import { anyFoot } from '../property/random-drawn-foot.ts';
import { drawnSeries, trimmed, type DrawnFilm, type OtherFeet } from './drawn-series.ts';
import { begunWith, placedFilm } from './proposed-films.ts';

/** Feet that differ from the typical one, each in its own way. */
export const otherFeet: Readonly<Record<string, OtherFeet>> = {
  'feet of about a cob, sound and rotated': {},
  'the same without a metal strip on the wall': { strip: false },
  'any foot, from a donkey to a heavy horse, clubbed, flat, rotated by up to 22 degrees': { first: anyFoot },
};

/** One proposal from the typical foot, held against the truth. */
export interface TypicalMiss {
  /** What was told, and how. */
  readonly kind: string;
  /** mm, along the picture's sides; of a point on a line across it, of one on the sole how deep. */
  readonly parts: readonly number[];
  /** One standard deviation, mm. */
  readonly spread: number;
  readonly distinct: boolean;
}

export interface TypicalTried {
  readonly misses: readonly TypicalMiss[];
  readonly ms: number;
}

export function firstFilm(seed: number, feet: OtherFeet): DrawnFilm {
  const [film] = drawnSeries(seed, 1, trimmed, undefined, undefined, feet);
  if (!film) throw new Error('one film is drawn');
  return film;
}

export function typicalTried(film: DrawnFilm, hand: number, dice: Dice): TypicalTried {
  const now = placedFilm(film, hand, dice, begunWith);
  const start = performance.now();
  const proposed = proposedTypical(now);
  const ms = performance.now() - start;
  if ('says' in proposed) return { misses: [], ms };
  const { truth } = film;
  const mm = truth.mmPerPx;
  const misses = proposed.proposals.flatMap(({ name, at, spread, distinct, by }): TypicalMiss[] => {
    const truly = truth.landmarks[name];
    const way = lateralLandmark(name)?.proposed;
    if (!truly || !way) return [];
    const d = { x: (at.x - truly[0]) * mm, y: (at.y - truly[1]) * mm };
    const across = (from: readonly [number, number], to: readonly [number, number]): number => {
      const angle = Math.atan2(to[1] - from[1], to[0] - from[0]);
      return d.y * Math.cos(angle) - d.x * Math.sin(angle);
    };
    const row = { spread: spread * mm, distinct };
    const { from, to } = truth.ground;
    if (way.by === 'edge below') return [{ ...row, kind: 'sole', parts: [across(from, to)] }];
    if (way.by === 'arc') return [{ ...row, kind: 'joints', parts: [d.x, d.y] }];
    if (way.by === 'line') {
      const kind = `${name.replace(/\.(?:upper|lower)$/, '')}, ${by === 'line' ? 'by its edge' : 'typical place'}`;
      return [{ ...row, kind, parts: [across(truly, truth.landmarks[way.partner] ?? truly)] }];
    }
    const isBony = way.by === 'patch' && way.on === 'pedal bone';
    // On the ground: along it.
    if (name === 'toe.ground' || name === 'heel.ground')
      return [{ ...row, kind: 'contacts with the ground', parts: [Math.hypot(d.x, d.y)] }];
    return [{ ...row, kind: isBony ? 'points of the bone' : 'top of the wall, hairline, heel', parts: [d.x, d.y] }];
  });
  return { misses, ms };
}
