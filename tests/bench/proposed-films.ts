import type { FootInput, PlacedLandmark } from '../../shared/geometry/foot-input.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import { findLandmark, type LandmarkName } from '../../shared/notation/landmarks.ts';
import { pyramidOf } from '../../shared/picture/seek/pyramid.ts';
import type { PicturedFoot } from '../../shared/proposals/film-pair.ts';
import type { Dice } from '../property/dice.ts';
import type { DrawnFilm } from './drawn-series.ts';

/** All that is truly on a drawn film, as if it had been placed, each place by a hand of so many mm. */
export function placedFilm(film: DrawnFilm, hand: number, dice: Dice, only?: readonly LandmarkName[]): PicturedFoot {
  const { truth } = film;
  const off = (): number => {
    if (hand === 0) return 0;
    const [u, v] = [dice.uniform() || 1e-12, dice.uniform()];
    return (hand / truth.mmPerPx) * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
  };
  const placed = ([x, y]: readonly [number, number]): XY => ({ x: x + off(), y: y + off() });
  const landmarks = Object.entries(truth.landmarks).flatMap(([word, place]): PlacedLandmark[] => {
    const row = findLandmark(word);
    return row && (!only || only.includes(row.word)) ? [{ name: row.word, ...placed(place), spread: null }] : [];
  });
  const foot: FootInput = {
    view: 'lateral',
    landmarks,
    ground: [placed(truth.ground.from), placed(truth.ground.to)],
    bearing: null,
    isShod: false,
    scale: { kind: 'marker', mm: truth.marker.mm, ends: [placed(truth.marker.from), placed(truth.marker.to)] },
    magnify: 1,
    spread: { mm: Math.max(hand, 0.01), px: 5 },
  };
  return { foot, picture: pyramidOf(film.picture) };
}

/** What somebody places before the rest is proposed. */
export const begunWith: readonly LandmarkName[] = ['p3.tip', 'p3.wing'];
