import { SURELY } from '../../course/change.ts';
import type { Frame } from '../../geometry/frame.ts';
import type { Point } from '../../geometry/point.ts';
import type { XY } from '../../geometry/vector.ts';
import type { LandmarkName, View } from '../../notation/landmarks.ts';
import { orderRows, type OrderRow } from './landmark-order-rows.ts';

/** The rows that the places contradict by more than the placing allows. */
export function contradictions(view: View, frame: Frame): OrderRow[] {
  const all = orderRows[view];
  const plain = plainPlaces(frame);
  const margins = all.map((row) => row.plainMargin(plain));
  // Two exchanged points may have turned the frame round; what most pairs say is the toe, is the toe.
  const flipX = outvoted('ahead', all, margins);
  const flipY = outvoted('outside', all, margins);
  const place = (name: LandmarkName): Point => {
    const { x, y } = placeIn(frame, name);
    return { x: flipX ? x.negated() : x, y: flipY ? y.negated() : y };
  };
  const { graph } = frame;
  const isContradicted = (row: OrderRow): boolean =>
    graph.scratch(() => {
      const margin = row.margin(place);
      return margin.value < 0 && margin.value < -SURELY * graph.deviation(margin);
    });
  return all.filter((row, index) => {
    const margin = margins[index] as number;
    if (Number.isNaN(margin)) return false;
    // How surely is only asked of the few that are below 0.
    return (flipX || flipY || margin < 0) && isContradicted(row);
  });
}

function outvoted(sense: OrderRow['sense'], rows: readonly OrderRow[], margins: readonly number[]): boolean {
  let votes = 0;
  for (let index = 0; index < rows.length; index++) {
    const margin = margins[index] as number;
    if (rows[index]?.sense === sense && !Number.isNaN(margin)) votes += Math.sign(margin);
  }
  return votes < 0;
}

const nowhere: XY = { x: NaN, y: NaN };

/** The places of a frame as plain numbers, each looked up once: the rows ask for some of them a dozen times. */
function plainPlaces(frame: Frame): (name: LandmarkName) => XY {
  const places = new Map<string, XY>();
  return (name) => {
    let place = places.get(name);
    if (!place) {
      const at = frame.at(name);
      places.set(name, (place = at ? { x: at.x.value, y: at.y.value } : nowhere));
    }
    return place;
  };
}

function placeIn(frame: Frame, name: LandmarkName): Point {
  const at = frame.at(name);
  if (!at) throw new Error(`${name} is not placed`);
  return at;
}
