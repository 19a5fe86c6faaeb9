import { lateralLandmark, landmarksOf } from '../notation/landmarks.ts';
import { capsulePoints } from './capsule.ts';
import { filmPair, type PicturedFoot } from './film-pair.ts';
import { joints } from './joints.ts';
import { lines } from './lines.ts';
import { pedalBone } from './pedal-bone.ts';
import type { Proposal } from './proposal.ts';
import { soleEdges } from './sole.ts';

/** Proposals, in the order of the landmarks; or why there are none, in a sentence. */
export type Proposed = { readonly proposals: readonly Proposal[] } | { readonly says: string };

const rows = landmarksOf('lateral').flatMap(({ word }) => lateralLandmark(word) ?? []);

/**
 * What the film before says of a new film of the same foot, on which marker, ground, `p3.tip` and `p3.wing` are placed. Points of
 * the pedal bone go by the bone and are refined on the pictures; bones above it are turned about their joints; points of the
 * capsule come from the pictures alone, and where these do not tell one there is no proposal. What is placed on the new film is
 * not proposed. Pure, and the same each time; both films lateral.
 */
export function proposedFrom(before: PicturedFoot, now: PicturedFoot): Proposed {
  const pair = filmPair(before, now);
  if (typeof pair === 'string') return { says: pair };
  const bone = pedalBone(pair, rows);
  if (typeof bone === 'string') return { says: bone };
  const capsule = capsulePoints(pair, rows);
  const all = [
    ...bone.proposals,
    ...joints(pair, bone),
    ...lines(pair, bone, capsule.shift, rows),
    ...capsule.proposals,
    ...soleEdges(pair, rows),
  ];
  const placed = new Set(now.foot.landmarks.map(({ name }) => name));
  const order = new Map(rows.map(({ word }, i) => [word, i]));
  const proposals = all
    .filter(({ name }) => !placed.has(name))
    .toSorted((a, b) => (order.get(a.name as never) ?? 0) - (order.get(b.name as never) ?? 0));
  return { proposals };
}
