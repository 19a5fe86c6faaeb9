import type { Scene } from '../../drawing/scene.ts';

/** A drawing without the crosses of its landmarks: they tell where somebody clicked, and the owner nothing. */
export function withoutMarks(scene: Scene): Scene {
  return { ...scene, layers: scene.layers.filter(({ data }) => data?.layer !== 'landmarks') };
}
