import { coronet } from './coronet.ts';
import { quarter } from './quarter.ts';
import type { SceneNode } from '../scene.ts';
import type { Sheet } from '../sheet.ts';
import { sole } from './sole.ts';
import { dorsalHorn, heelHorn } from './wall.ts';

export function drawCapsule(sheet: Sheet): SceneNode[] {
  const parts = [quarter(sheet), sole(sheet), dorsalHorn(sheet), heelHorn(sheet), coronet(sheet)];
  return parts.filter((part) => part !== null);
}
