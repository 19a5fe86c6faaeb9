import { footFrame, type Frame } from '../../geometry/frame.ts';
import type { Taking } from '../../measures/take.ts';
import type { Film, Placing } from '../../record/schema.ts';

/** The frame that a film would have with other placings: some left out, or two with their names exchanged. */
export function frameWith(placings: readonly Placing[], film: Film, { scale, usualSd }: Taking): Frame | null {
  const spot = ({ x, y }: { x: number; y: number }) => ({ x, y, sd: usualSd });
  return footFrame(film.view, () => ({
    placed: placings.map(({ name, x, y, spread }) => ({ name, x, y, sd: spread ?? usualSd })),
    ground: film.ground && [spot(film.ground.from), spot(film.ground.to)],
    scale: scale === null ? null : { kind: 'pixel', mmPerPx: scale },
    magnify: 1,
  })).frame;
}

export function exchanged(placings: readonly Placing[], one: string, other: string): Placing[] {
  const name = (now: string): string => (now === one ? other : now === other ? one : now);
  return placings.map((placing) => ({ ...placing, name: name(placing.name) }));
}
