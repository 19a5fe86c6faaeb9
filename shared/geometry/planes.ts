import { once } from '../notation/once.ts';
import type { Frame, GroundLine } from './frame.ts';
import { along, clockwise, negated } from './point.ts';

/**
 * What a value is measured to: the plane that the trimmed wall bears on, the ground under it, or neither. `either`: the bearing plane,
 * and where that is not known the ground, for a distance square to them that a wedge of some degrees hardly changes (by its cosine:
 * 1 % at 8°).
 */
export type Plane = 'bearing' | 'either' | 'ground' | 'none';

/** The foot with Y counted from a plane; null where nobody knows where that lies. */
export function onPlane(frame: Frame, plane: Plane): Frame | null {
  if (plane === 'none' || plane === 'either') return frame;
  if (plane === 'bearing') return frame.isOnBearing ? frame : null;
  if (frame.ground === null) return null;
  return frame.ground === 'level' ? frame : onGround(frame, frame.ground);
}

function onGround(frame: Frame, { through, along: line }: GroundLine): Frame {
  const up = negated(clockwise(line));
  const { graph, scale } = frame;
  return {
    graph,
    scale,
    isOnBearing: false,
    ground: 'level',
    names: frame.names,
    at: (name) => {
      const point = frame.at(name);
      return point && { x: along(through, point, line), y: along(through, point, up) };
    },
  };
}

/**
 * The foot as it would stand without what it wears, on its bearing plane: what limits of cuts and plans go by, so that a shod foot
 * is judged as its bare foot is. The frame itself where it is bare; null where the bearing plane is not known.
 */
export function bareFoot(frame: Frame): Frame | null {
  if (!frame.isOnBearing) return null;
  return frame.ground === 'level' ? frame : taken(frame);
}

/** The same one each time, as what is measured on a frame is remembered by it. */
const taken = once((frame: Frame): Frame => ({
  graph: frame.graph,
  scale: frame.scale,
  isOnBearing: true,
  isUnshod: true,
  ground: 'level',
  at: (name) => frame.at(name),
  get names() {
    return frame.names;
  },
}));
