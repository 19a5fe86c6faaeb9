import type { SceneNode } from './scene.ts';

/** False for a node that holds a number no viewer could draw; a wild landmark may cost a line, not the plate. */
export function isDrawable(node: SceneNode): boolean {
  const ok = (...values: number[]): boolean => values.every((value) => Number.isFinite(value));
  switch (node.kind) {
    case 'group':
      return true;
    case 'path':
      return node.segments.length > 1 && node.segments.every((s) => ok(...(s.slice(1) as number[])));
    case 'line':
      return ok(node.from.x, node.from.y, node.to.x, node.to.y);
    case 'arc':
      return ok(node.centre.x, node.centre.y, node.radius, node.from, node.to);
    case 'circle':
      return ok(node.centre.x, node.centre.y, node.radius);
    case 'dots':
      return node.points.length > 0 && node.points.every((p) => ok(p.x, p.y));
    case 'text':
      return ok(node.at.x, node.at.y, node.size);
    case 'image':
      return ok(node.box.x, node.box.y, node.box.width, node.box.height);
  }
}

export function sound(nodes: readonly SceneNode[]): SceneNode[] {
  return nodes.flatMap((node): SceneNode[] => {
    if (!isDrawable(node)) return [];
    return node.kind === 'group' ? [{ ...node, children: sound(node.children) }] : [node];
  });
}
