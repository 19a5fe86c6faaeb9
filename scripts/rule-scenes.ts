import { readFileSync } from 'node:fs';
import { foot, type LandmarkName } from '../examples/drawn/foot.ts';
import type { FootParameters } from '../examples/drawn/parameters.ts';
import { drawStave } from '../shared/drawing/course/stave.ts';
import type { SceneNode } from '../shared/drawing/scene.ts';
import type { XY } from '../shared/geometry/vector.ts';
import { sceneToSvg } from '../shared/drawing/svg.ts';
import { inspect } from '../shared/findings/inspect.ts';
import { courseSheet } from '../shared/views/course-sheet.ts';
import { staveOf } from '../shared/views/course-stave.ts';
import { boneLength, outsideOnly, past, scaleBone, wallToBone } from './rule-scenes-of-one-film.ts';
import {
  beyond,
  ends,
  HIGH,
  line,
  measured,
  outline,
  placeOf,
  SCALE,
  svg,
  text,
  turnedAbout,
  WIDE,
} from './rule-panels.ts';

/** The small drawings in docs/sinking.md and docs/rules.md, from the drawn feet of the examples, so that every number in them is true of a foot. */
export function ruleDrawings(): Readonly<Record<string, string>> {
  const [sorrelFirst, sorrelLast] = ends('sorrel');
  const [teaselFirst, teaselLast] = ends('teasel');
  return {
    'rule-stance.svg': svg('A foot that only stands flatter', 'Founder distance as filmed and in the capsule', [
      ...panel({ at: { x: 0, y: 0 }, of: sorrelFirst, words: 'As filmed, before the trims', mark: 'standing' }),
      ...panel({ at: { x: WIDE, y: 0 }, of: sorrelLast, words: 'As filmed, heels 7° lower', mark: 'standing' }),
      ...panel({ at: { x: 0, y: HIGH }, of: sorrelFirst, words: 'The same, hairline set to 20°', mark: 'level' }),
      ...panel({ at: { x: WIDE, y: HIGH }, of: sorrelLast, words: 'The same, hairline set to 20°', mark: 'level' }),
    ]),
    'rule-sinking.svg': svg('A bone that sinks', 'Founder distance in the capsule on the first film and the last', [
      ...panel({ at: { x: 0, y: 0 }, of: teaselFirst, words: 'First film', mark: 'level' }),
      ...panel({ at: { x: WIDE, y: 0 }, of: teaselLast, words: 'Sixteen weeks on', mark: 'level' }),
    ]),
    'rule-rotating.svg': svg('A bone that only rotates', 'The bone turned about its extensor process', [
      ...panel({ at: { x: 0, y: 0 }, of: teaselFirst, words: 'Before', mark: 'rotation' }),
      ...panel({ at: { x: WIDE, y: 0 }, of: teaselFirst, words: 'Rotated, not sunk', mark: 'rotation', turned: 8 }),
    ]),
    'rule-creeping.svg': creeping(),
    'rule-clear.svg': clear(),
    'rule-bone-length.svg': boneLength(),
    'rule-scale-bone.svg': scaleBone(),
    'rule-outside-only.svg': outsideOnly(),
    'rule-wall-to-bone.svg': wallToBone(),
    'rule-past.svg': past(),
  };
}

interface Panel {
  readonly at: XY;
  readonly of: FootParameters;
  readonly words: string;
  readonly mark: 'standing' | 'level' | 'rotation';
  /** Degrees by which the bone is turned about its extensor process. */
  readonly turned?: number;
}

function panel({ at, of, words, mark, turned = 0 }: Panel): SceneNode[] {
  const drawn = foot(of);
  const extensor = placeOf(drawn.landmarks, 'p3.extensor');
  const ofBone = (point: XY): XY => turnedAbout(point, extensor, turned);
  const level = (point: XY): XY => turnedAbout(point, extensor, mark === 'standing' ? 0 : 20 - of.coronetAngle);
  const onto = (point: XY): XY => {
    const { x, y } = level(point);
    return { x: at.x + 150 - (x - extensor.x) * SCALE, y: at.y + 98 - (y - extensor.y) * SCALE };
  };
  const named = (name: LandmarkName): XY => {
    const place = placeOf(drawn.landmarks, name);
    return onto(name.startsWith('p3.') ? ofBone(place) : place);
  };
  const heel = placeOf(drawn.landmarks, 'heel.ground');
  const ground = [-14, of.bearingLength + 14].map((by) => onto({ x: heel.x + by, y: 0 })) as [XY, XY];
  return [
    { kind: 'path', segments: outline(drawn.capsule.outlines.hoof.map(onto)), weight: 1.2 },
    { kind: 'path', segments: outline(drawn.bones.outlines.p3.map(ofBone).map(onto)), weight: 1.6 },
    line(ground[0], ground[1], 2.2),
    line(named('coronet.dorsal'), named('coronet.heel'), 1, [5, 3]),
    text({ x: at.x + 14, y: at.y + 22 }, words),
    ...(mark === 'rotation' ? rotationMark(named, of.rotation + turned, at) : depthMark(named, at)),
  ];
}

