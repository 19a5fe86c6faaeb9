import { intoFrame, ontoImage } from '../geometry/foot-axes.ts';
import { cross, distance, minus, plus, type XY } from '../geometry/vector.ts';
import { lateralLandmark, type LandmarkName, type LateralLandmark } from '../notation/landmarks.ts';
import type { FilmInFrame } from './film-pair.ts';
import { mapOf, mapped, type Pair, type PointMap } from './point-map.ts';

/** A typical foot laid over a film on which the bone's two ends and the ground are placed. */
export interface TypicalOnFilm {
  /** How large the foot is; 1 is the typical one. */
  readonly size: number;
  /** Where a landmark is to be looked for, pixels. */
  at(row: LateralLandmark): XY;
}

/** A place of the capsule that the picture told. */
export interface Told {
  readonly name: LandmarkName;
  readonly at: XY;
}

/** What is `told` of the capsule counts as if it were placed. Null where tip and wing lie in one place. */
export function typicalOnFilm(film: FilmInFrame, told: readonly Told[] = []): TypicalOnFilm | null {
  const { axes, mmPerPx } = film;
  const [tip, wing] = [film.at('p3.tip'), film.at('p3.wing')];
  const mirrored = cross(axes.u, axes.v) > 0;
  const bone = mapOf(placedPairs(film, isBony), mirrored);
  if (!tip || !wing || !bone) return null;
  const size = (distance(tip, wing) * mmPerPx) / distance(typical('p3.tip'), typical('p3.wing'));
  const standing = (place: XY): XY =>
    ontoImage(axes, { x: (place.x * size) / mmPerPx, y: (-place.y * size) / mmPerPx });
  // What is placed of the capsule says more of it than the ground alone.
  const level = (['p3.tip', 'p3.wing'] as const).map((name): Pair => {
    const below = { x: typical(name).x, y: 0 };
    return [below, standing(below)];
  });
  const more = told.map(({ name, at }): Pair => [typical(name), at]);
  const capsule = mapOf([...level, ...placedPairs(film, isOfCapsule), ...more], mirrored);
  const coffin = mapped(bone, typical('coffin.centre'));
  return { size, at: (row) => placeOf(row, { film, bone, capsule, standing, coffin }) };
}

interface LaidTypical {
  readonly film: FilmInFrame;
  readonly bone: PointMap;
  readonly capsule: PointMap | null;
  /** By the ground and the size. */
  readonly standing: (place: XY) => XY;
  readonly coffin: XY;
}

function placeOf(row: LateralLandmark, { film, bone, capsule, standing, coffin }: LaidTypical): XY {
  const place = typical(row.word);
  const { proposed } = row;
  // A horse stands upright however the pedal bone is turned.
  if (proposed.by === 'arc') return plus(coffin, minus(standing(place), standing(typical('coffin.centre'))));
  if (isBony(row)) return mapped(bone, place);
  if (proposed.by === 'edge below') {
    const above = film.at(proposed.bone) ?? mapped(bone, typical(proposed.bone));
    const deep = intoFrame(film.axes, standing(place)).y;
    return ontoImage(film.axes, { x: intoFrame(film.axes, above).x, y: deep });
  }
  const there = capsule ? mapped(capsule, place) : standing(place);
  // What meets the ground lies on it.
  return place.y === 0 ? ontoImage(film.axes, { x: intoFrame(film.axes, there).x, y: 0 }) : there;
}

/** As on a picture, mm: toe to the right, y downwards. */
function typical(name: LandmarkName): XY {
  const [x, y] = lateralLandmark(name)?.typical ?? [0, 0];
  return { x, y: -y };
}

const isBony = ({ proposed }: LateralLandmark): boolean => 'on' in proposed && proposed.on === 'pedal bone';
const isOfCapsule = ({ proposed }: LateralLandmark): boolean => 'on' in proposed && proposed.on === 'capsule';

function placedPairs(film: FilmInFrame, which: (row: LateralLandmark) => boolean): readonly Pair[] {
  return film.foot.landmarks.flatMap(({ name }): Pair[] => {
    const row = lateralLandmark(name);
    const at = film.at(name);
    return row && at && which(row) ? [[typical(name), at]] : [];
  });
}
