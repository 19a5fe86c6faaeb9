import { spokenRows } from '../language/rows.ts';
import type { SourceName, Strength } from './sources.ts';

/** How fast the wall grows down, as somebody has told it; turned into mm a day where it was weeks or months. */
export interface GrowthValue {
  readonly words: string;
  readonly n: number | null;
  /** One figure, or the ends of a range. */
  readonly mmPerDay: number | readonly [low: number, high: number];
  readonly printed: string;
  readonly source: SourceName;
  readonly strength: Strength;
}

// prettier-ignore
export const growthValues: readonly GrowthValue[] = spokenRows([
  { words: '7 Malopolski mares, unshod, spring and summer', n: 7, mmPerDay: 0.3, printed: '2.1 mm a week', source: 'kolstrung', strength: 'read' },
  { words: '42 Lipizzaner stallions', n: 42, mmPerDay: 0.25, printed: '7 mm in 28 days', source: 'josseck', strength: 'read' },
  { words: 'ponies without biotin', n: 4, mmPerDay: 0.2, printed: '30.69 mm in 5 months', source: 'reilly', strength: 'read' },
  { words: 'ponies with biotin', n: 4, mmPerDay: 0.23, printed: '35.34 mm in 5 months', source: 'reilly', strength: 'read' },
  { words: 'Shetland ponies from 8 months of age, fed freely', n: 7, mmPerDay: 0.384, printed: '.384 mm/d', source: 'butlerHintz', strength: 'read' },
  { words: 'Shetland ponies from 8 months of age, fed little', n: 7, mmPerDay: 0.254, printed: '.254 mm/d', source: 'butlerHintz', strength: 'read' },
  { words: 'foals', n: null, mmPerDay: 0.5, printed: '0.50 mm a day', source: 'butler', strength: 'quoted' },
  { words: 'yearlings', n: null, mmPerDay: 0.4, printed: '0.40 mm a day', source: 'butler', strength: 'quoted' },
  { words: 'mature horses', n: null, mmPerDay: 0.3, printed: '0.30 mm a day', source: 'butler', strength: 'quoted' },
  { words: 'aged horses', n: null, mmPerDay: 0.2, printed: '0.20 mm a day', source: 'butler', strength: 'quoted' },
  { words: 'horses, a textbook', n: null, mmPerDay: [0.2, 0.33], printed: '6 to 10 mm a month', source: 'growthTextbook', strength: 'read' },
], 'words');

/**
 * mm a day by which the wall of a grown animal grows where its own films and tapes do not tell: the textbook's 6 to 10 mm a
 * month, and in the middle what renews a toe of 85 to 90 mm in 11 to 13 months (Lungwitz, 0.22 to 0.27).
 */
export const usualGrowth = { slow: 0.2, middle: 0.24, fast: 0.33 };
