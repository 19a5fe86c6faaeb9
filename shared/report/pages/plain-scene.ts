import { bounds, grown, joined } from '../../drawing/bounds.ts';
import type { Scene } from '../../drawing/scene.ts';

/**
 * A drawing without the crosses of its landmarks, which tell where somebody clicked and the owner nothing, and with all of the foot
 * that is laid over it: a plate is as large as its own foot.
 */
export function plainScene(scene: Scene): Scene {
  const layers = scene.layers.filter(({ data }) => data?.layer !== 'landmarks');
  const over = bounds(layers.filter(({ data }) => data?.layer === 'over'));
  return { ...scene, layers, view: over ? joined(scene.view, grown(over, scene.unit)) : scene.view };
}
