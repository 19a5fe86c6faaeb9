import type { FilmSheet, XY } from '../../../shared/views/film-sheet.ts';
import type { Placement } from '../../../shared/edits/placing-schema.ts';
import { spreadInPixels } from '../../../shared/geometry/foot-input.ts';
import { t } from '../../../shared/language/words.ts';
import { everyStep, isLineKey, lineKeys, type LineKey } from '../../../shared/views/what-to-place.ts';

/** What can be picked up on the picture. */
export interface Handle {
  /** The landmark's word, or `ground.0`, `ground.1`, `scale.0` and so on for the ends of the lines. */
  readonly key: string;
  readonly name: string;
  readonly at: XY;
}

/** In the order in which one goes round the foot, which is the order of the Tab key. */
export function handlesOf(sheet: FilmSheet): readonly Handle[] {
  return everyStep(sheet).flatMap(({ key, name }): Handle[] => {
    if (isLineKey(key)) {
      return (endsOf(sheet, key) ?? []).map((at, end) => ({
        key: `${key}.${end}`,
        name: end === 0 ? t('{0}, one end', name) : t('{0}, the other end', name),
        at,
      }));
    }
    const at = sheet.placed[key];
    return at ? [{ key, name, at: { x: at.x, y: at.y } }] : [];
  });
}

function endsOf({ ground, bearing, marker }: FilmSheet, key: LineKey): readonly [XY, XY] | null {
  return key === 'ground' ? ground : key === 'bearing' ? bearing : marker;
}

/** The line that a handle is an end of; null for a landmark. */
export const lineOf = (handle: string): LineKey | null =>
  lineKeys.find((key) => handle === `${key}.0` || handle === `${key}.1`) ?? null;

/** A handle somewhere else, as a placement. */
export function moved(sheet: FilmSheet, key: string, to: XY): Placement | null {
  const lined = (ends: readonly [XY, XY]): readonly [XY, XY] => (key.endsWith('.0') ? [to, ends[1]] : [ends[0], to]);
  const line = lineOf(key);
  if (line !== null) {
    const ends = endsOf(sheet, line);
    if (!ends) return null;
    return line === 'scale' ? { kind: 'marker', ends: lined(ends), mm: null } : { kind: line, ends: lined(ends) };
  }
  return key in sheet.placed ? byHand(sheet, key, to) : null;
}

/**
 * A landmark where a hand has put it. A spread that says it is told better than a hand tells was that of another place, such as one
 * fitted to an edge, and goes; one that says it is told worse stays.
 */
export function byHand({ input, scale }: FilmSheet, name: string, at: XY): Placement {
  const own = input.landmarks.find((one) => one.name === name)?.spread ?? null;
  const isFiner = own !== null && own < spreadInPixels(input, scale);
  return isFiner ? { kind: 'landmark', name, at, spread: null } : { kind: 'landmark', name, at };
}
