import { distalPhalanx } from './distal-phalanx.ts';
import { navicularBone } from './navicular-bone.ts';
import { cannonEnd, longPastern, shortPastern } from './pastern-bones.ts';
import type { SceneNode } from '../scene.ts';
import type { DrawingContext } from '../drawing-context.ts';

/** From the top down, so that each bone is drawn over the one it bears on. */
export function drawBones(context: DrawingContext): SceneNode[] {
  const bones = [
    cannonEnd(context),
    longPastern(context),
    shortPastern(context),
    navicularBone(context),
    distalPhalanx(context),
  ];
  return bones.filter((bone) => bone !== null);
}
