import { foot, type Foot, type LandmarkName } from '../examples/drawn/foot.ts';
import { soundCob, type FootParameters } from '../examples/drawn/parameters.ts';
import type { SceneNode } from '../shared/drawing/scene.ts';
import type { XY } from '../shared/geometry/vector.ts';
import { beyond, ends, line, measured, outline, placeOf, svg, text, WIDE } from './rule-panels.ts';

/** The drawings of docs/rules.md: what is told of one film, and which film speaks. */

/** A foot put on the paper: toe to the left, y down. */
interface Laid {
  readonly of: Foot;
  readonly on: (point: XY) => XY;
  readonly at: (name: LandmarkName) => XY;
  /** Pixels a millimetre. */
  readonly scale: number;
}

/** `under`: where the point of the ground below the tip of the bone comes to lie. */
function laid(parameters: FootParameters, under: XY, scale: number): Laid {
  const of = foot(parameters);
  const tip = placeOf(of.landmarks, 'p3.tip');
  const on = ({ x, y }: XY): XY => ({ x: under.x - (x - tip.x) * scale, y: under.y - y * scale });
  return { of, on, at: (name) => on(placeOf(of.landmarks, name)), scale };
}

const bone = ({ of, on }: Laid, name: 'p3' | 'p2' | 'p1', weight: number): SceneNode => ({
  kind: 'path',
  segments: outline(of.bones.outlines[name].map(on)),
  weight,
});

const hoof = ({ of, on }: Laid): SceneNode => ({
  kind: 'path',
  segments: outline(of.capsule.outlines.hoof.map(on)),
  weight: 1.2,
});

function ground({ of, on }: Laid): SceneNode {
  const [toe, heel] = [placeOf(of.landmarks, 'toe.ground'), placeOf(of.landmarks, 'heel.ground')];
  return line(on({ x: heel.x - 10, y: 0 }), on({ x: toe.x + 14, y: 0 }), 2.2);
}

const halfway = (a: XY, b: XY): XY => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
const far = (a: XY, b: XY): number => Math.hypot(b.x - a.x, b.y - a.y);

/** The three lengths that bones keep: where they run, and how far from which point of it its figure stands. */
const steady = [
  { from: 'p3.tip', to: 'p3.wing', near: 'middle', beside: { x: -10, y: 22 }, anchor: 'start' },
  { from: 'p3.extensor', to: 'p3.wing', near: 'start', beside: { x: -12, y: 2 }, anchor: 'end' },
  { from: 'coffin.centre', to: 'pastern.centre', near: 'middle', beside: { x: 34, y: -6 }, anchor: 'start' },
] as const;

function lengths(foot: Laid, say: (mm: number) => string): SceneNode[] {
  return [
    bone(foot, 'p3', 1.4),
    bone(foot, 'p2', 1),
    ...steady.flatMap(({ from, to, near, beside, anchor }): SceneNode[] => {
      const [a, b] = [foot.at(from), foot.at(to)];
      const place = near === 'start' ? a : halfway(a, b);
      return [
        measured(line(a, b, 2.2)),
        text({ x: place.x + beside.x, y: place.y + beside.y }, say(far(a, b) / foot.scale), anchor),
      ];
    }),
  ];
}

/** Three films of one foot, the marker of the last typed 8 % too long. */
export function boneLength(): string {
  const films = [
    { words: 'First film', scale: 'marker 100 mm', larger: 1 },
    { words: 'Second film', scale: 'marker 100 mm', larger: 1 },
    { words: 'Third film: 8 % larger', scale: 'marker typed as 108 mm', larger: 1.08 },
  ];
  return svg(
    'Bones keep their size',
    'The same bones on three films; on the third all three lengths are 8 % larger',
    films.flatMap(({ words, scale, larger }, index): SceneNode[] => {
      const x = index * 212;
      const foot = laid(soundCob, { x: x + 44, y: 190 }, 1.18 * larger);
      return [
        text({ x: x + 14, y: 22 }, words),
        text({ x: x + 14, y: 42 }, scale),
        ...lengths(foot, (mm) => `${(mm * larger).toFixed(1)} mm`),
      ];
    }),
  );
}

