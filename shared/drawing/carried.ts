import { ontoImage, type FootAxes } from '../geometry/foot-axes.ts';
import { cross, type XY } from '../geometry/vector.ts';
import type { SceneNode, PathSegment } from './scene.ts';

function carrySegment(carry: (p: XY) => XY, s: PathSegment): PathSegment {
  if (s[0] === 'Z') return s;
  if (s[0] === 'C') {
    const a = carry({ x: s[1], y: s[2] });
    const b = carry({ x: s[3], y: s[4] });
    const c = carry({ x: s[5], y: s[6] });
    return ['C', a.x, a.y, b.x, b.y, c.x, c.y];
  }
  const p = carry({ x: s[1], y: s[2] });
  return [s[0], p.x, p.y];
}

export function nodeOntoImage(axes: FootAxes, node: SceneNode): SceneNode {
  const carry = (p: XY): XY => ontoImage(axes, p);
  switch (node.kind) {
    case 'group':
      return { ...node, children: node.children.map((child) => nodeOntoImage(axes, child)) };
    case 'path':
      return { ...node, segments: node.segments.map((s) => carrySegment(carry, s)) };
    case 'line':
      return { ...node, from: carry(node.from), to: carry(node.to) };
    case 'arc': {
      const at = { x: Math.cos(node.from), y: Math.sin(node.from) };
      const from = Math.atan2(axes.u.y * at.x + axes.v.y * at.y, axes.u.x * at.x + axes.v.x * at.y);
      const flip = Math.sign(cross(axes.u, axes.v));
      return { ...node, centre: carry(node.centre), from, to: from + flip * (node.to - node.from) };
    }
    case 'circle':
      return { ...node, centre: carry(node.centre) };
    case 'dots':
      return { ...node, points: node.points.map(carry) };
    case 'text':
      return { ...node, at: carry(node.at) };
    case 'image':
      return node;
  }
}
