import type { FootInput } from '../../../shared/geometry/foot-input.ts';
import type { XY } from '../../../shared/geometry/vector.ts';
import { t } from '../../../shared/language/words.ts';
import type { PicturedFoot } from '../../../shared/proposals/film-pair.ts';
import { proposedFrom, type Proposed } from '../../../shared/proposals/from-film-before.ts';
import { proposedTypical } from '../../../shared/proposals/from-typical-foot.ts';

/**
 * What is proposed on the new film: from the film before or, without one, by a typical foot. All places are as the page counts them:
 * the middle of the first pixel lies at 0.5, 0.5, where what searches a picture has it at 0, 0. Whatever goes wrong ends in a
 * sentence: placing goes on without proposals.
 */
export function answerTo(before: PicturedFoot | null, now: PicturedFoot): Proposed {
  try {
    const proposed = before ? proposedFrom(searched(before), searched(now)) : proposedTypical(searched(now));
    if ('says' in proposed) return proposed;
    return { proposals: proposed.proposals.map((one) => ({ ...one, at: moved(one.at, 0.5) })) };
  } catch {
    return { says: t('The pictures could not be compared, so nothing is proposed. Place by eye.') };
  }
}

const moved = ({ x, y }: XY, by: number): XY => ({ x: x + by, y: y + by });
const line = (ends: readonly [XY, XY] | null, by: number): readonly [XY, XY] | null =>
  ends && [moved(ends[0], by), moved(ends[1], by)];

function searched({ foot, picture }: PicturedFoot): PicturedFoot {
  const by = -0.5;
  const placed: FootInput = {
    ...foot,
    landmarks: foot.landmarks.map((one) => ({ ...one, ...moved(one, by) })),
    ground: line(foot.ground, by),
    bearing: line(foot.bearing, by),
  };
  return { foot: placed, picture };
}
