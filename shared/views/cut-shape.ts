import { t } from '../language/words.ts';
import { sayLimit, say } from '../findings/wording/wording.ts';
import type { Frame } from '../geometry/frame.ts';
import { between, cross, dot, minus, plus, type XY } from '../geometry/vector.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import { newPlanes, offToe, seenFromSide, standAfter, standSeen, type CutSize, type Footing } from '../trim/stand.ts';

/** Horn that a cut takes. */
export interface Sliver {
  readonly part: 'heel' | 'toe' | 'sole' | 'inside' | 'outside';
  readonly outline: readonly XY[];
  /** The new outside of the wall; empty where the new ground is all that is left to see of the cut. */
  readonly face: readonly XY[];
  /** `5 mm`, `3 mm back`, `live sole 1.7 mm`. */
  readonly text: string;
}

/** A cut of a foot that stays where it is, so that the ground comes up to it: all in the frame of the foot before the cut, mm. */
export interface CutShape {
  /** The new bearing line, from heel to toe; in the front view from the inner to the outer side. */
  readonly ground: readonly [XY, XY];
  /** Where the heel's plane begins, between the two; null where one plane goes from end to end. */
  readonly bend: XY | null;
  readonly slivers: readonly Sliver[];
  /** The landmarks that the cut moves against the foot, where it leaves them. */
  readonly turned: Readonly<Record<string, XY>>;
}

/** Null where nothing is cut, and where nothing can be predicted. Of a foot that was trimmed since, as it stands, laid back into the film's frame. */
export function cutShape(foot: Footing, size: CutSize): CutShape | null {
  const film = foot.frame;
  return film.graph.scratch(() => {
    const stood = standAfter(foot, size);
    const heel = stood && plainPoint(stood.before, 'heel.ground');
    const toe = stood && plainPoint(stood.before, 'toe.ground');
    if (!stood || !heel || !toe) return null;
    const { cut } = stood;
    const [offHeel, toeDown] = [cut.heelDown + cut.whole, offToe(cut)];
    if (offHeel === 0 && toeDown === 0 && cut.toeBack === 0) return null;
    const from = { x: heel.x, y: offHeel };
    const to = { x: toe.x - cut.toeBack, y: toeDown };
    const planes = newPlanes(stood.before, cut);
    const bend = planes?.bend ? { x: planes.bend.x.value, y: planes.bend.y.value } : null;
    // On two planes the foot is drawn on its heels.
    const line: StraightLine = { from, along: unit(from, bend ?? to) };
    const front = bend && { from: bend, along: unit(bend, to) };
    const feet = {
      frame: stood.before,
      heel: { x: heel.x, y: 0 },
      toe: { x: toe.x, y: 0 },
      line,
      bend,
      front,
      to,
      size: { heelDown: offHeel, toeDown, toeBack: cut.toeBack },
    };
    const ontoFilm = backOnto(film, foot.earlier);
    const slivers = [...bearingSlivers(feet), ...toeSlivers(feet), ...soleSlivers(feet)];
    return {
      ground: [ontoFilm(from), ontoFilm(to)],
      bend: bend && ontoFilm(bend),
      slivers: slivers.map((one) => ({ ...one, outline: one.outline.map(ontoFilm), face: one.face.map(ontoFilm) })),
      turned: turned(stood.frame, stood.before, line, film, ontoFilm),
    };
  });
}

/** From the frame of the foot after some trims back into that of the film: the foot stays where it is, the ground comes up to it. */
function backOnto(film: Frame, earlier: readonly CutSize[]): (point: XY) => XY {
  const steps: ((point: XY) => XY)[] = [];
  let before: Frame | undefined = film;
  for (const one of seenFromSide(earlier)) {
    const heel = before && plainPoint(before, 'heel.ground');
    const toe = before && plainPoint(before, 'toe.ground');
    if (!before || !heel || !toe) break;
    const from = { x: heel.x, y: one.heelDown + one.whole };
    const along = unit(from, { x: toe.x - one.toeBack, y: offToe(one) });
    steps.unshift(offLine({ from, along }, plainPoint(before, 'p3.tip') ?? from));
    before = standSeen(before, one)?.frame;
  }
  return (point) => steps.reduce((at, step) => step(at), point);
}

