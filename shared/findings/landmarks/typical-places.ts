import { landmarksOf, type LandmarkName, type TypicalPlace, type View } from '../../notation/landmarks.ts';

/** Where each landmark of a view is to be expected, mm, in the frame of its view. */
export const typicalPlaces: Readonly<Record<View, ReadonlyMap<LandmarkName, TypicalPlace>>> = {
  lateral: placesOf('lateral'),
  front: placesOf('front'),
  solar: placesOf('solar'),
};

function placesOf(view: View): ReadonlyMap<LandmarkName, TypicalPlace> {
  return new Map(landmarksOf(view).map(({ word, typical }) => [word, typical]));
}
