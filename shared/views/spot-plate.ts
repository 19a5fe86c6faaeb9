import { t } from '../language/words.ts';
import type { XY } from '../geometry/vector.ts';
import { drawPlate } from '../drawing/plate/plate.ts';
import { SAMPLE_FOOT, SAMPLE_GROUND } from '../drawing/foot/sample-foot.ts';
import { sampleFront, sampleSole, SAMPLE_FRONT, SAMPLE_SOLE } from '../drawing/foot/sample-views.ts';
import { group, type Box, type GroupNode, type Scene, type SceneNode } from '../drawing/scene.ts';
import { sceneToSvg } from '../drawing/svg.ts';
import type { View } from '../notation/landmarks.ts';

/** A foot of no horse with one place marked on it, as two SVG texts: the whole of it, and the place from near. */
export interface SpotPlate {
  readonly whole: string;
  readonly near: string;
}

/** Ten units a millimetre, as the sample foot is drawn. */
const UNIT = 10;
const NEAR = 44 * UNIT;

/** Places that the sample foot is drawn without. */
const besides: ReadonlyMap<string, XY> = new Map([
  ['wall.turn', { x: 560, y: 1290 }],
  ['p3.wing.other', { x: 1262, y: 1422 }],
]);
const marker: readonly [XY, XY] = [
  { x: -20, y: 1660 },
  { x: -20, y: 900 },
];

const made = new Map<string, SpotPlate>();

/** `key` as in a step; `toeRight`: mirrored, for a film on which the toe points to the right. */
export function spotPlate(view: View, key: string, toeRight: boolean): SpotPlate {
  const name = [view, key, toeRight].join(' ');
  const plate = made.get(name) ?? draw(view, key, toeRight && view === 'lateral');
  made.set(name, plate);
  return plate;
}

function draw(view: View, key: string, toeRight: boolean): SpotPlate {
  const turned = (p: XY): XY => (toeRight ? { x: 1400 - p.x, y: p.y } : p);
  const spots = spotsOf(view, key).map(turned);
  const scene =
    view === 'lateral' ? lateral(key, turned) : view === 'front' ? plain(sampleFront()) : plain(sampleSole());
  const [first] = spots;
  const middle = first ?? centre(scene.view);
  const line: SceneNode[] =
    spots.length > 1 && spots[0] && spots[1]
      ? [{ kind: 'line', from: spots[0], to: spots[1], weight: 7, classes: ['spot-line'] }]
      : [];
  const marked = (size: number): Scene => ({
    ...scene,
    layers: [...scene.layers, group(['spot-marks'], [...line, ...spots.flatMap((p) => mark(p, size))])],
  });
  return {
    whole: sceneToSvg(marked(1.9)),
    near: sceneToSvg({
      ...marked(0.62),
      view: { x: middle.x - NEAR / 2, y: middle.y - NEAR / 2, width: NEAR, height: NEAR },
    }),
  };
}

function spotsOf(view: View, key: string): readonly XY[] {
  if (key === 'ground')
    return view === 'front'
      ? [
          { x: 60, y: 1500 },
          { x: 1340, y: 1500 },
        ]
      : SAMPLE_GROUND;
  if (key === 'bearing' && view === 'front')
    return [
      { x: 60, y: 1400 },
      { x: 1340, y: 1400 },
    ];
  if (key === 'bearing')
    return [SAMPLE_FOOT.get('heel.ground'), SAMPLE_FOOT.get('toe.ground')].flatMap((at) => at ?? []);
  if (key === 'scale') return view === 'lateral' ? marker : [];
  const places = view === 'lateral' ? SAMPLE_FOOT : view === 'front' ? SAMPLE_FRONT : SAMPLE_SOLE;
  const place = places.get(key) ?? besides.get(key);
  return place ? [place] : [];
}

function lateral(key: string, turned: (p: XY) => XY): Scene {
  const scene = drawPlate({
    foot: 'LF',
    view: 'lateral',
    placed: new Map([...SAMPLE_FOOT].map(([name, p]) => [name, turned(p)])),
    ground: [turned(SAMPLE_GROUND[0]), turned(SAMPLE_GROUND[1])],
    marker: key === 'scale' ? [turned(marker[0]), turned(marker[1])] : null,
    scale: 1 / UNIT,
    picture: null,
    labels: [],
  });
  return {
    ...scene,
    title: t('Where it lies'),
    description: t('A foot with the place marked'),
    layers: scene.layers.filter((layer) => layer.data?.layer !== 'landmarks'),
  };
}

function plain(nodes: readonly GroupNode[]): Scene {
  return {
    view: { x: -40, y: 80, width: 1480, height: 1520 },
    title: t('Where it lies'),
    description: t('A foot with the place marked'),
    unit: UNIT,
    onPicture: false,
    ghost: false,
    labelBoxes: [],
    cutBoxes: [],
    layers: nodes,
  };
}

/** A ring, and a point at the very place. */
function mark(at: XY, size: number): SceneNode[] {
  return [
    { kind: 'circle', centre: at, radius: 40 * size, weight: 9 * size, classes: ['spot-ring'], halo: 'always' },
    { kind: 'circle', centre: at, radius: 9 * size, classes: ['spot-point'] },
  ];
}

const centre = ({ x, y, width, height }: Box): XY => ({ x: x + width / 2, y: y + height / 2 });
