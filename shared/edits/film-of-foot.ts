import type { FootName } from '../notation/choices.ts';
import { quoted } from './quoted.ts';

/** A lateral film that somebody adds and of which the foot is known. */
export interface FilmOfFoot {
  readonly foot: FootName;
  /** Of its picture, from the case file's folder. */
  readonly path: string;
}

/** Its line in a visit. */
export const filmLine = ({ foot, path }: FilmOfFoot): string => `  film ${foot} lateral ${quoted(path)}`;
