import { spokenRows } from '../language/rows.ts';

export const views = ['lateral', 'front', 'solar'] as const;
export type View = (typeof views)[number];

/** Pictures that are shown and listed and not measured: vessels filled, the navicular bone from below, the heels from behind. */
export const plainViews = ['venogram', 'skyline', 'heel'] as const;
export type PlainView = (typeof plainViews)[number];

export function isPlainView(word: string | null): word is PlainView {
  return (plainViews as readonly (string | null)[]).includes(word);
}

/** Where a landmark is to be expected on a typical foot, mm. */
export type TypicalPlace = readonly [x: number, y: number];

/** How a cut moves a landmark: with the foot, which then stands on its new line, or otherwise. */
export type UnderCut =
  | 'foot'
  | 'heel contact'
  | 'toe contact'
  | 'breakover'
  | 'sole at the tip'
  | 'sole at the wing'
  | 'sole at the heel'
  /** With the coffin joint; the bones above it keep their angle to the ground. */
  | 'joint above the coffin';

interface LandmarkRow {
  /** What it is called where somebody is asked to place it, in the trade’s words. */
  readonly name: string;
  /** Where it lies, in one sentence. */
  readonly doc: string;
  /** `seldom`: many feet do not have it, so that nobody is asked for it who did not ask for what rests on it. */
  readonly seen: 'usually' | 'seldom';
  /**
   * About where it lies in a sound foot, mm, in the frame of its view: enough to tell a slip of a hand’s breadth, and never a standard
   * for a foot. A judgement of ours: rounded from the sound foot that the examples draw, and from the usual shape of a fore foot.
   */
  readonly typical: TypicalPlace;
}

/**
 * How a landmark of a new film may be proposed from the film before, and what it goes with. A place that a person has not confirmed is
 * never counted, whichever way it was found.
 *
 * - `patch`: what surrounds it looks like nothing else, so the same surroundings are sought. With a `corner` it lies where the wall
 *   down from that landmark meets the ground: both lines are sought, and the surroundings only where these are not told.
 * - `line`: it lies somewhere on a straight line with its partner; the line is sought, and along it the place is carried over.
 * - `arc`: the centre of a joint, about which a bone is turned until it lies on itself.
 * - `edge below`: on the edge of the sole, plumb below a point of the bone.
 * - `none`: only a person can tell it.
 *
 * `doubtful`: on films whose truth is known another edge was taken for it, so that it is never called distinct.
 */
export type WayToPropose =
  | { readonly by: 'patch'; readonly on: CarriedOn; readonly corner?: 'heel.upper' }
  | { readonly by: 'line'; readonly on: CarriedOn; readonly partner: LineEnd; readonly doubtful?: true }
  | { readonly by: 'arc' }
  | { readonly by: 'edge below'; readonly bone: 'p3.tip' | 'p3.wing'; readonly doubtful?: true }
  | { readonly by: 'none' };

/** A bone keeps its shape, so that one point of it says where another lies. The capsule grows and is trimmed: only the picture says. */
export type CarriedOn = 'pedal bone' | 'capsule';

/** Landmarks that lie two by two on a line. */
export type LineEnd = `${'p3.dorsal' | 'wall' | 'wall.inner'}.${'upper' | 'lower'}`;

/** Cuts, growth and following films are foretold in the lateral view alone. */
interface LateralRow extends LandmarkRow {
  readonly proposed: WayToPropose;
  readonly underCut: UnderCut;
  /** `lifted`: new wall under the foot lifts it; `stays`: it is where the foot meets the ground. */
  readonly underGrowth: 'lifted' | 'stays';
}

interface LandmarkOf<W extends string, V extends View> extends LandmarkRow {
  readonly word: W;
  readonly view: V;
}

const lateral = <const W extends string>(word: W, row: LateralRow): LandmarkOf<W, 'lateral'> & LateralRow => ({
  word,
  view: 'lateral',
  ...row,
});
const front = <const W extends string>(word: W, row: LandmarkRow): LandmarkOf<W, 'front'> => ({
  word,
  view: 'front',
  ...row,
});
const solar = <const W extends string>(word: W, row: LandmarkRow): LandmarkOf<W, 'solar'> => ({
  word,
  view: 'solar',
  ...row,
});

