import { t } from '../../language/words.ts';
import type { XY } from '../../geometry/vector.ts';
import { lengthFactor } from '../../reference/bands.ts';
import {
  normalBorrowed,
  normalParameters,
  sayParameter,
  type NormalAnimal,
} from '../../reference/normal-parameters.ts';

/** A foot of no horse in millimetres: x to the toe from below the tip of P3, y up from the ground. */
export interface NormalFoot {
  readonly places: Readonly<Record<string, XY>>;
  /** What it rests on, a line each. */
  readonly rests: readonly string[];
}

/** P3 and the navicular bone of a full-sized foot, from the tip, with the solar margin level. From memory; no horse's own. */
const bone = {
  'p3.wing': at(-67.3, 0),
  'p3.dorsal.lower': at(-8.9, 10.2),
  'p3.dorsal.upper': at(-26.6, 27.7),
  'p3.extensor': at(-36.5, 37.4),
  'p3.navicular': at(-56.7, 16),
  'coffin.centre': at(-53.4, 35.4),
  'navicular.upper': at(-75.2, 26.4),
  'navicular.lower': at(-60.9, 13.1),
} as const;
const cortexLength = Math.hypot(bone['p3.navicular'].x, bone['p3.navicular'].y);
/** Coffin to pastern joint and pastern to fetlock joint, mm; from memory. */
const p2Length = 44.8;
const p1Length = 77.6;

/**
 * A full-sized horse's bone against the one above: as long as makes 25 % of it (Mullard) the 17 mm of wall that grown light
 * horses have at least (Floyd).
 */
const fullSize = 17 / (0.25 * cortexLength);

/** What no source tells and a drawing needs, mm; common practice, no source. */
const cup = 2;
const soleAtWing = 17;
const belowHairline = 6;

/** Lengths of the animal's own bones, mm, where they are placed: no trim changes them. */
export interface OwnBones {
  /** P3 from its tip to its navicular end. */
  readonly cortex: number | null;
  /** Coffin joint to pastern joint, pastern joint to fetlock joint. */
  readonly p2: number | null;
  readonly p1: number | null;
}

/** A normal foot of this animal's size, built from reference values; the bones as large as its own where they are placed, else by its height. */
export function normalFoot(foot: string, animal: NormalAnimal, own: OwnBones): NormalFoot {
  const of = normalParameters(foot, animal);
  const size = own.cortex !== null && own.cortex > 0 ? own.cortex / cortexLength : fullSize * lengthFactor(animal);
  const tip = at(0, of.soleDepth.value + cup);
  const turned = (place: XY): XY => {
    const angle = -of.palmarAngle.value / degrees;
    // The wing stands higher than the tip, and lies behind it.
    return at(
      tip.x + size * (place.x * Math.cos(angle) - place.y * Math.sin(angle)),
      tip.y + size * (place.x * Math.sin(angle) + place.y * Math.cos(angle)),
    );
  };
  const bones = Object.fromEntries(Object.entries(bone).map(([name, place]) => [name, turned(place)])) as Record<
    keyof typeof bone,
    XY
  >;
  const lower = bones['p3.dorsal.lower'];
  const upper = bones['p3.dorsal.upper'];
  const boneAngle = Math.atan2(upper.y - lower.y, lower.x - upper.x) * degrees;
  const face = leaning(boneAngle);
  const outward = at(face.y, -face.x);
  const horn = (of.hornLamellarShare.value / 100) * cortexLength * size;

  const wallAngle = boneAngle - of.capsularRotation.value;
  const wall = leaning(wallAngle);
  const onWall = along(lower, outward, horn);
  const top = atHeight(onWall, wall, bones['p3.extensor'].y + of.founderDistance.value);
  const coronet = atHeight(onWall, wall, bones['p3.extensor'].y + of.coronetExtensor.value);
  const breakover = at(of.breakoverReach.value, 0);
  const pastern = along(
    bones['coffin.centre'],
    leaning(boneAngle - of.phalangealRotation.value),
    own.p2 ?? p2Length * size,
  );
  const fetlock = along(pastern, leaning(boneAngle - of.phalangealRotation.value), own.p1 ?? p1Length * size);

  const bearing = (breakover.x - bones['coffin.centre'].x) / (of.toeShare.value / 100);
  const heel = at(breakover.x - bearing, 0);
  const heelWall = leaning(wallAngle - of.toeHeelDifference.value);
  const hairline = leaning(-of.coronetAngle.value);
  const coronetHeel = meeting(heel, heelWall, coronet, hairline);
  const innerUpper = along(upper, outward, of.lamellarZone.value);
  const innerLower = along(lower, outward, of.lamellarZone.value);

  return {
    places: {
      'p3.tip': tip,
      ...bones,
      'pastern.centre': pastern,
      'fetlock.centre': fetlock,
      'wall.top': top,
      'wall.upper': atHeight(onWall, wall, upper.y),
      'wall.lower': atHeight(onWall, wall, Math.max(lower.y, tip.y)),
      'wall.inner.upper': innerUpper,
      'wall.inner.lower': innerLower,
      'coronet.dorsal': coronet,
      'coronet.heel': coronetHeel,
      'heel.upper': along(coronetHeel, heelWall, -belowHairline * size),
      'toe.ground': breakover,
      breakover,
      'heel.ground': heel,
      'sole.tip': at(tip.x, cup),
      'sole.wing': at(bones['p3.wing'].x, Math.max(0.5, bones['p3.wing'].y - soleAtWing * size)),
      'sole.heel': at(heel.x + 8 * size, 0),
    },
    rests: [
      ...Object.values(of).map(sayParameter),
      own.cortex === null ? t('size by the height at the withers') : t('bones as large as this animal’s own P3'),
      ...[normalBorrowed(animal)].filter((line) => line !== null),
    ],
  };
}

const degrees = 180 / Math.PI;

function at(x: number, y: number): XY {
  return { x, y };
}

/** Up along a line that leans back from the toe by this angle to the ground, of length 1. */
function leaning(angle: number): XY {
  return at(-Math.cos(angle / degrees), Math.sin(angle / degrees));
}

function along(from: XY, way: XY, by: number): XY {
  return at(from.x + way.x * by, from.y + way.y * by);
}

function atHeight(from: XY, way: XY, y: number): XY {
  return along(from, way, (y - from.y) / way.y);
}

function meeting(a: XY, alongA: XY, b: XY, alongB: XY): XY {
  const turn = alongA.x * alongB.y - alongA.y * alongB.x;
  return along(a, alongA, ((b.x - a.x) * alongB.y - (b.y - a.y) * alongB.x) / turn);
}
