/** Words of which a line of the notation takes one. Types and schemas are made of these lists. */

export const feet = ['LF', 'RF', 'LH', 'RH'] as const;
export type FootName = (typeof feet)[number];

export const animals = ['horse', 'pony', 'donkey', 'mule', 'hinny'] as const;
export const pictureKinds = ['film', 'photo'] as const;
export const cutKinds = ['plan', 'trim'] as const;
export const pulses = ['normal', 'raised', 'bounding'] as const;
/** What a foot may wear. */
export const wornKinds = ['shoe', 'pad', 'cast', 'boots'] as const;
export type WornKind = (typeof wornKinds)[number];
