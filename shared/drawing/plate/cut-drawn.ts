import { t } from '../../language/words.ts';
import { distance, meet, plus, type XY } from '../../geometry/vector.ts';
import { straight } from '../curve.ts';
import type { LetterWish } from './cut-letters.ts';
import { hatchInside } from '../hatch.ts';
import { group, type GroupNode, type SceneNode } from '../scene.ts';
import { contourWeight, WEIGHT, type DrawingContext } from '../drawing-context.ts';
import { newGround, type Goes, type NewGround } from './what-goes.ts';

/**
 * A plan or trim laid over the foot, in the foot's own frame: X to the toe (in the front view to the outer side) and Y up
 * from the ground, mm.
 */
export interface PlateCut {
  /** `Plan of 2026-03-04: heel down 5 mm`. */
  readonly words: string;
  /** The new bearing line, from heel to toe; in the front view from the inner to the outer side. */
  readonly ground: readonly [XY, XY];
  /** Where the heel's plane begins, between the two; left out where one plane goes from end to end. */
  readonly bend?: XY;
  readonly slivers: readonly CutSliver[];
  /** Landmarks that the cut moves against the foot, where it leaves them. */
  readonly turned: ReadonlyMap<string, XY>;
  /** `turns 2.2°`; empty where nothing is lettered. */
  readonly turnWords: string;
}

export interface CutSliver {
  readonly part: 'heel' | 'toe' | 'sole' | 'inside' | 'outside';
  readonly outline: readonly XY[];
  /** The new outside of the wall, where the cut leaves one. */
  readonly face: readonly XY[];
  /** Lettered at the sliver; empty where nothing is lettered. */
  readonly text: string;
}

/** All in the foot's own frame. */
export interface CutDrawing {
  readonly nodes: readonly SceneNode[];
  readonly letters: readonly LetterWish[];
}

/** Turned half as fast as the eye can tell, an arc is a blot. */
const LEAST_TURN = 0.004;

export function whatGoes(cut: PlateCut): Goes | null {
  const grounds = groundsOf(cut);
  if (!grounds) return null;
  const regions = cut.slivers.filter(({ face }) => face.length > 1).map(({ outline }) => outline);
  return { grounds, regions };
}

/** One, or that of the heel and the front one; null where one of them has no length. */
function groundsOf({ ground: [heel, toe], bend }: PlateCut): readonly NewGround[] | null {
  const ends: readonly (readonly [XY, XY])[] = bend
    ? [
        [heel, bend],
        [bend, toe],
      ]
    : [[heel, toe]];
  const grounds = ends.flatMap(([from, to]) => newGround(from, to) ?? []);
  return grounds.length === ends.length ? grounds : null;
}

/** `fits` tells whether a place is on the picture: lines that run past the foot stay on it where they can. */
export function drawCut(context: DrawingContext, cut: PlateCut, fits: (p: XY) => boolean): CutDrawing | null {
  const [line, front] = groundsOf(cut) ?? [];
  if (!line) return null;
  const [heel, toe] = cut.ground[0].x <= cut.ground[1].x ? cut.ground : [cut.ground[1], cut.ground[0]];
  const opening = turning(context, heel, cut.bend ?? toe, line.along, fits);
  const axis = pasternAfter(context, cut.turned);
  const slivers = cut.slivers.map((sliver) => drawSliver(context, sliver));
  // The new ground would hide the upper edge of live sole, which is what must not be overlooked.
  const isSole = (_node: SceneNode, i: number): boolean => cut.slivers[i]?.part === 'sole';
  const nodes = [
    ...slivers.filter((node, i) => !isSole(node, i)),
    ...(axis ? [drawAxis(context, axis)] : []),
    ...(front && cut.bend
      ? [
          bearing(context, cut, line, opening.from, cut.bend),
          bearing(context, cut, front, cut.bend, plus(toe, front.along, 7 * context.unit)),
        ]
      : [bearing(context, cut, line, opening.from, opening.to)]),
    ...slivers.filter(isSole),
    ...(opening.arc ? [opening.arc] : []),
  ];
  // Live sole is lettered first: it must find its place whatever else there is to say.
  const ranked = [...cut.slivers].sort((a, b) => Number(b.part === 'sole') - Number(a.part === 'sole'));
  const letters = [
    ...ranked.flatMap(letterOf),
    ...(opening.arc ? turnLetter(cut, opening) : []),
    ...(axis ? axisLetter(cut, axis) : []),
  ];
  return { nodes, letters };
}

function turnLetter({ turnWords }: PlateCut, { at, out }: Opening): LetterWish[] {
  if (!turnWords) return [];
  const ways = [
    { x: out * 0.6, y: -0.8 },
    { x: out, y: -0.2 },
    { x: 0, y: -1 },
    { x: out, y: 0.6 },
  ];
  return [{ part: 'cut.turn', text: turnWords, at, ways, to: null }];
}

/** No heavier than the least that is cut, or the line would hide what it is drawn for. */
function bearing(context: DrawingContext, { ground }: PlateCut, { along }: NewGround, from: XY, to: XY): GroupNode {
  const u = context.unit;
  const most = Math.max(ground[0].y, ground[1].y);
  const weight = most > 0 ? Math.min(Math.max(most * 0.25, 0.7 * u), WEIGHT.ground * u) : WEIGHT.ground * u;
  const down = { x: along.y, y: -along.x };
  const side = weight / 2;
  return group(
    ['cut-ground'],
    [
      {
        kind: 'line',
        from: plus(from, down, side),
        to: plus(to, down, side),
        weight,
        classes: ['ground-line'],
        halo: 'film',
      },
    ],
    { part: 'cut.ground' },
  );
}

