export type View = 'lateral' | 'front' | 'solar';
export const views: readonly View[] = ['lateral', 'front', 'solar'];

export interface Landmark {
  readonly word: string;
  readonly view: View;
  readonly doc: string;
}

const lateral = (word: string, doc: string): Landmark => ({ word, view: 'lateral', doc });
const front = (word: string, doc: string): Landmark => ({ word, view: 'front', doc });
const solar = (word: string, doc: string): Landmark => ({ word, view: 'solar', doc });

/** In the order in which a reader works through a picture: bone, joints, wall, coronet, ground, sole. */
// prettier-ignore
export const landmarks = [
  lateral('p3.tip', 'Distal phalanx: the dorsal end of its solar margin.'),
  lateral('p3.wing', 'Distal phalanx: the palmar end of its solar margin.'),
  lateral('p3.wing.other', 'The second palmar process where the two do not overlap; the wing is then the midpoint of the two.'),
  lateral('p3.extensor', 'Distal phalanx: top of the extensor process.'),
  lateral('p3.dorsal.upper', 'Upper of two points on the straight part of the bone’s dorsal face.'),
  lateral('p3.dorsal.lower', 'Lower of two points on the straight part of the bone’s dorsal face.'),
  lateral('p3.navicular', 'Palmar end of the distal phalanx’s joint surface, where it meets the navicular bone.'),
  lateral('coffin.centre', 'Centre of the rounded lower end of P2: the centre of the coffin joint.'),
  lateral('pastern.centre', 'Centre of the rounded lower end of P1: the centre of the pastern joint.'),
  lateral('fetlock.centre', 'Centre of the rounded lower end of the cannon bone: the centre of the fetlock joint.'),
  lateral('navicular.upper', 'Upper (proximal) border of the navicular bone.'),
  lateral('navicular.lower', 'Lower (distal) border of the navicular bone.'),
  lateral('wall.upper', 'Upper of two points on the straight part of the outer dorsal wall.'),
  lateral('wall.lower', 'Lower of two points on the straight part of the outer dorsal wall.'),
  lateral('wall.turn', 'Where the new wall ends, which runs more nearly along the bone, and the older, diverging wall begins.'),
  lateral('wall.top', 'Upper limit of the firm dorsal hoof wall (the top of a wall marker), below the hairline.'),
  lateral('wall.inner.upper', 'Upper of two points on the inner edge of the dorsal horn.'),
  lateral('wall.inner.lower', 'Lower of two points on the inner edge of the dorsal horn.'),
  lateral('coronet.dorsal', 'The hairline at the toe.'),
  lateral('coronet.heel', 'The hairline at the heel.'),
  lateral('toe.ground', 'Dorsal end of the wall’s contact with the ground.'),
  lateral('heel.ground', 'Palmar end of the wall’s contact with the ground.'),
  lateral('breakover', 'The most dorsal point that bears weight at the toe.'),
  lateral('heel.upper', 'Outer heel wall, just below the hairline.'),
  lateral('sole.tip', 'Ground side of the sole, straight below the tip of the bone.'),
  lateral('sole.wing', 'Ground side of the sole, straight below the wing of the bone.'),
  lateral('sole.heel', 'Level of the live sole beside the heel: sole that is waxy and does not flake.'),
  front('p3.medial', 'Inner end of the distal phalanx’s solar margin.'),
  front('p3.lateral', 'Outer end of the distal phalanx’s solar margin.'),
  front('joint.medial', 'Inner end of the coffin joint space.'),
  front('joint.lateral', 'Outer end of the coffin joint space.'),
  front('coronet.medial', 'The hairline on the inner side.'),
  front('coronet.lateral', 'The hairline on the outer side.'),
  front('wall.medial', 'Inner wall where it meets the ground.'),
  front('wall.lateral', 'Outer wall where it meets the ground.'),
  solar('toe', 'The foremost point of the toe.'),
  solar('frog.apex', 'Point of the frog.'),
  solar('frog.base', 'Middle of the back of the frog.'),
  solar('frog.medial', 'Inner edge of the frog at its widest.'),
  solar('frog.lateral', 'Outer edge of the frog at its widest.'),
  solar('heel.medial', 'Rearmost bearing point of the inner heel.'),
  solar('heel.lateral', 'Rearmost bearing point of the outer heel.'),
  solar('wide.medial', 'Inner edge of the foot at its widest.'),
  solar('wide.lateral', 'Outer edge of the foot at its widest.'),
  solar('bar.medial', 'Front end of the inner bar.'),
  solar('bar.lateral', 'Front end of the outer bar.'),
] as const satisfies readonly Landmark[];

export type LandmarkName = (typeof landmarks)[number]['word'];

const byWord = new Map<string, Landmark>(landmarks.map((landmark) => [landmark.word, landmark]));

export function findLandmark(word: string): Landmark | undefined {
  return byWord.get(word);
}

export function landmarksOf(view: View): readonly Landmark[] {
  return landmarks.filter((landmark) => landmark.view === view);
}
