import { findLandmark } from '../notation/landmarks.ts';

/** What a landmark is called where somebody is asked to place it; the name itself where it means nothing here. */
export const nameOfLandmark = (word: string): string => findLandmark(word)?.name ?? word;
