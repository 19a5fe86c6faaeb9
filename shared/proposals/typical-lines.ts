import { dot, direction, minus, plus, turned, type XY } from '../geometry/vector.ts';
import { edgeLine, type EdgeLine } from '../picture/seek/edges.ts';
import { greyOfLevel } from '../picture/seek/pyramid.ts';
import type { FilmInFrame } from './film-pair.ts';

/** Upper and lower end, pixels. */
export type Ends = readonly [XY, XY];

/** How far from its typical place the bone's dorsal face is looked for, mm: the inner edge of the horn lies further off. */
const FACE_REACH = 5;
/** What the face's edge has to be before it counts as told: the share of places on it, and one standard deviation of an end, mm. */
const SHARE = 0.8;
const WORST = 0.4;

/** The dorsal face of the bone: the edge beside its typical place at which the bone's light ends. */
export function dorsalFace(film: FilmInFrame, typical: Ends): EdgeLine | null {
  const found = edgeLine(film.picture, ...typical, FACE_REACH / film.mmPerPx, { lighter: inside(film, typical) });
  return found && isClear(film, found) ? found : null;
}

const isClear = ({ mmPerPx }: FilmInFrame, { share, sds }: EdgeLine): boolean =>
  share >= SHARE && Math.max(...sds) * mmPerPx <= WORST;

/** On which side of a line down the foot its inside lies, as `edgeLine` has it. */
function inside({ axes }: FilmInFrame, [upper, lower]: Ends): 1 | -1 {
  return dot(turned(minus(lower, upper)), axes.u) < 0 ? 1 : -1;
}

/** Where the dorsal wall is looked for beside its typical place: so far off to either side, mm. */
const WALL_REACH = 9;
/** And where that fails, against the bone's face: so far before it at its upper end, mm, and opened by so much, degrees. */
const BEFORE_FACE = [15, 23];
const OPENED = [0, 9, 18];
/** Between the bone's face and the wall lies at least so much, mm, in the smallest foot. */
const THINNEST = 6;
/** So thick is what marks a wall at the most, mm, and it goes along this share of the wall. */
const STRIP = 2.4;
const STRIP_SHARE = 0.5;

/**
 * The outer edge of the dorsal wall: where the foot ends and air begins. What marks the wall, a thin strip much lighter than horn,
 * lies on it, and the wall is then the strip's inner edge.
 */
export function dorsalWall(film: FilmInFrame, typical: Ends, face: Ends | null): EdgeLine | null {
  const px = 1 / film.mmPerPx;
  for (const ends of [typical, ...(face ? beforeFace(film, face, typical) : [])]) {
    const side = inside(film, ends);
    const outline = edgeLine(film.picture, ...ends, WALL_REACH * px, { lighter: side });
    if (!outline || !isClear(film, outline) || !endsInAir(film, outline.ends, side)) continue;
    if (face && outline.ends.some((end) => before(film, face, end) < THINNEST)) continue;
    const behind = aside(outline.ends, (side * STRIP * px) / 2);
    const strip = edgeLine(film.picture, ...behind, (STRIP * px) / 2, { lighter: side === 1 ? -1 : 1 });
    return strip && strip.share >= STRIP_SHARE ? strip : outline;
  }
  return null;
}

/** How far a place lies before the bone's face, mm. */
function before(film: FilmInFrame, face: Ends, place: XY): number {
  const way = direction(...face);
  return way ? -inside(film, face) * dot(minus(place, face[0]), turned(way)) * film.mmPerPx : 0;
}

/** Lines before the bone's face, as long as the typical wall. */
function beforeFace(film: FilmInFrame, face: Ends, typical: Ends): readonly Ends[] {
  const way = direction(...face);
  if (!way) return [];
  const side = inside(film, face);
  const long = Math.hypot(typical[1].x - typical[0].x, typical[1].y - typical[0].y);
  return BEFORE_FACE.flatMap((far) => {
    const [upper] = aside(face, (-side * far) / film.mmPerPx);
    return OPENED.map((degrees): Ends => {
      const angle = (degrees * Math.PI) / 180;
      // Opened downwards, away from the bone.
      const lean = plus(
        { x: way.x * Math.cos(angle), y: way.y * Math.cos(angle) },
        turned(way),
        -side * Math.sin(angle),
      );
      return [upper, plus(upper, lean, long)];
    });
  });
}

/** A line moved across, to the side that `turned` of its way points to. */
function aside([a, b]: Ends, far: number): Ends {
  const way = direction(a, b);
  const across = way ? turned(way) : { x: 0, y: 0 };
  return [plus(a, across, far), plus(b, across, far)];
}

/** Just outside it is as dark as further out, against what it is inside: within this share of the step. */
const AS_DARK = 0.25;

function endsInAir(film: FilmInFrame, ends: Ends, side: 1 | -1): boolean {
  const grey = (mm: number): number => meanGrey(film, aside(ends, (-side * mm) / film.mmPerPx));
  const outside = grey(3);
  const further = Math.min(...[7, 11, 15, 19].map(grey).filter((one) => !Number.isNaN(one)));
  return outside - further < AS_DARK * (Math.max(grey(-1), grey(-3)) - outside);
}

/** Of what of a line lies on the picture; not a number where nothing does. */
function meanGrey({ picture, mmPerPx }: FilmInFrame, [a, b]: Ends): number {
  const [{ width, height }] = picture;
  const places = 24;
  let [sum, count] = [0, 0];
  for (let i = 0; i < places; i++) {
    const at = plus(a, minus(b, a), i / (places - 1));
    if (at.x < 0 || at.y < 0 || at.x > width - 1 || at.y > height - 1) continue;
    // Over half a millimetre or so.
    sum += greyOfLevel(picture, mmPerPx < 0.2 ? 2 : 1, at.x, at.y);
    count++;
  }
  return sum / count;
}
