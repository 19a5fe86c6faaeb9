import type { MarkedFilm } from './marked-case.ts';
import type { MarkedBearing, MarkedReading } from './marked-reading.ts';

/** Degrees that a line may be turned by, and the share that a scale may be off: from there on all measures go wrong. A judgement of ours. */
const MOST_TURN = 0.5;
const MOST_OTHER_SCALE = 0.01;

export const isTurned = (degrees: number | null): boolean => degrees !== null && Math.abs(degrees) >= MOST_TURN;

export const isOtherScale = (ratio: number | null): boolean =>
  ratio !== null && Math.abs(ratio - 1) >= MOST_OTHER_SCALE;

export const isBearingOff = (bearing: MarkedBearing | null): boolean =>
  bearing !== null && (isTurned(bearing.turned) || Math.abs(bearing.up) > bearing.tolerance);

/** Whether something that the student had to place, to read or to plan is off its key, or is not there. */
export function isOffKey({ marked, values, plans }: MarkedFilm): boolean {
  return !marked || arePlacesOff(marked) || values.some(({ agrees }) => !agrees) || plans?.agrees === false;
}

/** What is measured follows from the places, and is not counted beside them. */
function arePlacesOff({ points, groundTurned, scaleRatio, bearing, unplaced }: MarkedReading): boolean {
  return (
    points.some(({ agrees }) => !agrees) ||
    unplaced.length > 0 ||
    isTurned(groundTurned) ||
    isOtherScale(scaleRatio) ||
    isBearingOff(bearing)
  );
}
