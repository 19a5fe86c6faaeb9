import type { Film } from '../record/schema.ts';
import type { XY } from '../geometry/vector.ts';
import { quoted } from './quoted.ts';

/** A film as somebody is to read it who knows nothing of it. */
export interface BlindFilm extends Pick<Film, 'kind' | 'foot' | 'view'> {
  /** From the file's folder. */
  readonly picture: string;
  /** mm/px; null leaves it out. */
  readonly scale: number | null;
  readonly ground: readonly [XY, XY] | null;
  readonly bearing: readonly [XY, XY] | null;
}

/** A visit wants a date: the same for every film, and none of theirs. */
const DAY = '2000-01-01';

/** The text of its file: foot, view, picture, and what it is measured by. */
export function blindText({ kind, foot, view, picture, scale, ground, bearing }: BlindFilm): string {
  const line = (word: string, [from, to]: readonly [XY, XY]): string =>
    `    ${word.padEnd(8)}${from.x}, ${from.y} .. ${to.x}, ${to.y}`;
  return [
    'hoof 1',
    '',
    '# A film to read blind. The day is the same for all, and none of theirs.',
    '',
    `visit ${DAY}`,
    `  ${kind} ${foot} ${view} ${quoted(picture)}`,
    ...(scale === null ? [] : [`    scale   ${Number(scale.toPrecision(9))} mm/px`]),
    ...(ground ? [line('ground', ground)] : []),
    ...(bearing ? [line('bearing', bearing)] : []),
    '',
  ].join('\n');
}