interface Opening {
  /** Ends of the new ground as drawn. */
  readonly from: XY;
  readonly to: XY;
  readonly arc: SceneNode | null;
  /** Where the angle is lettered. */
  readonly at: XY;
  /** Towards which side the two grounds part. */
  readonly out: 1 | -1;
}

/** The new ground carried past its contacts, and the arc to the old one on the side where the two stand apart. */
function turning(context: DrawingContext, heel: XY, toe: XY, along: XY, fits: (p: XY) => boolean): Opening {
  const u = context.unit;
  const turn = Math.atan2(along.y, along.x);
  const out = turn < 0 ? -1 : 1;
  const apart = out < 0 ? heel : toe;
  const wide = [18, 13, 9].find((reach) => fits(plus(apart, along, out * reach * u))) ?? 5;
  const from = plus(heel, along, out < 0 ? -wide * u : -7 * u);
  const to = plus(toe, along, out < 0 ? 7 * u : wide * u);
  const end = plus(apart, along, out * (wide - 2.5) * u);
  const vertex = Math.abs(turn) < LEAST_TURN ? null : meet(heel, along, { x: 0, y: 0 }, { x: 1, y: 0 });
  if (!vertex || !context.axes.grounded) return { from, to, arc: null, at: end, out };
  const level = out < 0 ? Math.PI : 0;
  return {
    from,
    to,
    out,
    at: { x: vertex.x + out * distance(vertex, end), y: 0 },
    arc: {
      kind: 'arc',
      centre: vertex,
      radius: distance(vertex, end),
      from: level,
      to: level + turn,
      weight: WEIGHT.measure * 1.6 * u,
      classes: ['sweep'],
      halo: 'always',
      data: { part: 'cut.turn' },
    },
  };
}

function drawSliver(context: DrawingContext, { part, outline, face }: CutSliver): GroupNode {
  const u = context.unit;
  const marks: SceneNode[] = [];
  if (part === 'sole') {
    marks.push(
      { kind: 'path', segments: straight(outline, true), classes: ['live'] },
      { kind: 'path', segments: straight(outline, true), weight: 0.5 * u, classes: ['live-edge'], halo: 'always' },
    );
  } else {
    const slant = { x: Math.SQRT1_2, y: Math.SQRT1_2 };
    // Its edges are contours of the foot, which are dashed where they go.
    marks.push({
      kind: 'path',
      segments: hatchInside(outline, slant, 1.05 * u, 0.5 * u, () => 0.9, 43),
      classes: ['cut-hatch'],
    });
    if (face.length > 1) {
      marks.push({
        kind: 'path',
        segments: straight(face),
        weight: contourWeight(context),
        classes: ['outline'],
        halo: 'film',
        data: { part: 'cut.face' },
      });
    }
  }
  return group([part === 'sole' ? 'live-sole' : 'sliver'], marks, { part: `cut.${part}` });
}

function letterOf({ part, outline, face, text }: CutSliver): LetterWish[] {
  if (!text || outline.length < 3) return [];
  const down = { x: 0, y: -1 };
  if (part === 'sole') {
    const to = outline.reduce((sum, p) => plus(sum, p, 1 / outline.length), { x: 0, y: 0 });
    const ways = [down, { x: 0.5, y: -0.85 }, { x: -0.5, y: -0.85 }];
    return [{ part: 'cut.sole', text, at: { x: to.x, y: 0 }, ways, to }];
  }
  if (face.length > 1) {
    const ways = [
      { x: 0.25, y: -1 },
      { x: 0.8, y: -0.6 },
      { x: 1, y: 0.2 },
    ];
    return [{ part: 'cut.toe', text, at: outline[0]!, ways, to: null }];
  }
  const xs = outline.map((p) => p.x);
  const low = Math.min(...xs);
  const high = Math.max(...xs);
  const backwards = part === 'heel' || part === 'inside';
  const out = backwards ? -1 : 1;
  const at = { x: (backwards ? low : high) - out * (high - low) * 0.06, y: 0 };
  return [{ part: `cut.${part}`, text, at, ways: [down, { x: out, y: -0.3 }, { x: out, y: 0.2 }], to: null }];
}

interface Axis {
  readonly from: XY;
  readonly through: readonly XY[];
}

/** The bones above the coffin joint keep to the old ground: seen from the foot, it is the pastern that turns. */
function pasternAfter(context: DrawingContext, turned: ReadonlyMap<string, XY>): Axis | null {
  const from = context.at('coffin.centre');
  const names = (['pastern.centre', 'fetlock.centre'] as const).filter((name) => turned.has(name));
  const through = names.flatMap((name) => turned.get(name) ?? []);
  // Two lines closer than this are one to the eye.
  const moved = names.some(
    (name) => distance(context.at(name) ?? turned.get(name)!, turned.get(name)!) > 2 * context.unit,
  );
  return from && moved ? { from, through } : null;
}

function drawAxis(context: DrawingContext, { from, through }: Axis): GroupNode {
  const weight = WEIGHT.measure * 1.2 * context.unit;
  return group(
    ['cut-axis'],
    [{ kind: 'path', segments: straight([from, ...through]), weight, classes: ['axis'], halo: 'always' }],
    { part: 'cut.pastern' },
  );
}

function axisLetter({ turnWords }: PlateCut, { through }: Axis): LetterWish[] {
  const at = through.at(-1);
  if (!turnWords || !at) return [];
  const ways = [
    { x: 1, y: 0.2 },
    { x: 0.5, y: 1 },
    { x: -1, y: 0.2 },
  ];
  return [{ part: 'cut.pastern', text: t('pastern after'), at, ways, to: null }];
}
