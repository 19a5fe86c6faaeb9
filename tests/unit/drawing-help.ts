import type { XY } from '../../shared/geometry/vector.ts';
import { SAMPLE_FOOT, SAMPLE_GROUND } from '../../shared/drawing/foot/sample-foot.ts';
import { DRAWN } from '../../shared/drawing/plate/measures-drawn.ts';
import type { PlateInput } from '../../shared/drawing/plate/plate.ts';
import type { PlateLabel } from '../../shared/drawing/plate/plate-label.ts';
import type { SceneNode } from '../../shared/drawing/scene.ts';

export const STATES = ['within', 'low', 'high', 'act', 'unsure', 'none'] as const;

export function label(measure: string, i = 0): PlateLabel {
  return {
    measure,
    words: measure.replaceAll('-', ' '),
    text: `${(i * 1.7 + 3).toFixed(1)}° ± 0.6`,
    value: i * 1.7 + 3,
    unit: 'deg',
    band: i % 3 === 0 ? null : { low: 2, high: i % 3 === 1 ? 8 : null },
    state: STATES[i % STATES.length] ?? 'none',
    error: 0.6,
  };
}

export const EVERY_LABEL: PlateLabel[] = [...DRAWN.keys()].map(label);

export const PICTURE = { href: 'films/foot.png', width: 2000, height: 1900 };

export function foot(change: Partial<PlateInput> = {}): PlateInput {
  return {
    foot: 'LF',
    view: 'lateral',
    placed: SAMPLE_FOOT,
    ground: SAMPLE_GROUND,
    marker: [
      { x: 120, y: 500 },
      { x: 120, y: 1500 },
    ],
    scale: 0.1,
    picture: null,
    labels: EVERY_LABEL,
    ...change,
  };
}

/** Every number a node is drawn by, in order; an arc by its centre and ends, which do not depend on how angles count. */
export function places(node: SceneNode): XY[] {
  switch (node.kind) {
    case 'group':
      return node.children.flatMap(places);
    case 'path':
      return node.segments.flatMap((s) => {
        const points: XY[] = [];
        for (let i = 1; i + 1 < s.length; i += 2) points.push({ x: s[i] as number, y: s[i + 1] as number });
        return points;
      });
    case 'line':
      return [node.from, node.to];
    case 'arc':
      return [
        node.centre,
        ...[node.from, node.to].map((a) => ({
          x: node.centre.x + node.radius * Math.cos(a),
          y: node.centre.y + node.radius * Math.sin(a),
        })),
      ];
    case 'circle':
      return [node.centre];
    case 'dots':
      return [...node.points];
    case 'text':
      return [node.at];
    case 'image':
      return [node.box, { x: node.box.width, y: node.box.height }];
  }
}

export function nodes(node: SceneNode): SceneNode[] {
  return node.kind === 'group' ? [node, ...node.children.flatMap(nodes)] : [node];
}

/** A plain reader of XML, strict where it counts: nesting, quoting, entities, characters. Returns the element names. */
export function readXml(text: string): string[] {
  const names: string[] = [];
  const open: string[] = [];
  const tag = /<(\/?)([A-Za-z][\w:.-]*)((?:\s+[\w:.-]+="[^"<]*")*)\s*(\/?)>/y;
  const sound = (part: string): void => {
    if (/&(?!(amp|lt|gt|quot|#39);)/.test(part)) throw new Error(`loose ampersand: ${part.slice(0, 60)}`);
    for (const letter of part) {
      const code = letter.codePointAt(0) ?? 0;
      if ((code < 32 && ![9, 10, 13].includes(code)) || (code >= 0xd800 && code <= 0xdfff)) {
        throw new Error(`character ${code} cannot stand in XML`);
      }
    }
  };
  let at = 0;
  while (at < text.length) {
    const next = text.indexOf('<', at);
    const between = text.slice(at, next < 0 ? text.length : next);
    if (between.includes('>')) throw new Error(`loose angle bracket: ${between.slice(0, 60)}`);
    sound(between);
    if (next < 0) break;
    tag.lastIndex = next;
    const found = tag.exec(text);
    if (!found) throw new Error(`not a tag: ${text.slice(next, next + 80)}`);
    const [whole, closing, name = '', attributes = '', single] = found;
    sound(attributes);
    const seen = [...attributes.matchAll(/([\w:.-]+)=/g)].map((m) => m[1]);
    if (new Set(seen).size !== seen.length) throw new Error(`attribute twice: ${whole}`);
    if (closing) {
      if (open.pop() !== name) throw new Error(`closes ${name} out of turn`);
    } else {
      names.push(name);
      if (!single) open.push(name);
    }
    at = next + whole.length;
  }
  if (open.length > 0) throw new Error(`never closed: ${open.join(', ')}`);
  return names;
}
