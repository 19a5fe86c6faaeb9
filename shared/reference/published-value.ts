import type { MeasureName } from '../measures/names.ts';
import type { SourceName, Strength } from './sources.ts';

/** Who was measured. */
export interface Population {
  readonly species: 'horse' | 'pony' | 'donkey';
  readonly feet: 'fore' | 'hind' | 'all';
  /** `mixed`: of several conditions, or the source does not tell. */
  readonly condition: 'sound' | 'laminitis' | 'lame' | 'mixed';
  readonly words: string;
}

/** What somebody has measured and told, as it was told; in the measure's unit. */
export interface Figures {
  readonly mean?: number;
  readonly sd?: number;
  readonly median?: number;
  /** A figure of which what is at hand does not say whether it is a mean, a median or an opinion. */
  readonly about?: number;
  readonly low?: number;
  readonly high?: number;
  /** What `low` and `high` are. */
  readonly interval?: 'range' | '95% CI' | 'IQR' | 'usual';
}

export interface PublishedValue extends Figures {
  readonly measure: MeasureName;
  readonly population: Population;
  readonly n: number | null;
  readonly counted?: 'animals' | 'feet';
  readonly unit: 'deg' | 'mm' | '%' | '1';
  readonly source: SourceName;
  readonly strength: Strength;
  readonly note?: string;
}
