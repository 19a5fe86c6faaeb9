import type { Frame } from '../geometry/frame.ts';
import { cross, minus, type XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import { newPlanes, standAfter, takesNothing, type CutSize, type Footing } from '../trim/stand.ts';

/**
 * The line to draw on a hoof before a cut, where the new plane meets the outside of the wall. All in the frame of the foot as it
 * stands that day, mm: X to the toe from below p3.tip, Y up from what the wall bears on.
 */
export interface PenLine {
  /** Height of the line above the ground, mm, where it meets the wall at the heel, midway, and at the toe. */
  readonly heel: number;
  readonly quarter: number;
  readonly toe: number;
  /** mm that the toe is brought back by in the same cut. */
  readonly toeBack: number;
  /** mm in front of the heel's contact where a heel's plane of its own ends; null where one plane goes from heel to toe. */
  readonly bendFrom: number | null;
  /** From the heel to the toe, with the bend between them where there is one. */
  readonly line: readonly XY[];
}

/** Every landmark of a foot as it stands after some trims, in its own frame, mm; null where it cannot be followed. */
export function standingPlaces({ frame, earlier }: Footing): ReadonlyMap<string, XY> | null {
  if (!frame.scale) return null;
  return frame.graph.scratch(() => {
    const last = earlier.at(-1);
    const stood = last === undefined ? frame : standAfter({ frame, earlier: earlier.slice(0, -1) }, last)?.frame;
    return stood ? placesOf(stood) : null;
  });
}

/** Null where nothing is cut, nothing can be predicted, or a side is to come down by itself, which no line from the side can show. */
export function penLine(foot: Footing, size: CutSize): PenLine | null {
  if (takesNothing(size) || size.insideDown || size.outsideDown) return null;
  return foot.frame.graph.scratch(() => {
    const stood = standAfter(foot, size);
    const planes = stood && newPlanes(stood.before, stood.cut);
    const heel = stood && plain(stood.before, 'heel.ground');
    const toe = stood && plain(stood.before, 'toe.ground');
    if (!planes || !heel || !toe) return null;
    const from = { x: planes.heel.x.value, y: planes.heel.y.value };
    const to = { x: planes.toe.x.value, y: planes.toe.y.value };
    const bend = planes.bend && { x: planes.bend.x.value, y: planes.bend.y.value };
    const behind = bend ?? to;
    const inFront = bend ?? from;
    const atHeel = onWall(heel, plain(stood.before, 'heel.upper'), from, behind) ?? from;
    // What is brought back has no wall left to draw on: the line ends where the new toe stands.
    const atToe = size.toeBack > 0 ? to : (onWall(toe, plain(stood.before, 'wall.lower'), inFront, to) ?? to);
    const middle = (heel.x + toe.x) / 2;
    const quarter = bend && middle > bend.x ? heightAt(middle, bend, to) : heightAt(middle, from, behind);
    return {
      heel: atHeel.y,
      quarter,
      toe: atToe.y,
      toeBack: size.toeBack,
      bendFrom: bend ? bend.x - heel.x : null,
      line: [atHeel, ...(bend ? [bend] : []), atToe],
    };
  });
}

/** Where a plane meets the wall above a contact; null where the wall is not placed, lies too flat, or the plane misses it. */
function onWall(contact: XY, above: XY | null, from: XY, to: XY): XY | null {
  if (!above || above.y <= contact.y) return null;
  const wall = minus(above, contact);
  const plane = minus(to, from);
  const across = cross(wall, plane);
  if (Math.abs(across) < 1e-9) return null;
  const share = cross(minus(from, contact), plane) / across;
  // A wall that is placed nearly level would carry the mark far away from the foot.
  return share >= 0 && share <= 1 ? { x: contact.x + share * wall.x, y: contact.y + share * wall.y } : null;
}

const heightAt = (x: number, from: XY, to: XY): number => from.y + ((x - from.x) * (to.y - from.y)) / (to.x - from.x);

function placesOf(frame: Frame): ReadonlyMap<string, XY> {
  const places = new Map<string, XY>();
  for (const name of frame.names) {
    const place = plain(frame, name);
    if (place) places.set(name, place);
  }
  return places;
}

function plain(frame: Frame, name: LandmarkName): XY | null {
  const point = frame.at(name);
  return point ? { x: point.x.value, y: point.y.value } : null;
}
