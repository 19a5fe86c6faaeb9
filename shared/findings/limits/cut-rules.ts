import type { Rule } from '../rule.ts';
import { agreedAfterCut } from '../rules/trim-agreed.ts';
import { liveSole } from '../rules/trim-live-sole.ts';
import { palmarAngleAfter } from '../rules/trim-palmar-angle.ts';
import { soleDepthAfter } from '../rules/trim-sole-depth.ts';
import { belowSolePlane } from '../rules/trim-sole-plane.ts';
import { toeShortened } from '../rules/trim-toe-shortened.ts';
import { turnPerVisit } from '../rules/trim-turn-per-visit.ts';
import { wallLeftAtToe } from '../rules/trim-wall-left.ts';

/** The rules that tell where a written cut breaks a limit of cuts: one for each of `shared/trim/cut-limits.ts`, which every plan keeps. */
export const cutRules: readonly Rule[] = [
  belowSolePlane,
  liveSole,
  palmarAngleAfter,
  soleDepthAfter,
  turnPerVisit,
  wallLeftAtToe,
  toeShortened,
  agreedAfterCut,
];