/**
 * Every landmark, one row each: all that is known of it stands here. In the order in which a reader works through a picture: bone,
 * joints, wall, coronet, ground, sole.
 */
// prettier-ignore
export const landmarks = spokenRows([
  lateral('p3.tip', {
    name: 'Tip of the pedal bone',
    doc: 'Distal phalanx: the dorsal end of its solar margin.',
    seen: 'usually', typical: [0, 18], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('p3.wing', {
    name: 'Wing of the pedal bone',
    doc: 'Distal phalanx: the palmar end of its solar margin.',
    seen: 'usually', typical: [-82, 25], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('p3.wing.other', {
    name: 'The other wing',
    doc: 'The second palmar process where the two do not overlap; the wing is then the midpoint of the two.',
    seen: 'seldom', typical: [-82, 25], underCut: 'foot', underGrowth: 'lifted',
    // How far the two wings lie apart hangs on how the foot was turned to the beam.
    proposed: { by: 'none' },
  }),
  lateral('p3.extensor', {
    name: 'Extensor process',
    doc: 'Distal phalanx: top of the extensor process.',
    seen: 'usually', typical: [-32, 60], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('p3.dorsal.upper', {
    name: 'Dorsal face of the bone, upper point',
    doc: 'Upper of two points on the straight part of the bone’s dorsal face.',
    seen: 'usually', typical: [-24, 50], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'pedal bone', partner: 'p3.dorsal.lower' },
  }),
  lateral('p3.dorsal.lower', {
    name: 'Dorsal face of the bone, lower point',
    doc: 'Lower of two points on the straight part of the bone’s dorsal face.',
    seen: 'usually', typical: [-6, 28], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'pedal bone', partner: 'p3.dorsal.upper' },
  }),
  lateral('p3.navicular', {
    name: 'Where the pedal bone meets the navicular bone',
    doc: 'Palmar end of the distal phalanx’s joint surface, where it meets the navicular bone.',
    seen: 'usually', typical: [-61, 40], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('coffin.centre', {
    name: 'Centre of the coffin joint',
    doc: 'Centre of the rounded lower end of P2: the centre of the coffin joint.',
    seen: 'usually', typical: [-53, 55], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'arc' },
  }),
  lateral('pastern.centre', {
    name: 'Centre of the pastern joint',
    doc: 'Centre of the rounded lower end of P1: the centre of the pastern joint.',
    seen: 'usually', typical: [-80, 91], underCut: 'joint above the coffin', underGrowth: 'lifted',
    proposed: { by: 'arc' },
  }),
  lateral('fetlock.centre', {
    name: 'Centre of the fetlock joint',
    doc: 'Centre of the rounded lower end of the cannon bone: the centre of the fetlock joint.',
    seen: 'usually', typical: [-129, 152], underCut: 'joint above the coffin', underGrowth: 'lifted',
    proposed: { by: 'arc' },
  }),
  lateral('navicular.upper', {
    name: 'Upper border of the navicular bone',
    doc: 'Upper (proximal) border of the navicular bone.',
    seen: 'usually', typical: [-75, 45], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('navicular.lower', {
    name: 'Lower border of the navicular bone',
    doc: 'Lower (distal) border of the navicular bone.',
    seen: 'usually', typical: [-64, 32], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'pedal bone' },
  }),
  lateral('wall.upper', {
    name: 'Dorsal wall, upper point',
    doc: 'Upper of two points on the straight part of the outer dorsal wall.',
    seen: 'usually', typical: [-8, 56], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'capsule', partner: 'wall.lower' },
  }),
  lateral('wall.lower', {
    name: 'Dorsal wall, lower point',
    doc: 'Lower of two points on the straight part of the outer dorsal wall.',
    seen: 'usually', typical: [20, 19], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'capsule', partner: 'wall.upper' },
  }),
  lateral('wall.turn', {
    name: 'Where the new wall ends',
    doc: 'Where the new wall ends, which runs more nearly along the bone, and the older, diverging wall begins.',
    seen: 'seldom', typical: [6, 38], underCut: 'foot', underGrowth: 'lifted',
    // It moves down with the growth, and its old surroundings are found where it was.
    proposed: { by: 'none' },
  }),
  lateral('wall.top', {
    name: 'Top of the firm wall',
    doc: 'Upper limit of the firm dorsal hoof wall (the top of a wall marker), below the hairline.',
    seen: 'usually', typical: [-14, 64], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'capsule' },
  }),
  lateral('wall.inner.upper', {
    name: 'Inner edge of the horn, upper point',
    doc: 'Upper of two points on the inner edge of the dorsal horn.',
    seen: 'usually', typical: [-18, 54], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'capsule', partner: 'wall.inner.lower', doubtful: true },
  }),
  lateral('wall.inner.lower', {
    name: 'Inner edge of the horn, lower point',
    doc: 'Lower of two points on the inner edge of the dorsal horn.',
    seen: 'usually', typical: [-1, 32], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'line', on: 'capsule', partner: 'wall.inner.upper', doubtful: true },
  }),
  lateral('coronet.dorsal', {
    name: 'Hairline at the toe',
    doc: 'The hairline at the toe.',
    seen: 'usually', typical: [-20, 72], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'capsule' },
  }),
  lateral('coronet.heel', {
    name: 'Hairline at the heel',
    doc: 'The hairline at the heel.',
    seen: 'usually', typical: [-132, 26], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'capsule' },
  }),
  lateral('toe.ground', {
    name: 'Where the toe meets the ground',
    doc: 'Dorsal end of the wall’s contact with the ground.',
    seen: 'usually', typical: [24, 0], underCut: 'toe contact', underGrowth: 'stays',
    proposed: { by: 'patch', on: 'capsule' },
  }),
  lateral('heel.ground', {
    name: 'Where the heel meets the ground',
    doc: 'Palmar end of the wall’s contact with the ground.',
    seen: 'usually', typical: [-109, 0], underCut: 'heel contact', underGrowth: 'stays',
    proposed: { by: 'patch', on: 'capsule', corner: 'heel.upper' },
  }),
  lateral('breakover', {
    name: 'Breakover',
    doc: 'The most dorsal point that bears weight at the toe.',
    seen: 'usually', typical: [22, 0], underCut: 'breakover', underGrowth: 'stays',
    // Nothing marks it but the roll of the toe, which every dressing changes.
    proposed: { by: 'none' },
  }),
  lateral('heel.upper', {
    name: 'Heel wall below the hairline',
    doc: 'Outer heel wall, just below the hairline.',
    seen: 'usually', typical: [-128, 22], underCut: 'foot', underGrowth: 'lifted',
    proposed: { by: 'patch', on: 'capsule' },
  }),
  lateral('sole.tip', {
    name: 'Sole below the tip',
    doc: 'Ground side of the sole, straight below the tip of the bone.',
    seen: 'usually', typical: [0, 2], underCut: 'sole at the tip', underGrowth: 'lifted',
    proposed: { by: 'edge below', bone: 'p3.tip', doubtful: true },
  }),
  lateral('sole.wing', {
    name: 'Sole below the wing',
    doc: 'Ground side of the sole, straight below the wing of the bone.',
    seen: 'usually', typical: [-82, 7], underCut: 'sole at the wing', underGrowth: 'lifted',
    proposed: { by: 'edge below', bone: 'p3.wing', doubtful: true },
  }),
  lateral('sole.heel', {
    name: 'Live sole beside the heel',
    doc: 'Level of the live sole beside the heel: sole that is waxy and does not flake.',
    seen: 'usually', typical: [-101, 3], underCut: 'sole at the heel', underGrowth: 'lifted',
    // Live sole is told by its waxy look and not by an edge.
    proposed: { by: 'none' },
  }),
  front('p3.medial', {
    name: 'Pedal bone, inner end',
    doc: 'Inner end of the distal phalanx’s solar margin.',
    seen: 'usually', typical: [-38, 20],
  }),
  front('p3.lateral', {
    name: 'Pedal bone, outer end',
    doc: 'Outer end of the distal phalanx’s solar margin.',
    seen: 'usually', typical: [38, 20],
  }),
  front('joint.medial', {
    name: 'Coffin joint, inner end',
    doc: 'Inner end of the coffin joint space.',
    seen: 'usually', typical: [-27, 50],
  }),
  front('joint.lateral', {
    name: 'Coffin joint, outer end',
    doc: 'Outer end of the coffin joint space.',
    seen: 'usually', typical: [27, 50],
  }),
  front('coronet.medial', {
    name: 'Hairline, inner side',
    doc: 'The hairline on the inner side.',
    seen: 'usually', typical: [-48, 67],
  }),
  front('coronet.lateral', {
    name: 'Hairline, outer side',
    doc: 'The hairline on the outer side.',
    seen: 'usually', typical: [48, 67],
  }),
  front('wall.medial', {
    name: 'Inner wall at the ground',
    doc: 'Inner wall where it meets the ground.',
    seen: 'usually', typical: [-60, 0],
  }),
  front('wall.lateral', {
    name: 'Outer wall at the ground',
    doc: 'Outer wall where it meets the ground.',
    seen: 'usually', typical: [60, 0],
  }),
  solar('toe', {
    name: 'Toe',
    doc: 'The foremost point of the toe.',
    seen: 'usually', typical: [0, 122],
  }),
  solar('frog.apex', {
    name: 'Point of the frog',
    doc: 'Point of the frog.',
    seen: 'usually', typical: [0, 78],
  }),
  solar('frog.base', {
    name: 'Back of the frog',
    doc: 'Middle of the back of the frog.',
    seen: 'usually', typical: [0, -4],
  }),
  solar('frog.medial', {
    name: 'Inner edge of the frog',
    doc: 'Inner edge of the frog at its widest.',
    seen: 'usually', typical: [-23, 8],
  }),
  solar('frog.lateral', {
    name: 'Outer edge of the frog',
    doc: 'Outer edge of the frog at its widest.',
    seen: 'usually', typical: [23, 8],
  }),
  solar('heel.medial', {
    name: 'Inner heel',
    doc: 'Rearmost bearing point of the inner heel.',
    seen: 'usually', typical: [-33, 0],
  }),
  solar('heel.lateral', {
    name: 'Outer heel',
    doc: 'Rearmost bearing point of the outer heel.',
    seen: 'usually', typical: [33, 0],
  }),
  solar('wide.medial', {
    name: 'Widest point, inner side',
    doc: 'Inner edge of the foot at its widest.',
    seen: 'usually', typical: [-58, 62],
  }),
  solar('wide.lateral', {
    name: 'Widest point, outer side',
    doc: 'Outer edge of the foot at its widest.',
    seen: 'usually', typical: [58, 62],
  }),
  solar('bar.medial', {
    name: 'Inner bar',
    doc: 'Front end of the inner bar.',
    seen: 'usually', typical: [-15, 40],
  }),
  solar('bar.lateral', {
    name: 'Outer bar',
    doc: 'Front end of the outer bar.',
    seen: 'usually', typical: [15, 40],
  }),
], 'name', 'doc');

