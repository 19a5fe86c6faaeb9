import { coronet } from './coronet.ts';
import { quarter } from './quarter.ts';
import type { SceneNode } from '../scene.ts';
import type { DrawingContext } from '../drawing-context.ts';
import { sole } from './sole.ts';
import { dorsalHorn, heelHorn } from './wall.ts';

export function drawCapsule(context: DrawingContext): SceneNode[] {
  const parts = [quarter(context), sole(context), dorsalHorn(context), heelHorn(context), coronet(context)];
  return parts.filter((part) => part !== null);
}
