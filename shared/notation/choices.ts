/** Words of which a line of the notation takes one. Types and schemas are made of these lists. */

export const feet = ['LF', 'RF', 'LH', 'RH'] as const;
export type FootName = (typeof feet)[number];

export const animals = ['horse', 'pony', 'donkey', 'mule', 'hinny'] as const;
export const pictureKinds = ['film', 'photo'] as const;
export const cutKinds = ['plan', 'trim'] as const;
export const pulses = ['absent', 'normal', 'raised', 'bounding'] as const;
/** What a foot may wear. */
export const wornKinds = ['shoe', 'pad', 'cast', 'boots'] as const;
export type WornKind = (typeof wornKinds)[number];

/** Where hoof testers are set, and what the foot answers. */
export const testerPlaces = ['toe', 'inner', 'outer', 'heel', 'frog', 'sole'] as const;
export const testerAnswers = ['none', 'mild', 'moderate', 'severe'] as const;
/** What of the foot meets the ground first at the walk. */
export const landings = ['heel', 'flat', 'toe'] as const;
/** How the sole answers the thumb. */
export const soles = ['firm', 'gives', 'soft'] as const;
/** How a hoof feels to the hand. */
export const warmths = ['cold', 'cool', 'warm', 'hot'] as const;
/** Of what something is said that was seen on a foot. */
export const seenPlaces = [
  'coronet',
  'wall',
  'rings',
  'white-line',
  'sole',
  'frog',
  'bars',
  'heels',
  'abscess',
  'resection',
] as const;
/** Where the edge of the wall is bevelled; inner and outer are the quarters. */
export const bevelPlaces = ['toe', 'inner', 'outer', 'heel', 'all'] as const;
export const hoofSides = ['inner', 'outer'] as const;
export const dressings = ['bevel', 'quarters', 'bars'] as const;
