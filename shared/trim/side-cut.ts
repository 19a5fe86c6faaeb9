import type { Frame } from '../geometry/frame.ts';
import { along, clockwise, degrees, negated, unit, vector, type Point } from '../geometry/point.ts';
import { angleOf } from '../geometry/real.ts';
import { valuesIn, type Values } from '../measures/take.ts';
import type { LandmarkName } from '../notation/landmarks.ts';
import type { Cut } from '../record/schema.ts';
import type { FilmsByDay } from './film-series.ts';
import type { SideSize } from './stand.ts';
import type { StudiedFilm, StudiedReading } from './studied.ts';
import type { StudiedCut } from './study.ts';

/** What lowering one side would leave, in the front view. */
export interface SidePrediction {
  /** Degrees that the foot turns: positive where the outer side is lowered more. */
  readonly delta: number;
  readonly values: Values;
}

/** A cut from side to side with the film that it is predicted on. */
export interface StudiedSides {
  readonly size: SideSize;
  /** The newest front film of the foot that is not later than the cut. */
  readonly film: StudiedFilm | null;
  readonly reading: StudiedReading | null;
  readonly prediction: SidePrediction | null;
}

export function sideSize({ insideDown, outsideDown }: Pick<Cut, 'insideDown' | 'outsideDown'>): SideSize | null {
  const size = { insideDown: insideDown?.base ?? 0, outsideDown: outsideDown?.base ?? 0 };
  return size.insideDown > 0 || size.outsideDown > 0 ? size : null;
}

/** Null where no side is lowered. */
export function sidesOf({ cut, day }: Pick<StudiedCut, 'cut' | 'day'>, series: FilmsByDay): StudiedSides | null {
  const size = sideSize(cut);
  if (!size) return null;
  const film = day === null ? null : series.upTo(cut.foot, 'front', day);
  const reading = film?.readings.find(({ taking }) => taking.frame) ?? film?.readings[0] ?? null;
  const frame = reading?.taking.frame;
  return { size, film, reading, prediction: frame ? predictSides(frame, size) : null };
}

/**
 * The foot stands on the line from M' = (X wall.medial, inside down) to L' = (X wall.lateral, outside down) and turns by
 * atan2(outside - inside, X wall.lateral - X wall.medial); every front measure is taken anew there. Null where the film has no
 * scale, lacks one of the two, or shows a shod foot without its bearing plane. Live sole is not visible from in front, so nothing is said of it.
 */
export function predictSides(frame: Frame, { insideDown, outsideDown }: SideSize): SidePrediction | null {
  const medial = frame.at('wall.medial');
  const lateral = frame.at('wall.lateral');
  if (!frame.isOnBearing || !frame.scale || !medial || !lateral || lateral.x.value <= medial.x.value) return null;
  const { graph } = frame;
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
    const delta = angleOf(outer.y.minus(inner.y), outer.x.minus(inner.x));
    return { delta: delta.value * degrees, values: valuesIn('front', after) };
  });
}
