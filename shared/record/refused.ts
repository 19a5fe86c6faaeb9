import { t } from '../language/words.ts';
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
        ? problem(line.at, t('The two ends of the {0} line are the same point; it shows no direction.', statement.word))
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
  if (pixels === 0) return problem(at, t('The two ends of the marker are the same point; it gives no scale.'));
  const side = outside(length.base / pixels, pixelSize);
  if (side === null) return null;
  const size = side === 'below' ? t('smaller than {0}', pixelSize.low) : t('larger than {0}', pixelSize.high);
  return problem(
    at,
    t(
      'By this marker a pixel would be {0} mm; scales go from {1}. Check the length and the two points.',
      size,
      sayRange(pixelSize),
    ),
  );
}

function problem(at: RecordProblem['at'], message: string): RecordProblem {
  return { code: 'record/scale', at, message, fixes: [] };
}

const pixelsOf = ({ from, to }: Segment): number => Math.hypot(to.x - from.x, to.y - from.y);
