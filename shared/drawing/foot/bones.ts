import { distalPhalanx } from './distal-phalanx.ts';
import { navicularBone } from './navicular-bone.ts';
import { cannonEnd, longPastern, shortPastern } from './pastern-bones.ts';
import type { SceneNode } from '../scene.ts';
import type { Sheet } from '../sheet.ts';

/** From the top down, so that each bone is drawn over the one it bears on. */
export function drawBones(sheet: Sheet): SceneNode[] {
  const bones = [cannonEnd(sheet), longPastern(sheet), shortPastern(sheet), navicularBone(sheet), distalPhalanx(sheet)];
  return bones.filter((bone) => bone !== null);
}
