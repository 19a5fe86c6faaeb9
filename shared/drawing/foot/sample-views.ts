import type { XY } from '../../geometry/vector.ts';
import { corner, flatten, smooth, type Knot } from '../curve.ts';
import { hatchBetween, type Tone } from '../hatch.ts';
import { group, type GroupNode, type SceneNode, type PathSegment } from '../scene.ts';

/** The sample foot from the front and from below, only to show where a place lies: outlines and a few strokes, ten units a millimetre. */

const at = (x: number, y: number): XY => ({ x, y });

/** The inner side lies to the left. */
export const SAMPLE_FRONT: ReadonlyMap<string, XY> = new Map([
  ['p3.medial', at(385, 1190)],
  ['p3.lateral', at(1015, 1190)],
  ['joint.medial', at(500, 905)],
  ['joint.lateral', at(900, 905)],
  ['coronet.medial', at(312, 860)],
  ['coronet.lateral', at(1088, 860)],
  ['wall.medial', at(175, 1500)],
  ['wall.lateral', at(1225, 1500)],
]);

export const SAMPLE_SOLE: ReadonlyMap<string, XY> = new Map([
  ['toe', at(700, 150)],
  ['frog.apex', at(700, 590)],
  ['frog.base', at(700, 1290)],
  ['frog.medial', at(510, 1210)],
  ['frog.lateral', at(890, 1210)],
  ['heel.medial', at(360, 1370)],
  ['heel.lateral', at(1040, 1370)],
  ['wide.medial', at(118, 770)],
  ['wide.lateral', at(1282, 770)],
  ['bar.medial', at(565, 880)],
  ['bar.lateral', at(835, 880)],
]);

export function sampleFront(): GroupNode[] {
  const wall = [corner(at(312, 860)), corner(at(175, 1500)), corner(at(1225, 1500)), corner(at(1088, 860))];
  const hairline = [at(312, 860), at(500, 815), at(700, 800), at(900, 815), at(1088, 860)];
  const bone = [
    corner(at(385, 1190)),
    at(420, 1020),
    corner(at(490, 925)),
    at(600, 940),
    at(700, 915),
    at(800, 940),
    corner(at(910, 925)),
    at(980, 1020),
    corner(at(1015, 1190)),
    at(860, 1232),
    at(700, 1245),
    at(540, 1232),
  ];
  const pastern = [
    at(520, 400),
    at(545, 620),
    at(500, 780),
    corner(at(500, 885)),
    at(600, 905),
    at(700, 880),
    at(800, 905),
    corner(at(900, 885)),
    at(900, 780),
    at(855, 620),
    at(880, 400),
  ];
  const skin = (side: 1 | -1): XY[] =>
    [at(388, 860), at(330, 640), at(352, 330)].map(({ x, y }) => at(700 + side * (x - 700), y));
  return [
    group(
      ['layer-bones'],
      [
        ...form(
          pastern,
          false,
          [at(540, 420), at(555, 640), at(530, 850)],
          [at(860, 420), at(845, 640), at(870, 850)],
          15,
        ),
        ...form(bone, true, [at(430, 1030), at(415, 1180)], [at(970, 1030), at(985, 1180)], 26),
      ],
    ),
    group(
      ['layer-capsule'],
      [
        pen(smooth(wall, false), 6),
        pen(smooth(hairline, false), 4),
        pen(smooth(skin(1), false), 4),
        pen(smooth(skin(-1), false), 4),
      ],
    ),
    group(
      ['layer-ground'],
      [{ kind: 'line', from: at(60, 1508), to: at(1340, 1508), weight: 15, classes: ['ground-line'] }],
    ),
  ];
}

export function sampleSole(): GroupNode[] {
  const mirrored = (points: readonly Knot[]): Knot[] =>
    [...points].reverse().map((knot) => ({ ...knot, x: 1400 - knot.x }));
  const half: Knot[] = [at(1010, 1400), at(1140, 1330), at(1250, 1080), at(1282, 770), at(1210, 480), at(1000, 240)];
  const wall = [corner(at(920, 1330)), ...half, at(700, 150), ...mirrored(half), corner(at(480, 1330))];
  const inner: Knot[] = [at(1105, 1230), at(1190, 1040), at(1212, 770), at(1150, 520), at(970, 310)];
  const white = [...inner, at(700, 228), ...mirrored(inner)];
  const bar: Knot[] = [at(1000, 1375), at(905, 1150), at(835, 880)];
  const frog = [
    at(700, 590),
    at(770, 780),
    at(850, 1040),
    at(890, 1210),
    at(820, 1330),
    corner(at(700, 1290)),
    at(580, 1330),
    at(510, 1210),
    at(550, 1040),
    at(630, 780),
  ];
  const tone: Tone = (across) => 0.5 - 0.35 * Math.abs(across - 0.5);
  return [
    group(
      ['layer-capsule'],
      [
        pen(smooth(wall, false), 7),
        pen(smooth(white, false), 3),
        pen(smooth(bar, false), 5),
        pen(smooth(mirrored(bar), false), 5),
        pen(smooth(frog, true), 5.5),
        pen(smooth([at(700, 1010), at(690, 1120), at(700, 1270)], false), 4),
        {
          kind: 'path',
          classes: ['horn'],
          segments: hatchBetween(
            [at(690, 660), at(590, 1000), at(560, 1230)],
            [at(710, 660), at(810, 1000), at(840, 1230)],
            9,
            5,
            tone,
          ),
        },
      ],
    ),
  ];
}

/** A bone: its outline, and hatching between two of its sides. */
function form(
  outline: readonly Knot[],
  closed: boolean,
  one: readonly XY[],
  other: readonly XY[],
  count: number,
): SceneNode[] {
  const tone: Tone = (across, lengthwise) => (0.25 + 0.9 * Math.abs(across - 0.5)) * Math.min(1, lengthwise * 4);
  const way = smooth(outline, closed);
  const [from, to] = [flatten(smooth(one, false)), flatten(smooth(other, false))];
  return [{ kind: 'path', classes: ['hatch'], segments: hatchBetween(from, to, count, 6, tone) }, pen(way, 6)];
}

const pen = (segments: readonly PathSegment[], weight: number): SceneNode => ({
  kind: 'path',
  segments,
  weight,
  classes: ['outline'],
});
