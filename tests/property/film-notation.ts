import type { Film, Landmark, Point, Scale, Segment } from './oracle/lateral.ts';

const written = ({ x, y }: Point): string => `${x}, ${y}`;
const writtenSegment = ({ a, b }: Segment): string => `${written(a)} .. ${written(b)}`;

export type SpreadSign = '+-' | '±';

export function writtenLandmark({ name, spread, ...point }: Landmark, sign: SpreadSign): string {
  return `${name} @ ${written(point)}${spread === undefined ? '' : ` ${sign} ${spread}`}`;
}

function writtenScale(scale: Scale): string {
  return scale.form === 'stated'
    ? `scale ${scale.mmPerPx} mm/px`
    : `scale ${scale.length} ${scale.unit} = ${writtenSegment(scale.ends)}`;
}

/** What a film says of itself, apart from its landmarks. */
export function writtenFilm(film: Film): string[] {
  const statements: string[] = [];
  if (film.ground) statements.push(`ground ${writtenSegment(film.ground)}`);
  if (film.bearing) statements.push(`bearing ${writtenSegment(film.bearing)}`);
  if (film.scale) statements.push(writtenScale(film.scale));
  if (film.magnify !== undefined) statements.push(`magnify ${film.magnify}`);
  return statements;
}