/** From the frame that stands on a line into the frame in which the line lies. */
function offLine({ from, along }: StraightLine, origin: XY): (point: XY) => XY {
  const up = { x: -along.y, y: along.x };
  const start = dot(minus(from, origin), along);
  return (point) => plus(plus(from, along, point.x - start), up, point.y);
}

interface StraightLine {
  readonly from: XY;
  readonly along: XY;
}

interface FootOnItsLine {
  readonly frame: Frame;
  readonly heel: XY;
  readonly toe: XY;
  readonly line: StraightLine;
  /** Where the heel's plane ends and the front one begins, and that one; null where `line` goes from heel to toe. */
  readonly bend: XY | null;
  readonly front: StraightLine | null;
  /** Where the new line meets the toe. */
  readonly to: XY;
  readonly size: CutSize;
}

/** Less than this is not seen on any film, and said of none: mm. */
const leastSole = 0.05;
/** Half the breadth of the notch that stands for a sole known at one place only, mm. */
const notch = 3;

/** What lies between the old and the new bearing line; each end has its own millimetres. */
function bearingSlivers({ frame, heel, toe, line, bend, front, to, size }: FootOnItsLine): Sliver[] {
  const { heelDown, toeDown, toeBack } = size;
  if (heelDown <= 0 && toeDown <= 0) return [];
  const backTop = alongWall(heel, plainPoint(frame, 'heel.upper'), line, heelDown) ?? line.from;
  const frontTop = (toeBack > 0 ? null : alongWall(toe, plainPoint(frame, 'wall.lower'), front ?? line, toeDown)) ?? to;
  if (bend) {
    const below = { x: bend.x, y: 0 };
    const behind = sliver('heel', [heel, backTop, bend, below], sayLimit(heelDown, 'mm'));
    return toeDown > 0
      ? [behind, sliver('toe', [below, bend, frontTop, toe], sayLimit(toeDown, 'mm'))]
      : [sliver('heel', [heel, backTop, bend], sayLimit(heelDown, 'mm'))];
  }
  if (toeDown <= 0) return [sliver('heel', [heel, backTop, frontTop, toe], sayLimit(heelDown, 'mm'))];
  if (heelDown <= 0) return [sliver('toe', [heel, backTop, frontTop, toe], sayLimit(toeDown, 'mm'))];
  const middle = (heel.x + to.x) / 2;
  const top = { x: middle, y: heightOf(line, middle) };
  const bottom = { x: middle, y: 0 };
  return [
    sliver('heel', [heel, backTop, top, bottom], sayLimit(heelDown, 'mm')),
    sliver('toe', [bottom, top, frontTop, toe], sayLimit(toeDown, 'mm')),
  ];
}

/** Where the wall above a contact meets the new line: the sliver ends at the wall, not in the air before it. */
function alongWall(contact: XY, above: XY | null, line: StraightLine, cut: number): XY | null {
  if (!above || above.y <= contact.y || cut <= 0) return null;
  const way = { x: above.x - contact.x, y: above.y - contact.y };
  const across = cross(way, line.along);
  if (Math.abs(across) < 1e-9) return null;
  const share = cross(minus(line.from, contact), line.along) / across;
  const point = { x: contact.x + way.x * share, y: contact.y + way.y * share };
  // A wall that is placed nearly level would carry the sliver far out of the foot.
  return share > 0 && Math.abs(point.x - contact.x) <= 2.5 * cut ? point : null;
}

/**
 * The wall that goes when the toe is brought back: as thick as that up to `wall.lower`, as the model takes it for the wall that
 * is left, and running out above, since a rasp leaves no step.
 */
function toeSlivers({ frame, toe, to, size }: FootOnItsLine): Sliver[] {
  const lower = plainPoint(frame, 'wall.lower');
  if (size.toeBack <= 0 || !lower || lower.y <= to.y) return [];
  const way = unit(toe, lower);
  const upper = plainPoint(frame, 'wall.upper');
  const on = upper && upper.y > lower.y ? unit(lower, upper) : way;
  const end = { x: lower.x + on.x * 2 * size.toeBack, y: lower.y + on.y * 2 * size.toeBack };
  const back = { x: lower.x - size.toeBack, y: lower.y };
  const text = t('{0} back', sayLimit(size.toeBack, 'mm'));
  return [{ ...sliver('toe', [toe, lower, end, back, to], text), face: [end, back, to] }];
}

