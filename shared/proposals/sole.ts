import { distance, dot, minus, plus, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { edgesOnTheWay } from '../picture/seek/edges.ts';
import type { FilmInFrame, FilmPair } from './film-pair.ts';
import { proposal } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';

/** Nearer to the bone than this its own edge would be found, mm. */
const BELOW_BONE = 3;
/** Nearer to the ground than this the ground's edge would be found, mm. */
const ABOVE_GROUND = 1;
/** The edge that the point was placed on lies no further from it, mm. */
const PLACED_WITHIN = 1.2;
/** The next one is fainter at least by this share. */
const FAINTER = 0.6;
const FLOOR = 0.3;

interface SoleEdge {
  readonly at: XY;
  /** Below the bone, mm. */
  readonly depth: number;
  readonly steepness: number;
}

export function soleEdges({ before, now }: FilmPair, rows: readonly LateralLandmark[]): readonly Proposal[] {
  return rows.flatMap(({ word, proposed }) => {
    if (proposed.by !== 'edge below') return [];
    const [sole, bone, newBone] = [before.at(word), before.at(proposed.bone), now.at(proposed.bone)];
    if (!sole || !bone || !newBone) return [];
    const placedOn = edgesBelow(before, bone)
      .filter(({ at }) => distance(at, sole) * before.mmPerPx <= PLACED_WITHIN)
      .toSorted((a, b) => Math.abs(b.steepness) - Math.abs(a.steepness))[0];
    if (!placedOn) return [];
    const alike = edgesBelow(now, newBone)
      .filter(({ steepness }) => Math.sign(steepness) === Math.sign(placedOn.steepness))
      .toSorted((a, b) => Math.abs(b.steepness) - Math.abs(a.steepness));
    const [first, second] = alike;
    if (!first || Math.abs(first.depth - placedOn.depth) > 5) return [];
    if (second && Math.abs(second.steepness) > FAINTER * Math.abs(first.steepness)) return [];
    const shared = (before.spreadOf(word) * before.mmPerPx) / now.mmPerPx;
    const why = t('The edge of the sole was found straight below the bone.');
    return [proposal(word, first.at, FLOOR / now.mmPerPx, shared, true, 'edge', why)];
  });
}

function edgesBelow({ picture, axes, mmPerPx }: FilmInFrame, bone: XY): readonly SoleEdge[] {
  const height = dot(minus(bone, axes.origin), axes.v) * mmPerPx;
  const long = height - BELOW_BONE - ABOVE_GROUND;
  if (long < 2) return [];
  const from = plus(bone, axes.v, -BELOW_BONE / mmPerPx);
  const to = plus(from, axes.v, -long / mmPerPx);
  return edgesOnTheWay(picture, from, to, 3 / mmPerPx).map(({ far, steepness }) => ({
    at: plus(from, axes.v, -far),
    depth: BELOW_BONE + far * mmPerPx,
    steepness,
  }));
}
