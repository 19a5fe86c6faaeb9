import { outside, sayRange } from '../notation/in-range.ts';
import { pixelSize } from '../notation/ranges.ts';
import type { Statement } from '../notation/tree.ts';
import * as read from './arguments.ts';
import type { RecordProblem } from './problems.ts';
import type { Segment } from './schema.ts';

/**
 * What is wrong with a `scale`, `ground` or `bearing` whose pieces are all right, but not together; null where nothing is. Such a line
 * counts for nothing, so that a good one may stand beside it.
 */
export function refused(statement: Statement): RecordProblem | null {
  switch (statement.word) {
    case 'ground':
    case 'bearing': {
      const line = read.segmentOf(statement, 'line');
      return line && pixelsOf(line) === 0
        ? problem(line.at, `The two ends of the ${statement.word} line are the same point; it shows no direction.`)
        : null;
    }
    case 'scale':
      return refusedMarker(statement);
    default:
      return null;
  }
}

function refusedMarker(statement: Statement): RecordProblem | null {
  const length = read.quantityOf(statement, 'known length', 'length');
  const marker = read.segmentOf(statement, 'marker');
  if (!length || !marker) return null;
  const at = read.spanOf(statement);
  const pixels = pixelsOf(marker);
  if (pixels === 0) return problem(at, 'The two ends of the marker are the same point; it gives no scale.');
  const side = outside(length.base / pixels, pixelSize);
  if (side === null) return null;
  const size = side === 'below' ? `smaller than ${pixelSize.low}` : `larger than ${pixelSize.high}`;
  return problem(
    at,
    `By this marker a pixel would be ${size} mm; scales go from ${sayRange(pixelSize)}. Check the length and the two points.`,
  );
}

function problem(at: RecordProblem['at'], message: string): RecordProblem {
  return { code: 'record/scale', at, message, fixes: [] };
}

const pixelsOf = ({ from, to }: Segment): number => Math.hypot(to.x - from.x, to.y - from.y);
