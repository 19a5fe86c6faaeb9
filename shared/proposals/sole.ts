import { dot, minus, plus, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import { findLine } from '../picture/seek/profile-line.ts';
import { byGround, type FilmPair } from './film-pair.ts';
import { proposal } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';

/** So much of the sole's edge is looked at to either side of the plumb line, mm. */
const BESIDE = 2.5;
/** What lies above and below the edge and tells it from another, mm. */
const SIDE = 2;
const REACH = 4.5;
/** What the edge has to be before it is called distinct (from the bench). */
const SHARE = 0.75;
const ALIKE = 0.9;
const WORST = 0.2;
/** Of the edge against the ground, as a share. */
const STEEPEST = 0.35;
const FLOOR = 0.1;

/**
 * Points on the sole's edge, plumb below a point of the bone: the bone says where along the foot, as that is what they are, and the
 * picture alone how deep. Where it is looked for goes by the ground, not by the bone.
 */
export function soleEdges(pair: FilmPair, rows: readonly LateralLandmark[]): readonly Proposal[] {
  const { before, now, mirrored } = pair;
  const size = before.mmPerPx / now.mmPerPx;
  return rows.flatMap(({ word, proposed }) => {
    if (proposed.by !== 'edge below') return [];
    const [sole, bone] = [before.at(word), now.at(proposed.bone)];
    if (!sole || !bone) return [];
    const { u, v } = now.axes;
    const plumb = (place: XY): XY => plus(place, u, dot(minus(bone, place), u));
    const start = plumb(byGround(pair, sole));
    const found = findLine(before.picture, now.picture, {
      before: ends(sole, before.axes.u, BESIDE / before.mmPerPx),
      expected: ends(start, u, BESIDE / now.mmPerPx),
      side: SIDE / before.mmPerPx,
      reach: REACH / before.mmPerPx,
      size,
      mirrored,
      places: 10,
    });
    if (!found) return [];
    const worst = Math.max(...found.sds) * now.mmPerPx;
    if (found.share < SHARE || found.correlation < ALIKE || worst > WORST) return [];
    const [one, other] = found.ends;
    const at = plus(one, minus(other, one), 0.5);
    // Straight below the bone again, along the edge.
    const slope = dot(minus(other, one), v) / dot(minus(other, one), u);
    // So short a piece of the edge runs nearly as on the film before: one that does not is another.
    if (!(Math.abs(slope) < STEEPEST)) return [];
    const aside = dot(minus(bone, at), u);
    const place = plus(plus(at, u, aside), v, aside * slope);
    const added = Math.hypot(...found.sds, FLOOR / now.mmPerPx);
    const shared = before.spreadOf(word) * size;
    const distinct = !proposed.doubtful;
    const why = distinct
      ? t('The edge of the sole was found below the bone.')
      : t('An edge was found, and it may be another one beside it.');
    return [proposal(word, place, added, shared, distinct, 'edge', why)];
  });
}

const ends = (middle: XY, way: XY, far: number): readonly [XY, XY] => [plus(middle, way, -far), plus(middle, way, far)];
