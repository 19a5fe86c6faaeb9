import type { Frame } from '../../geometry/frame.ts';
import type { Point } from '../../geometry/point.ts';
import type { LandmarkName, View } from '../../notation/landmarks.ts';
import { orderRows, type OrderRow } from './landmark-order-rows.ts';

/** Beyond this many standard deviations the error of placing does not explain what is found. */
export const clearly = 1.96;

/** The rows that the places contradict by more than the placing allows. */
export function contradictions(view: View, frame: Frame): OrderRow[] {
  const rows = orderRows[view].filter(({ needs }) => needs.every((name) => frame.at(name)));
  return frame.sheet.scratch(() => {
    // Two exchanged points may have turned the frame round; what most pairs say is the toe, is the toe.
    const flipX = outvoted('ahead', rows, frame);
    const flipY = outvoted('outside', rows, frame);
    const place = (name: LandmarkName): Point => {
      const { x, y } = placeIn(frame)(name);
      return { x: flipX ? x.negated() : x, y: flipY ? y.negated() : y };
    };
    return rows.filter((row) => {
      const margin = row.margin(place);
      return margin.value < 0 && margin.value < -clearly * frame.sheet.deviation(margin);
    });
  });
}

function outvoted(sense: OrderRow['sense'], rows: readonly OrderRow[], frame: Frame): boolean {
  const votes = rows.filter((row) => row.sense === sense).map((row) => Math.sign(row.margin(placeIn(frame)).value));
  return votes.reduce((sum, vote) => sum + vote, 0) < 0;
}

const placeIn =
  (frame: Frame) =>
  (name: LandmarkName): Point => {
    const at = frame.at(name);
    if (!at) throw new Error(`${name} is not placed`);
    return at;
  };