/** A film with a marker, and one without, of the same bones. */
export function scaleBone(): string {
  const [known, unknown] = [laid(soundCob, { x: 60, y: 190 }, 1.25), laid(soundCob, { x: WIDE + 60, y: 196 }, 1.5)];
  /** Of a picture on which a pixel is that many mm. */
  const mmPerPx = 0.16;
  const pixels = (mm: number): number => Math.round(mm / mmPerPx);
  const tip = far(unknown.at('p3.tip'), unknown.at('p3.wing')) / unknown.scale;
  return svg('A scale from the bones', 'The lengths of bone on a film with a marker, and their pixels on one without', [
    text({ x: 14, y: 22 }, 'With a marker: the bones in mm'),
    ...lengths(known, (mm) => `${mm.toFixed(1)} mm`),
    text({ x: WIDE + 14, y: 22 }, 'Without one: the bones in pixels'),
    ...lengths(unknown, (mm) => `${pixels(mm)} px`),
    text(
      { x: WIDE + 14, y: 218 },
      `${tip.toFixed(1)} mm on ${pixels(tip)} px: ${(tip / pixels(tip)).toFixed(2)} mm a pixel`,
    ),
  ]);
}

/** Juniper's first film, seen from outside and seen through. */
export function outsideOnly(): string {
  const [juniper] = ends('juniper');
  const [outside, inside] = [0, WIDE].map((x) => laid(juniper, { x: x + 84, y: 262 }, 1.15)) as [Laid, Laid];
  const long = (lower: XY, upper: XY, below: number, above: number, dash?: readonly number[]): SceneNode =>
    measured(line(beyond(upper, lower, below), beyond(lower, upper, above), 1.8, dash));
  const heel = placeOf(inside.of.landmarks, 'heel.ground');
  const back = heel.x - 8;
  const [low, high] = [inside.on({ x: back, y: 0 }), inside.on({ x: back, y: juniper.heelSurplus })];
  return svg('In line outside, not inside', 'One film: wall and pastern run in one line, the bone does not', [
    text({ x: 14, y: 22 }, 'Outside: wall and pastern in line'),
    hoof(outside),
    ground(outside),
    long(outside.at('wall.lower'), outside.at('wall.upper'), 18, 60),
    long(outside.at('coffin.centre'), outside.at('fetlock.centre'), 0, 8, [6, 4]),
    text({ x: WIDE + 14, y: 22 }, 'Inside: the bone is not'),
    hoof(inside),
    ground(inside),
    bone(inside, 'p3', 1.6),
    bone(inside, 'p2', 0.9),
    long(inside.at('wall.lower'), inside.at('wall.upper'), 18, 60),
    long(inside.at('p3.dorsal.lower'), inside.at('p3.dorsal.upper'), 24, 44),
    text({ x: WIDE + 14, y: 176 }, `${juniper.rotation.toFixed(0)}° apart`),
    measured(line(low, high, 2.6)),
    line({ x: high.x - 44, y: high.y }, { x: high.x + 8, y: high.y }, 0.9, [3, 3]),
    text({ x: high.x + 12, y: (low.y + high.y) / 2 + 5 }, `${juniper.heelSurplus} mm`),
  ]);
}

/** Bone to wall at three heights, square to the bone, beside the length that they are a share of. */
export function wallToBone(): string {
  const [juniper] = ends('juniper');
  return svg('Wall to bone', 'The layer before the bone in a sound foot and in one in which bone and wall part', [
    ...layers(soundCob, 0, 'Sound'),
    ...layers(juniper, WIDE, 'Bone and wall part'),
  ]);
}