/** Sole that the new line passes above, between the places of the sole that are placed. */
function soleSlivers({ frame, line, bend, front, size }: FootOnItsLine): Sliver[] {
  if (size.heelDown <= 0 && size.toeDown <= 0) return [];
  const placed = (['sole.tip', 'sole.wing', 'sole.heel'] as const).flatMap((name) => plainPoint(frame, name) ?? []);
  if (!bend || !front) return soleOver(line, placed);
  // Each plane takes what lies over it; the front one is the old ground without `toe down`.
  return [
    ...soleOver(
      line,
      placed.filter(({ x }) => x < bend.x),
    ),
    ...(size.toeDown > 0
      ? soleOver(
          front,
          placed.filter(({ x }) => x >= bend.x),
        )
      : []),
  ];
}

function soleOver(line: StraightLine, placed: readonly XY[]): Sliver[] {
  const sole = placed.map((point) => ({ point, depth: -above(line, point) })).sort((a, b) => a.point.x - b.point.x);
  const [first] = sole;
  if (sole.length === 1 && first) {
    const side = (by: number): XY => plus(onLine(line, first.point), line.along, by);
    return first.depth < leastSole ? [] : [soleSliver([side(-notch), first.point, side(notch)], first.depth)];
  }
  const slivers: Sliver[] = [];
  let run: XY[] = [];
  let deepest = 0;
  const close = (): void => {
    if (run.length > 1 && deepest >= leastSole) slivers.push(soleSliver(closedOn(line, run), deepest));
    run = [];
    deepest = 0;
  };
  sole.forEach(({ point, depth }, index) => {
    const before = sole[index - 1];
    if (before && before.depth > 0 !== depth > 0)
      run.push(between(before.point, point, before.depth / (before.depth - depth)));
    if (depth > 0) {
      run.push(point);
      deepest = Math.max(deepest, depth);
    } else close();
  });
  close();
  return slivers;
}

const soleSliver = (outline: readonly XY[], depth: number): Sliver =>
  sliver('sole', outline, t('live sole {0}', say(depth, 'mm')));

/** Down to the line, square to it, at either end. */
function closedOn(line: StraightLine, run: readonly XY[]): XY[] {
  const [first] = run;
  const last = run.at(-1);
  return first && last ? [onLine(line, first), ...run, onLine(line, last)] : [];
}

/** Places that the foot keeps are left out: only what moves against it is worth drawing twice. */
function turned(
  after: Frame,
  before: Frame,
  line: StraightLine,
  film: Frame,
  ontoFilm: (point: XY) => XY,
): Record<string, XY> {
  const back = offLine(line, plainPoint(before, 'p3.tip') ?? line.from);
  const moved: Record<string, XY> = {};
  for (const name of after.names) {
    const point = plainPoint(after, name);
    const was = plainPoint(film, name);
    if (!point || !was) continue;
    const place = ontoFilm(back(point));
    if (Math.hypot(place.x - was.x, place.y - was.y) > 1e-6) moved[name] = place;
  }
  return moved;
}

function plainPoint(frame: Frame, name: LandmarkName): XY | null {
  const point = frame.at(name);
  return point ? { x: point.x.value, y: point.y.value } : null;
}

const sliver = (part: Sliver['part'], outline: readonly XY[], text: string): Sliver => ({
  part,
  outline,
  face: [],
  text,
});
const above = ({ from, along }: StraightLine, point: XY): number => cross(along, minus(point, from));
const heightOf = ({ from, along }: StraightLine, x: number): number => from.y + ((x - from.x) * along.y) / along.x;
const onLine = (line: StraightLine, point: XY): XY =>
  plus(point, { x: -line.along.y, y: line.along.x }, -above(line, point));

function unit(from: XY, to: XY): XY {
  const { x, y } = minus(to, from);
  const length = Math.hypot(x, y);
  return { x: x / length, y: y / length };
}
