import { fixed } from '../language/figures.ts';
import { t } from '../language/words.ts';
import type { LateralLandmark } from '../notation/landmarks.ts';
import type { FilmPair } from './film-pair.ts';
import { agreedMap, mapOf, mapped, offBy, sizeOfMap, vectorMap, type Pair, type PointMap } from './point-map.ts';
import type { Proposal } from './proposal.ts';
import { soughtPatch, type PatchTold } from './sought-patch.ts';

/** Where the pedal bone lies on the new film: by its two ends, and then by all of its points that the picture shows again. */
export interface PedalBone {
  readonly map: PointMap;
  /** Points of the picture that agree on the map. */
  readonly agreeing: number;
  /** One standard deviation, px of the new film: of the map itself, and of a point that the map alone carries. */
  readonly spread: number;
  readonly carried: number;
  readonly proposals: readonly Proposal[];
}

/** Of one bone no point moves against the others, so that places which do not agree within so many mm are not all its points. */
const AGREES = 0.9;
/** A bone of which fewer points were found is carried by its two ends alone. */
const FEWEST = 4;
/** Ends that lie further apart than on the film before by more than this share are those of another bone, or misplaced. */
const SAME_LENGTH = 0.06;
/** What is added at the least, mm: drawn films show less, and no bone is turned to the beam in quite the same way twice. */
const FLOOR = 0.1;
/** What is added where the bone as a whole says where a point of it lies that its own surroundings do not show, mm. */
const CARRIED = 0.3;

export function pedalBone(pair: FilmPair, rows: readonly LateralLandmark[]): PedalBone | string {
  const { before, now, mirrored } = pair;
  const [tip, wing, newTip, newWing] = [before.at('p3.tip'), before.at('p3.wing'), now.at('p3.tip'), now.at('p3.wing')];
  const ends = tip && wing && newTip && newWing && mapOf([[tip, newTip], [wing, newWing]], mirrored); // prettier-ignore
  if (!ends) return t('The tip and the wing of the pedal bone lie in one place.');
  const length = (sizeOfMap(ends) * now.mmPerPx) / before.mmPerPx;
  if (Math.abs(length - 1) > SAME_LENGTH)
    return t('Tip and wing lie {0} times as far apart as on the film before. See whether they and both markers are right.', fixed(length, 2)); // prettier-ignore
  const told = new Map<LateralLandmark, PatchTold>();
  const pairs: Pair[] = [];
  for (const row of rows) {
    const { proposed } = row;
    const place = before.at(row.word);
    if (proposed.by !== 'patch' || proposed.on !== 'pedal bone' || !place) continue;
    const patch = soughtPatch(pair, {
      place,
      start: mapped(ends, place),
      map: vectorMap(ends),
      half: 6,
      reach: 4,
      turn: 4,
      size: 0.03,
      demands: { correlation: 0.7, ahead: 1.3, worst: 0.5 },
    });
    told.set(row, patch);
    if (patch.distinct && patch.found) pairs.push([place, patch.found.at]);
  }
  const agreed = agreedMap(pairs, mirrored, AGREES / now.mmPerPx, FEWEST);
  const map = agreed?.map ?? ends;
  const spread = agreed ? FLOOR / now.mmPerPx : now.usual;
  const carried = agreed ? CARRIED / now.mmPerPx : now.usual;
  const proposals = [...told].flatMap(([{ word }, patch]) => {
    const place = before.at(word);
    if (word === 'p3.tip' || word === 'p3.wing' || !place) return [];
    const shared = before.spreadOf(word) * sizeOfMap(map);
    const found = patch.distinct && agreed && patch.found ? patch.found : null;
    if (found && offBy(map, [place, found.at]) <= AGREES / now.mmPerPx) {
      const added = Math.hypot(found.worst, FLOOR / now.mmPerPx);
      return [proposal(word, found.at, added, shared, true, 'patch', patch.why)];
    }
    const why = found ? t('What looks like it does not lie where the rest of the bone says.') : patch.distinct ? t('Too little of the bone was found again.') : patch.why; // prettier-ignore
    return [proposal(word, mapped(map, place), carried, shared, false, 'carried', why)];
  });
  return { map, agreeing: agreed?.agreeing.length ?? 0, spread, carried, proposals };
}

export function proposal(
  name: Proposal['name'],
  at: Proposal['at'],
  added: number,
  shared: number,
  distinct: boolean,
  by: Proposal['by'],
  why: string,
): Proposal {
  return { name, at, added, spread: Math.hypot(added, shared), distinct, by, why };
}
