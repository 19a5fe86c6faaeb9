import type { Box, SceneNode } from './scene.ts';

/** The box round everything drawn; lettering counts by its place only. */
export function bounds(nodes: readonly SceneNode[]): Box | null {
  let left = Infinity;
  let top = Infinity;
  let right = -Infinity;
  let bottom = -Infinity;
  const take = (x: number, y: number): void => {
    if (!Number.isFinite(x) || !Number.isFinite(y)) return;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  };
  const walk = (node: SceneNode): void => {
    switch (node.kind) {
      case 'group':
        node.children.forEach(walk);
        break;
      case 'path':
        for (const s of node.segments) {
          for (let i = 1; i + 1 < s.length; i += 2) take(s[i] as number, s[i + 1] as number);
        }
        break;
      case 'line':
        take(node.from.x, node.from.y);
        take(node.to.x, node.to.y);
        break;
      case 'arc':
      case 'circle':
        take(node.centre.x - node.radius, node.centre.y - node.radius);
        take(node.centre.x + node.radius, node.centre.y + node.radius);
        break;
      case 'dots':
        node.points.forEach((p) => take(p.x, p.y));
        break;
      case 'text':
        take(node.at.x, node.at.y);
        break;
      case 'image':
        take(node.box.x, node.box.y);
        take(node.box.x + node.box.width, node.box.y + node.box.height);
        break;
    }
  };
  nodes.forEach(walk);
  return right >= left && bottom >= top ? { x: left, y: top, width: right - left, height: bottom - top } : null;
}

export function grown(box: Box, by: number): Box {
  return { x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by };
}

export function joined(a: Box, b: Box): Box {
  const x = Math.min(a.x, b.x);
  const y = Math.min(a.y, b.y);
  return {
    x,
    y,
    width: Math.max(a.x + a.width, b.x + b.width) - x,
    height: Math.max(a.y + a.height, b.y + b.height) - y,
  };
}
