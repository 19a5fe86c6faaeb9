import type { FilmSheet, XY } from '../../../shared/views/film-sheet.ts';
import type { Placement } from '../../../shared/edits/placing-schema.ts';
import { everyStep } from '../../../shared/views/what-to-place.ts';

/** What can be picked up on the picture. */
export interface Handle {
  /** The landmark's word, or `ground.0`, `ground.1`, `scale.0`, `scale.1` for the ends of the two lines. */
  readonly key: string;
  readonly name: string;
  readonly at: XY;
}

/** In the order in which one goes round the foot, which is the order of the Tab key. */
export function handlesOf(sheet: FilmSheet): readonly Handle[] {
  return everyStep(sheet).flatMap(({ key, name }): Handle[] => {
    if (key === 'ground' || key === 'scale') {
      const ends = key === 'ground' ? sheet.ground : sheet.marker;
      return (ends ?? []).map((at, end) => ({
        key: `${key}.${end}`,
        name: `${name}, ${end === 0 ? 'one' : 'the other'} end`,
        at,
      }));
    }
    const at = sheet.placed[key];
    return at ? [{ key, name, at: { x: at.x, y: at.y } }] : [];
  });
}

export const isOf = (handle: string, step: 'ground' | 'scale'): boolean =>
  handle === `${step}.0` || handle === `${step}.1`;

/** A handle somewhere else, as a placement. */
export function moved(sheet: FilmSheet, key: string, to: XY): Placement | null {
  const lined = (ends: readonly [XY, XY]): readonly [XY, XY] => (key.endsWith('.0') ? [to, ends[1]] : [ends[0], to]);
  if (isOf(key, 'ground')) return sheet.ground && { kind: 'ground', ends: lined(sheet.ground) };
  if (isOf(key, 'scale')) return sheet.marker && { kind: 'marker', ends: lined(sheet.marker), mm: null };
  return key in sheet.placed ? { kind: 'landmark', name: key, at: to } : null;
}
