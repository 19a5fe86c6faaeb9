import type { FootInput } from '../geometry/foot-input.ts';
import type { BoneScaleInput } from '../geometry/foot-input.ts';
import type { StoredScale } from '../measures/film-input.ts';
import type { Taking } from '../measures/take.ts';
import type { BareBy, Shod } from '../record/wearing.ts';
import type { Film, Placed, Reading, Visit } from '../record/schema.ts';

/** The lengths that a film takes its scale from, and whose they are; or why there are none. */
export type BoneScale =
  | {
      readonly input: BoneScaleInput;
      /** Of the same foot, or of the other one of the pair. */
      readonly from: 'foot' | 'pair';
      /** How many films they are taken from. */
      readonly films: number;
    }
  | { readonly lack: 'no film' | 'view' | 'young' | 'alone' | 'contradict' };

/** One film as one reader placed it, measured. */
export interface StudiedReading {
  readonly reading: Reading;
  /** What it is measured from, made anew each time it is asked for. */
  readonly input: FootInput;
  readonly taking: Taking;
}

export interface StudiedFilm {
  readonly visit: Placed<Visit>;
  readonly film: Film;
  /** The day it was taken, its own, else that of its visit, as `dayNumber` counts. */
  readonly day: number | null;
  readonly readings: readonly StudiedReading[];
  /** What the picture's file says of its scale; null where nobody has looked, or need not. */
  readonly stored: StoredScale | null;
  /** What its `scale bone` comes to; null where it has no such line. */
  readonly bone: BoneScale | null;
  /** What the foot wears on it; null where it is bare, or nobody knows the day. */
  readonly worn: Shod | null;
  /** Why it is bare on it; null where it wears something, where nothing is said of it, and where nobody knows the day. */
  readonly bareBy: BareBy | null;
}
