import { landmarksOf, type Landmark, type LandmarkName, type View } from './landmarks.ts';

/**
 * What a photograph shows, in the order in which one places it: where the foot meets the ground first, as all else is measured from
 * there. Bones, joints, the inner edge of the horn and the sole above the ground lie inside.
 */
const shown: Readonly<Record<View, readonly LandmarkName[]>> = {
  lateral: [
    'toe.ground',
    'heel.ground',
    'breakover',
    'heel.upper',
    'wall.upper',
    'wall.lower',
    'wall.turn',
    'coronet.dorsal',
    'coronet.heel',
  ],
  front: ['wall.medial', 'wall.lateral', 'coronet.medial', 'coronet.lateral'],
  solar: [
    'toe',
    'heel.medial',
    'heel.lateral',
    'wide.medial',
    'wide.lateral',
    'frog.apex',
    'frog.base',
    'frog.medial',
    'frog.lateral',
    'bar.medial',
    'bar.lateral',
  ],
};

/** The landmarks of a view that a photograph shows, the contacts first. */
export function landmarksOnPhoto(view: View): readonly Landmark[] {
  const all = landmarksOf(view);
  return shown[view].flatMap((name) => all.find(({ word }) => word === name) ?? []);
}

/** Those of a film are all of its view. */
export function landmarksShown(view: View, kind: 'film' | 'photo'): readonly Landmark[] {
  return kind === 'photo' ? landmarksOnPhoto(view) : landmarksOf(view);
}