export type Landmark = (typeof landmarks)[number];
export type LandmarkName = Landmark['word'];
export const landmarkNames: readonly LandmarkName[] = landmarks.map(({ word }) => word);
export type LateralLandmark = Extract<Landmark, { readonly view: 'lateral' }>;

const byWord: ReadonlyMap<string, Landmark> = new Map(landmarks.map((landmark) => [landmark.word, landmark]));

export function findLandmark(word: string): Landmark | undefined {
  return byWord.get(word);
}

const byView: Readonly<Record<View, readonly Landmark[]>> = {
  lateral: landmarks.filter(({ view }) => view === 'lateral'),
  front: landmarks.filter(({ view }) => view === 'front'),
  solar: landmarks.filter(({ view }) => view === 'solar'),
};

const laterals: ReadonlyMap<string, LateralLandmark> = new Map(
  landmarks.flatMap((landmark) => (landmark.view === 'lateral' ? [[landmark.word, landmark] as const] : [])),
);

/** What is known of a landmark of the lateral view, how cut and growth move it included. */
export function lateralLandmark(word: LandmarkName): LateralLandmark | undefined {
  return laterals.get(word);
}

export function landmarksOf(view: View | PlainView): readonly Landmark[] {
  return isPlainView(view) ? [] : byView[view];
}

/** The landmarks that many feet do not have. */
export const seldomSeen: ReadonlySet<LandmarkName> = new Set(
  landmarks.filter(({ seen }) => seen === 'seldom').map(({ word }) => word),
);
