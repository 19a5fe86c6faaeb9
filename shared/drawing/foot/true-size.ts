import { t } from '../../language/words.ts';
import type { XY } from '../../geometry/vector.ts';
import { bounds, grown } from '../bounds.ts';
import { drawFoot } from '../plate/plate.ts';
import { group, type Scene, type SceneNode } from '../scene.ts';

/** The outline of a foot as large as it is: a unit of the scene is 1 mm. */
export interface TrueSizeInput {
  /** Landmarks in the foot's own frame, mm: X to the toe, Y up from what the wall bears on. */
  readonly places: ReadonlyMap<string, XY>;
  /** Which way the toe points on the page. */
  readonly toe: 'left' | 'right';
  /** The line to draw on the hoof, from heel to toe, in the same frame; null for none. */
  readonly line: readonly XY[] | null;
  /** mm above the ground up to which the foot is drawn; null for all of it. */
  readonly upTo: number | null;
  /** What is written at its marks, from the heel to the toe. */
  readonly marks: readonly { readonly at: XY; readonly text: string }[];
  readonly title: string;
  readonly description: string;
}

/** mm. */
export const barLength = 100;
const lettering = 3.4;
const wordsOfBar = 22;

/** Null where too little is placed for an outline: the contacts, the hairline and the wall between them. */
export function drawTrueSize({ places, toe, line, upTo, marks, title, description }: TrueSizeInput): Scene | null {
  if (['coronet.dorsal', 'coronet.heel', 'toe.ground', 'heel.ground'].some((name) => !places.has(name))) return null;
  const way = toe === 'right' ? 1 : -1;
  const onPage = ({ x, y }: XY): XY => ({ x: way * x, y: -y });
  const placed = new Map([...places].map(([name, place]) => [name, onPage(place)]));
  const [heel, front] = [placed.get('heel.ground'), placed.get('toe.ground')];
  if (!heel || !front) return null;
  const drawn = drawFoot({
    places: placed,
    ground: [
      { x: heel.x, y: 0 },
      { x: front.x, y: 0 },
    ],
    unit: 1,
    onPicture: false,
    cut: null,
    bare: true,
  });
  const capsule = drawn.layers.capsule ?? [];
  const box = bounds(capsule);
  if (!box) return null;
  const left = box.x;
  const ground: SceneNode = {
    kind: 'line',
    from: { x: box.x - 2, y: 0 },
    to: { x: box.x + box.width + 2, y: 0 },
    weight: 0.35,
    classes: ['ground-line'],
  };
  const pen: SceneNode[] =
    line === null
      ? []
      : [
          {
            kind: 'path',
            segments: line.map(onPage).map(({ x, y }, index) => [index === 0 ? 'M' : 'L', x, y] as const),
            weight: 0.45,
            classes: ['pen-line'],
            data: { part: 'pen' },
          },
        ];
  const words = marks.flatMap(({ at, text }, index): SceneNode[] => {
    const from = onPage(at);
    const anchor =
      marks.length > 1 && index === 0 ? outer(way, 'heel') : index === marks.length - 1 ? outer(way, 'toe') : 'middle';
    return [
      { kind: 'line', from, to: { x: from.x, y: 4 }, weight: 0.25, classes: ['mark'] },
      {
        kind: 'text',
        at: { x: from.x, y: 4 + lettering },
        size: lettering,
        anchor,
        runs: [{ text }],
        classes: ['mark-words'],
      },
    ];
  });
  const barY = marks.length > 0 ? 13 : 7;
  const bar: SceneNode[] = [
    {
      kind: 'line',
      from: { x: left, y: barY },
      to: { x: left + barLength, y: barY },
      weight: 0.6,
      classes: ['bar'],
      data: { part: 'bar' },
    },
    ...[0, 50, barLength].map((at): SceneNode => ({
      kind: 'line',
      from: { x: left + at, y: barY - 2 },
      to: { x: left + at, y: barY + 2 },
      weight: 0.35,
    })),
    {
      kind: 'text',
      at: { x: left + barLength + 2.5, y: barY + 1.2 },
      size: lettering,
      anchor: 'start',
      runs: [{ text: t('{0} mm', barLength) }],
    },
  ];
  const all = grown(bounds([...capsule, ground, ...pen, ...words, ...bar]) ?? box, 1);
  const top = upTo === null ? all.y : Math.max(all.y, -upTo);
  const view = { ...all, y: top, height: all.y + all.height - top };
  return {
    // The words of the bar stand beyond its end.
    view: { ...view, width: Math.max(view.width, barLength + wordsOfBar), height: view.height + 1 },
    title,
    description,
    unit: 1,
    onPicture: false,
    ghost: false,
    layers: [
      group(['layer-capsule'], capsule, { layer: 'capsule' }),
      group(['layer-ground'], [ground, ...bar], { layer: 'ground' }),
      group(['layer-cut'], [...pen, ...words], { layer: 'cut' }),
    ],
    labelBoxes: [],
    cutBoxes: [],
  };
}

/** Words at an end run inwards, so that they stay on the sheet. */
function outer(way: number, end: 'heel' | 'toe'): 'start' | 'end' {
  return way > 0 === (end === 'heel') ? 'start' : 'end';
}
