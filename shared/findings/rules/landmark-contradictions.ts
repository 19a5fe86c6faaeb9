import type { Frame } from '../../geometry/frame.ts';
import type { Point } from '../../geometry/point.ts';
import type { Real } from '../../geometry/real.ts';
import type { LandmarkName, View } from '../../notation/landmarks.ts';
import { orderRows, type OrderRow } from './landmark-order-rows.ts';

/** Beyond this many standard deviations the error of placing does not explain what is found. */
export const clearly = 1.96;

/** The rows that the places contradict by more than the placing allows. */
export function contradictions(view: View, frame: Frame): OrderRow[] {
  const rows = orderRows[view].filter(({ needs }) => needs.every((name) => frame.at(name)));
  const { sheet } = frame;
  return sheet.scratch(() => {
    const asPlaced = placeIn(frame);
    const margins = rows.map((row) => row.margin(asPlaced));
    // Two exchanged points may have turned the frame round; what most pairs say is the toe, is the toe.
    const flipX = outvoted('ahead', rows, margins);
    const flipY = outvoted('outside', rows, margins);
    const place = (name: LandmarkName): Point => {
      const { x, y } = asPlaced(name);
      return { x: flipX ? x.negated() : x, y: flipY ? y.negated() : y };
    };
    return rows.filter((row, index) => {
      const margin = flipX || flipY ? row.margin(place) : (margins[index] as Real);
      return margin.value < 0 && margin.value < -clearly * sheet.deviation(margin);
    });
  });
}

function outvoted(sense: OrderRow['sense'], rows: readonly OrderRow[], margins: readonly Real[]): boolean {
  let votes = 0;
  rows.forEach((row, index) => {
    if (row.sense === sense) votes += Math.sign(margins[index]?.value ?? 0);
  });
  return votes < 0;
}

const placeIn =
  (frame: Frame) =>
  (name: LandmarkName): Point => {
    const at = frame.at(name);
    if (!at) throw new Error(`${name} is not placed`);
    return at;
  };
