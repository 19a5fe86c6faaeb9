import { spoken } from './rows.ts';

/**
 * Words of which a line of the notation takes one, as they are said to a person: what was seen, of which animal, on which
 * picture. In English they are the notation's own. The page has no room for the table: what it says of them, single words all, it
 * looks up by `inLanguage()`.
 */
const choices: Readonly<Record<string, string>> = spoken({
  horse: 'horse',
  pony: 'pony',
  donkey: 'donkey',
  mule: 'mule',
  hinny: 'hinny',
  mare: 'mare',
  gelding: 'gelding',
  stallion: 'stallion',
  colt: 'colt',
  filly: 'filly',
  jenny: 'jenny',
  jack: 'jack',
  film: 'film',
  photo: 'photo',
  plan: 'plan',
  trim: 'trim',
  lateral: 'lateral',
  front: 'front',
  solar: 'solar',
  venogram: 'venogram',
  skyline: 'skyline',
  absent: 'absent',
  normal: 'normal',
  raised: 'raised',
  bounding: 'bounding',
  toe: 'toe',
  heel: 'heel',
  inner: 'inner',
  outer: 'outer',
  frog: 'frog',
  sole: 'sole',
  mild: 'mild',
  moderate: 'moderate',
  severe: 'severe',
  firm: 'firm',
  soft: 'soft',
  cold: 'cold',
  cool: 'cool',
  warm: 'warm',
  hot: 'hot',
  coronet: 'coronet',
  wall: 'wall',
  rings: 'rings',
  'white-line': 'white line',
  bars: 'bars',
  heels: 'heels',
  abscess: 'abscess',
  resection: 'resection',
  insulin: 'insulin',
  glucose: 'glucose',
  triglycerides: 'triglycerides',
  syrup: 'syrup',
  tape: 'tape',
});

/** What is not among them, such as a word of the case's own, stays as it is. */
export const sayChoice = (word: string): string =>
  Object.hasOwn(choices, word) ? (choices[word] ?? word) : word.replaceAll('-', ' ');