/** The height between the top of the firm wall and the extensor process, beside the toe. */
function depthMark(named: (name: LandmarkName) => XY, at: XY): SceneNode[] {
  const [top, low] = [named('wall.top'), named('p3.extensor')];
  const x = at.x + 82;
  const mm = (low.y - top.y) / SCALE;
  return [
    ...[top, low].map((end): SceneNode => line(end, { x: x - 5, y: end.y }, 0.8)),
    measured(line({ x, y: top.y }, { x, y: low.y }, 2.4)),
    text({ x: x - 10, y: (top.y + low.y) / 2 + 4 }, `${mm.toFixed(1)} mm`, 'end'),
  ];
}

/** The lines of wall and bone, and the angle between them; the height stays. */
function rotationMark(named: (name: LandmarkName) => XY, degrees: number, at: XY): SceneNode[] {
  const long = (lower: XY, upper: XY): SceneNode =>
    measured(line(beyond(upper, lower, 18), beyond(lower, upper, 26), 1.6));
  return [
    long(named('wall.lower'), named('wall.upper')),
    long(named('p3.dorsal.lower'), named('p3.dorsal.upper')),
    text({ x: at.x + 14, y: at.y + 44 }, `rotation ${degrees.toFixed(0)}°`),
    ...depthMark(named, at),
  ];
}

/** Teasel's course as the program itself draws it: five films, each step within the error, the sum not. */
function creeping(): string {
  const text = readFileSync(new URL('../examples/teasel.hoof', import.meta.url), 'utf8');
  const [only] = courseSheet(inspect(text)).feet;
  if (!only) throw new Error('teasel has no course');
  const rows = only.rows.filter(({ measure }) => measure === 'founder-distance.level');
  const stave = drawStave(staveOf(only, rows, { width: 2 * WIDE, caseName: 'Teasel', alone: true }));
  return sceneToSvg(stave.scene, { standalone: true, width: 2 * WIDE });
}

/** Three pairs of films: what is clear, and the two ways in which a change is not. */
function clear(): string {
  const pairs = [
    { words: ['1.5 mm more:', 'under 2 mm'], from: 4, to: 5.5, sd: 0.3, is: 'within the error' },
    { words: ['2.6 mm more:', 'rough films'], from: 4, to: 6.6, sd: 1.1, is: 'within the error' },
    { words: ['3.4 mm more:', 'beyond both'], from: 4, to: 7.4, sd: 0.7, is: 'clear' },
  ];
  const yOf = (mm: number): number => 180 - mm * 16;
  const nodes = pairs.flatMap(({ words, from, to, sd, is }, index): SceneNode[] => {
    const x = 40 + index * 215;
    const stroke = (value: number, dx: number): SceneNode[] => [
      measured(line({ x: x + dx, y: yOf(value - 1.96 * sd) }, { x: x + dx, y: yOf(value + 1.96 * sd) }, 2.4)),
      line({ x: x + dx - 6, y: yOf(value) }, { x: x + dx + 6, y: yOf(value) }, 1.4),
    ];
    return [
      ...stroke(from, 10),
      ...stroke(to, 60),
      line({ x: x + 18, y: yOf(from) }, { x: x + 52, y: yOf(to) }, 1.2, is === 'clear' ? undefined : [2, 4]),
      ...words.map((one, row) => text({ x: x + 78, y: 66 + row * 18 }, one)),
      text({ x: x + 78, y: 110 }, is),
    ];
  });
  return svg('What is clear', 'Three pairs of films with their errors', nodes);
}
