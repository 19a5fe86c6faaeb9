import type { Frame } from '../geometry/frame.ts';
import { degrees } from '../geometry/point.ts';
import type { Real } from '../geometry/real.ts';
import { findMeasure } from '../measures/registry.ts';
import { valuesIn, type Value, type Values } from '../measures/take.ts';
import { stand, usualModel, type CutSize, type SoleCut, type Stood, type TrimModel } from './stand.ts';

export interface Prediction {
  /** Degrees that the foot turns: positive where the heel is lowered more. */
  readonly delta: number;
  readonly values: Values;
  /** Live sole taken at each place, mm; null where its landmark is not placed. */
  readonly soleCut: SoleCut;
  /** One standard deviation of each, mm; 0 where nothing is cut. */
  readonly soleCutSd: Stood['soleCutSd'];
  /** Horn and lamellae left at the toe after it is brought back, mm. */
  readonly wallLeft: number | null;
  readonly wallLeftSd: number | null;
}

/**
 * What a cut would leave: the foot stands on the new line from heel to toe and is measured anew in its frame, so
 * every measure that the film supports is predicted, with its standard deviation. Null where the film has no scale or
 * no bearing surface. A cut of nothing predicts what was measured.
 */
export function predict(frame: Frame, cut: CutSize, model: TrimModel = usualModel): Prediction | null {
  return frame.sheet.scratch(() => {
    const stood = stand(frame, cut, model);
    if (!stood) return null;
    const values = new Map(valuesIn('lateral', stood.frame));
    correctHeelAngle(frame, stood.delta, values);
    return {
      delta: stood.delta.value * degrees,
      values,
      soleCut: stood.soleCut,
      soleCutSd: stood.soleCutSd,
      ...wallLeft(frame, cut),
    };
  });
}

/** The heel wall itself is not bent by a cut: its angle falls by the turn, wherever the cut now ends it. */
function correctHeelAngle(frame: Frame, delta: Real, values: Map<string, Value>): void {
  const heelAngle = findMeasure('heel-angle');
  const wallAngle = findMeasure('wall-angle');
  const heel = heelAngle?.of(frame)?.value.minus(delta.times(degrees));
  if (!heel || !heelAngle) return;
  values.set('heel-angle', { measure: heelAngle, value: heel.value, unit: 'deg', sd: frame.sheet.deviation(heel) });
  const wall = wallAngle?.of(frame)?.value.minus(delta.times(degrees));
  const difference = findMeasure('toe-heel-difference');
  if (!wall || !difference) return;
  const between = wall.minus(heel);
  values.set('toe-heel-difference', {
    measure: difference,
    value: between.value,
    unit: 'deg',
    sd: frame.sheet.deviation(between),
  });
}

function wallLeft(frame: Frame, cut: CutSize): { wallLeft: number | null; wallLeftSd: number | null } {
  const thickness = findMeasure('horn-lamellar.lower')?.of(frame)?.value;
  const angle = findMeasure('wall-angle')?.of(frame)?.value;
  if (!thickness || !angle) return { wallLeft: null, wallLeftSd: null };
  const left = thickness.minus(
    angle
      .times(1 / degrees)
      .sine()
      .times(cut.toeBack),
  );
  return { wallLeft: left.value, wallLeftSd: frame.sheet.deviation(left) };
}
