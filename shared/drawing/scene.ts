import type { XY } from '../geometry/vector.ts';

/**
 * A drawing as plain data: no page, no SVG, no colour. What a thing is stands in its classes and data, so a test
 * can look for it, the page can find what lies under the cursor, and two scenes can be moved into one another.
 */

export type PathSegment =
  | readonly ['M', number, number]
  | readonly ['L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z'];

export const LAYERS = [
  'picture',
  'capsule',
  'soft',
  'bones',
  'over',
  'ground',
  'cut',
  'measures',
  'landmarks',
] as const;
export type LayerName = (typeof LAYERS)[number];

export interface NodeData {
  readonly layer?: LayerName;
  readonly landmark?: string;
  readonly measure?: string;
  readonly part?: string;
}

interface Base {
  readonly classes?: readonly string[];
  readonly data?: NodeData;
  /** Shown by the viewer when the pointer rests on the node. */
  readonly title?: string;
}

interface Stroked extends Base {
  /** Line weight in the scene's own coordinates; absent means the node is not stroked. */
  readonly weight?: number;
  readonly dash?: readonly number[];
  /** A second, wider stroke of the opposite tone beneath the line: over a film only, or over the ink of the foot too. */
  readonly halo?: 'film' | 'always';
}

export interface GroupNode extends Base {
  readonly kind: 'group';
  readonly children: readonly SceneNode[];
}

export interface PathNode extends Stroked {
  readonly kind: 'path';
  readonly segments: readonly PathSegment[];
}

export interface LineNode extends Stroked {
  readonly kind: 'line';
  readonly from: XY;
  readonly to: XY;
}

/** Angles in radians as atan2(y, x) in the scene's own axes; it runs from `from` to `to`, either way round. */
export interface ArcNode extends Stroked {
  readonly kind: 'arc';
  readonly centre: XY;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
}

export interface CircleNode extends Stroked {
  readonly kind: 'circle';
  readonly centre: XY;
  readonly radius: number;
}

/** Round dots of one size: stippling. */
export interface DotsNode extends Base {
  readonly kind: 'dots';
  readonly points: readonly XY[];
  readonly size: number;
}

export interface TextRun {
  readonly text: string;
  readonly classes?: readonly string[];
}

export interface TextNode extends Base {
  readonly kind: 'text';
  readonly at: XY;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly runs: readonly TextRun[];
}

export interface ImageNode extends Base {
  readonly kind: 'image';
  readonly href: string;
  readonly box: Box;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type SceneNode = GroupNode | PathNode | LineNode | ArcNode | CircleNode | DotsNode | TextNode | ImageNode;

/** The block a label takes up in the margin, kept so that a test can prove that no two meet. */
export interface LabelBox extends Box {
  readonly measure: string;
  readonly side: 'left' | 'right';
}

export interface Scene {
  readonly view: Box;
  readonly title: string;
  readonly description: string;
  /** The length one millimetre of this foot takes, near enough to choose line weights by. */
  readonly unit: number;
  readonly onPicture: boolean;
  /** A foot that stands for none, drawn faintly behind the sentence of an empty plate. */
  readonly ghost: boolean;
  readonly layers: readonly GroupNode[];
  /** How it is inked where it is no plate: rules beside those of `ink.css.ts`, with its words after @. */
  readonly rules?: string;
  readonly labelBoxes: readonly LabelBox[];
  /** What the lettering of a cut takes up. */
  readonly cutBoxes: readonly Box[];
}

export function group(classes: readonly string[], children: readonly SceneNode[], data?: NodeData): GroupNode {
  return data === undefined ? { kind: 'group', classes, children } : { kind: 'group', classes, children, data };
}
