import { distance, minus, plus, between, type XY } from '../geometry/vector.ts';
import { t } from '../language/words.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import { findPatch, turnedAbout, type VectorMap } from '../picture/seek/patch-search.ts';
import type { FilmPair } from './film-pair.ts';
import { proposal, type PedalBone } from './pedal-bone.ts';
import { mapped, mappedWay, sizeOfMap, vectorMap } from './point-map.ts';
import type { Proposal } from './proposal.ts';

/** Bones above the pedal bone, each turned about the joint at its lower end until it lies on itself. */
const bonesAbove: readonly (readonly [lower: LandmarkName, upper: LandmarkName])[] = [
  ['coffin.centre', 'pastern.centre'],
  ['pastern.centre', 'fetlock.centre'],
];

/** From the middle of a bone to the sides of its patch, as a share of its length. */
const HALF = 0.42;
/** A bone does not part from the joint that it turns about: further off, mm, it was not found. */
const PARTS = 1.5;
const TURN = 14;
const ALIKE = 0.8;
/** What each joint adds at the least, mm. */
const FLOOR = 0.1;
/** By so much a bone that was not found may have turned at its joint, as a share of its length. */
const MAY_TURN = 0.06;

export function joints(pair: FilmPair, bone: PedalBone): readonly Proposal[] {
  const { before, now } = pair;
  const made: Proposal[] = [];
  let map: VectorMap = vectorMap(bone.map);
  const coffin = before.at('coffin.centre');
  let below: { at: XY; added: number; distinct: boolean } | null = coffin
    ? { at: mapped(bone.map, coffin), added: Math.hypot(bone.spread, FLOOR / now.mmPerPx), distinct: bone.agreeing > 0 }
    : null;
  for (const [lower, upper] of bonesAbove) {
    const [low, high] = [before.at(lower), before.at(upper)];
    if (!low || !below) break;
    const shared = (name: LandmarkName): number => before.spreadOf(name) * sizeOfMap(bone.map);
    const way = high && minus(high, low);
    const turned = high ? turnedBone(pair, low, high, below.at, map) : null;
    if (lower === 'coffin.centre') {
      const distinct = below.distinct && turned !== null;
      const why = distinct
        ? t('The pedal bone and the bone above it agree on the joint.')
        : t('The bone above the joint was not found again.');
      made.push(proposal(lower, below.at, below.added, shared(lower), distinct, distinct ? 'bone' : 'carried', why));
    }
    if (!way) break;
    const straight = plus(below.at, mappedWay(map, way));
    const upperAt: XY = turned ? turned.upper : straight;
    const added = turned
      ? Math.hypot(below.added, turned.spread)
      : Math.hypot(below.added, MAY_TURN * distance(low, high) * sizeOfMap(bone.map));
    const distinct: boolean = below.distinct && turned !== null;
    const why = turned
      ? t('The bone was turned about its lower joint until it lay on itself.')
      : t('The bone was not found again; it is carried over as it stood.');
    made.push(proposal(upper, upperAt, added, shared(upper), distinct, distinct ? 'bone' : 'carried', why));
    if (turned) map = turned.map;
    below = { at: upperAt, added, distinct };
  }
  return made;
}

function turnedBone(
  { before, now }: FilmPair,
  low: XY,
  high: XY,
  pivot: XY,
  map: VectorMap,
): { upper: XY; map: VectorMap; spread: number } | null {
  const middle = between(low, high, 0.5);
  const half = HALF * distance(low, high);
  const found = findPatch(before.picture, now.picture, {
    from: middle,
    half,
    map,
    start: plus(pivot, mappedWay(map, minus(middle, low))),
    pivot,
    reach: 3 / before.mmPerPx,
    turn: TURN,
    size: 0,
  });
  if (!found || found.atRim || found.correlation < ALIKE || found.correlation - found.rival < 0.04) return null;
  if (Math.hypot(found.shift.x, found.shift.y) * now.mmPerPx > PARTS) return null;
  const turn = (way: XY): XY => turnedAbout({ x: 0, y: 0 }, way, found.turn);
  const turnedMap = { right: turn(map.right), down: turn(map.down) };
  return {
    upper: plus(found.at, mappedWay(turnedMap, minus(high, middle))),
    map: turnedMap,
    spread: Math.hypot(2 * found.worst, FLOOR / now.mmPerPx),
  };
}
