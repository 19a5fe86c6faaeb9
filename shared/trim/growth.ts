import { withPlaces, type Frame } from '../geometry/frame.ts';
import { lateralLandmark } from '../notation/landmarks.ts';

/** The foot after wall of `growth` mm has grown under it, at heel and toe alike: all but its contacts stands higher by it. */
export function grown(frame: Frame, growth: number): Frame {
  const placed = new Map(
    frame.names.flatMap((name) => {
      const point = frame.at(name);
      if (!point) return [];
      const stays = lateralLandmark(name)?.underGrowth === 'stays';
      return [[name, stays ? point : { x: point.x, y: point.y.plus(growth) }] as const];
    }),
  );
  return withPlaces(frame, { at: (name) => placed.get(name), names: [...placed.keys()] });
}