function layers(parameters: FootParameters, x: number, words: string): SceneNode[] {
  const foot = laid(parameters, { x: x + 96, y: 206 }, 1.5);
  const [lower, upper] = [foot.at('p3.dorsal.lower'), foot.at('p3.dorsal.upper')];
  const wall = [foot.at('wall.lower'), foot.at('wall.upper')] as const;
  const reaches = [upper, halfway(lower, upper), lower].map((from) => ({
    from,
    to: squareTo(from, [lower, upper], wall),
  }));
  const [tip, end] = [foot.at('p3.tip'), foot.at('p3.navicular')];
  const mm = (a: XY, b: XY): number => far(a, b) / foot.scale;
  const middle = reaches[1] as (typeof reaches)[number];
  const share = (100 * mm(middle.from, middle.to)) / mm(tip, end);
  return [
    text({ x: x + 14, y: 22 }, words),
    hoof(foot),
    ground(foot),
    bone(foot, 'p3', 1.4),
    ...reaches.flatMap(({ from, to }): SceneNode[] => [
      measured(line(from, to, 2.2)),
      text({ x: to.x - 8, y: to.y + 2 }, mm(from, to).toFixed(1), 'end'),
    ]),
    measured(line(tip, end, 2.2)),
    text(
      { x: x + 14, y: 236 },
      `${mm(middle.from, middle.to).toFixed(1)} of ${mm(tip, end).toFixed(1)} mm: ${share.toFixed(0)} % of the bone’s length`,
    ),
  ];
}

/** Where a line square to `face` from a point of it meets the wall. */
function squareTo(from: XY, [a, b]: readonly [XY, XY], [c, d]: readonly [XY, XY]): XY {
  const out = { x: b.y - a.y, y: a.x - b.x };
  const along = { x: d.x - c.x, y: d.y - c.y };
  const by = ((c.x - from.x) * along.y - (c.y - from.y) * along.x) / (out.x * along.y - out.y * along.x);
  return { x: from.x + out.x * by, y: from.y + out.y * by };
}

/** Which film speaks: the newest that has the measure; what is before it is past. */
export function past(): string {
  const rows = [
    { words: 'palmar angle', films: ['past', 'past', 'past', 'speaks'] },
    { words: 'sole under the tip', films: ['past', 'past', 'past', 'speaks'] },
    { words: 'wall to bone', films: ['past', 'past', 'speaks', 'absent'] },
    { words: 'a plan', films: ['absent', 'past', 'past', 'speaks'], between: true },
  ] as const;
  const xOf = (film: number): number => 210 + film * 120;
  const yOf = (row: number): number => 62 + row * 34;
  const dot = ({ x, y }: XY, filled: boolean): SceneNode[] => {
    const ring = Array.from({ length: 24 }, (_, step): XY => {
      const turn = (step * Math.PI) / 12;
      return { x: x + 6.5 * Math.cos(turn), y: y + 6.5 * Math.sin(turn) };
    });
    // A full dot is a ring with strokes so near that they meet.
    const fill = [-5, -3.5, -2, -0.5, 1, 2.5, 4, 5.2].map((dy): SceneNode => {
      const half = Math.sqrt(6 ** 2 - dy ** 2);
      return line({ x: x - half, y: y + dy }, { x: x + half, y: y + dy }, 2.2);
    });
    return [{ kind: 'path', segments: outline(ring), weight: 1.6 }, ...(filled ? fill : [])];
  };
  return svg('What is past is past', 'Four films: of each measure the newest film that has it speaks', [
    ...['First', 'Second', 'Third', 'Newest'].map((film, index) => text({ x: xOf(index) - 20, y: 28 }, film)),
    ...rows.flatMap((row, index): SceneNode[] => [
      text({ x: 14, y: yOf(index) + 4 }, row.words),
      line({ x: 190, y: yOf(index) }, { x: xOf(3) + 68, y: yOf(index) }, 0.5, [1, 4]),
      ...row.films.flatMap((is, film): SceneNode[] => {
        const at = { x: xOf(film) + ('between' in row ? 60 : 0), y: yOf(index) };
        return is === 'absent' ? [] : dot(at, is === 'speaks');
      }),
    ]),
    ...dot({ x: 216, y: 212 }, true),
    text({ x: 234, y: 217 }, 'told as it is'),
    ...dot({ x: 376, y: 212 }, false),
    text({ x: 394, y: 217 }, 'past: a hint'),
  ]);
}
