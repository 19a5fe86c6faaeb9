import { frameOf, type Frame } from '../geometry/frame.ts';

const contacts = new Set(['heel.ground', 'toe.ground', 'breakover']);

/** The foot after wall of `growth` mm has grown under it, at heel and toe alike: all but its contacts stands higher by it. */
export function grown(frame: Frame, growth: number): Frame {
  const placed = new Map(
    frame.names.flatMap((name) => {
      const point = frame.at(name);
      return point ? [[name, contacts.has(name) ? point : { x: point.x, y: point.y.plus(growth) }] as const] : [];
    }),
  );
  return frameOf(frame.sheet, frame.scale, placed);
}
