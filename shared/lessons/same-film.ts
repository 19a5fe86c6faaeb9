import type { FootName } from '../notation/choices.ts';
import type { View } from '../notation/landmarks.ts';

/** A film as it is known across files. */
export interface FilmAcross {
  readonly foot: FootName;
  readonly view: View;
  /** As written. */
  readonly picture: string;
}

/**
 * Whether two files speak of one film: foot, view and the picture's name are the same. Student and teacher keep the picture in folders
 * of their own.
 */
export function isSameFilm(one: FilmAcross, other: FilmAcross): boolean {
  return one.foot === other.foot && one.view === other.view && nameIn(one.picture) === nameIn(other.picture);
}

const nameIn = (path: string): string => path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
