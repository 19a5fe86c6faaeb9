import { spoken } from '../../language/rows.ts';
import type { PlateLabel } from './plate-label.ts';

/** Where a value lies to its usual range, in a word: on the plate, in every table, and in print. */
export const stateWords: Readonly<Record<PlateLabel['state'], string>> = spoken({
  within: 'within',
  low: 'low',
  high: 'high',
  act: 'act',
  unsure: 'unsure',
  none: '',
});
