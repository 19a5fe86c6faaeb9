import type { Frame } from '../geometry/frame.ts';
import { along, clockwise, degrees, negated, unit, vector, type Point } from '../geometry/point.ts';
import { angleOf } from '../geometry/real.ts';
import { valuesIn, type Values } from '../measures/take.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { Cut } from '../record/schema.ts';
import { isBefore, momentOf, type FilmsByDay, type When } from './film-series.ts';
import type { SideSize } from './stand.ts';
import type { StudiedFilm, StudiedReading } from './studied.ts';
import type { StudiedCut } from './study.ts';
import type { EarlierTrim, TrimSeries } from './trim-series.ts';

/** What lowering one side would leave, in the front view. */
export interface SidePrediction {
  /** Degrees that the foot turns: positive where the outer side is lowered more. */
  readonly delta: number;
  readonly values: Values;
}

/** A cut from side to side with the film that it is predicted on. */
export interface StudiedSides {
  readonly size: SideSize;
  /** What trims took off the sides since that film. */
  readonly earlier: SideSize;
  /** The newest front film of the foot that shows it before the cut. */
  readonly film: StudiedFilm | null;
  readonly reading: StudiedReading | null;
  /** What the foot measures from in front before the cut. */
  readonly before: Values;
  readonly prediction: SidePrediction | null;
}

export const noSide: SideSize = { insideDown: 0, outsideDown: 0 };

export function sideSize({ insideDown, outsideDown }: Pick<Cut, 'insideDown' | 'outsideDown'>): SideSize | null {
  const size = { insideDown: insideDown?.base ?? 0, outsideDown: outsideDown?.base ?? 0 };
  return size.insideDown > 0 || size.outsideDown > 0 ? size : null;
}

/** Null where no side is lowered. `trims`: null where only what it is predicted on is wanted. */
export function sidesOf(
  { cut, day, visit }: Pick<StudiedCut, 'cut' | 'day' | 'visit'>,
  series: FilmsByDay,
  trims: Pick<TrimSeries, 'between'> | null,
): StudiedSides | null {
  const size = sideSize(cut);
  if (!size) return null;
  const moment = day === null ? null : { day, at: visit.start + cut.head.start };
  const film = moment && filmBefore(cut.foot, series, moment);
  const reading = film?.readings.find(({ taking }) => taking.frame) ?? film?.readings[0] ?? null;
  const frame = reading?.taking.frame;
  const from = film && momentOf(film);
  const earlier = moment && from && trims ? together(trims.between(cut.foot, from, moment)) : noSide;
  return {
    size,
    earlier,
    film,
    reading,
    before: frame ? valuesAfter(frame, earlier) : new Map(),
    prediction: frame ? predictSides(frame, size, earlier) : null,
  };
}

/** Of the day of the cut only a film that stands above it shows the foot before it. */
function filmBefore(foot: string, series: FilmsByDay, moment: When): StudiedFilm | null {
  const film = series.upTo(foot, 'front', moment.day);
  const taken = film && momentOf(film);
  return taken === null || isBefore(taken, moment) ? film : series.upTo(foot, 'front', moment.day - 1);
}

const together = (trims: readonly EarlierTrim[]): SideSize =>
  trims.reduce((sum, { cut }) => plus(sum, sideSize(cut) ?? noSide), noSide);

const plus = (one: SideSize, other: SideSize): SideSize => ({
  insideDown: one.insideDown + other.insideDown,
  outsideDown: one.outsideDown + other.outsideDown,
});

/** What the film measures, with what came off the sides since. */
export function valuesAfter(frame: Frame, earlier: SideSize): Values {
  const isNone = earlier.insideDown === 0 && earlier.outsideDown === 0;
  return (isNone ? null : predictSides(frame, earlier)?.values) ?? frame.graph.scratch(() => valuesIn('front', frame));
}

/**
 * The foot stands on the line from M' = (X wall.medial, inside down) to L' = (X wall.lateral, outside down) and turns by
 * atan2(outside - inside, X wall.lateral - X wall.medial); every front measure is taken anew there. What came off earlier adds up
 * at each side. Null where the film has no scale, lacks one of the two, or shows a shod foot without its bearing plane. Live sole
 * is not visible from in front, so nothing is said of it.
 */
export function predictSides(frame: Frame, size: SideSize, earlier: SideSize = noSide): SidePrediction | null {
  const medial = frame.at('wall.medial');
  const lateral = frame.at('wall.lateral');
  if (!frame.isOnBearing || !frame.scale || !medial || !lateral || lateral.x.value <= medial.x.value) return null;
  const { graph } = frame;
  const { insideDown, outsideDown } = plus(size, earlier);
  return graph.scratch(() => {
    const inner: Point = { x: medial.x, y: graph.constant(insideDown) };
    const outer: Point = { x: lateral.x, y: graph.constant(outsideDown) };
    const line = unit(vector(inner, outer));
    const up = negated(clockwise(line));
    const onNewLine = (point: Point): Point => ({ x: along(inner, point, line), y: along(inner, point, up) });
    const stood = (name: LandmarkName, point: Point): Point => {
      if (name === 'wall.medial') return onNewLine({ x: point.x, y: point.y.plus(insideDown) });
      if (name === 'wall.lateral') return onNewLine({ x: point.x, y: point.y.plus(outsideDown) });
      return onNewLine(point);
    };
    const after: Frame = {
      graph,
      scale: frame.scale,
      isOnBearing: true,
      // What the foot wears stays the same under it.
      ground: frame.ground,
      at: (name) => {
        const point = frame.at(name);
        return point && stood(name, point);
      },
      names: frame.names,
    };
    const width = outer.x.minus(inner.x);
    const turned = angleOf(outer.y.minus(inner.y), width).value;
    const before = Math.atan2(earlier.outsideDown - earlier.insideDown, width.value);
    return { delta: (turned - before) * degrees, values: valuesIn('front', after) };
  });
}
