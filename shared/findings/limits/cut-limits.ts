import type { CutLimit } from '../../trim/solve.ts';
import type { CutContext, CutRule } from './cut-rule.ts';
import { liveSole } from '../rules/trim-live-sole.ts';
import { palmarAngleAfter } from '../rules/trim-palmar-angle.ts';
import { soleDepthAfter } from '../rules/trim-sole-depth.ts';
import { belowSolePlane } from '../rules/trim-sole-plane.ts';
import { turnPerVisit } from '../rules/trim-turn-per-visit.ts';
import { wallLeftAtToe } from '../rules/trim-wall-left.ts';

/** Every rule that a plan keeps to, and that tells where a written one does not. */
export const cutRules: readonly CutRule[] = [
  belowSolePlane,
  liveSole,
  palmarAngleAfter,
  soleDepthAfter,
  turnPerVisit,
  wallLeftAtToe,
];

/** `day`: that of the film that a cut is planned on. */
export function limitsOn(foot: string, study: CutContext, day: number | null): CutLimit[] {
  return cutRules.map((rule) => rule.limit(foot, study, day));
}
