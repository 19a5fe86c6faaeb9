import { figures } from '../../language/figures.ts';
import { inLanguage, t } from '../../language/words.ts';
import { spoken } from '../../language/rows.ts';
import { intoFrame, ontoImage } from '../../geometry/foot-axes.ts';
import { findMeasure } from '../../measures/registry.ts';
import { distance, isFinitePoint, type XY } from '../../geometry/vector.ts';
import { nodeOntoImage } from '../carried.ts';
import type { LandmarkPositions } from '../places.ts';
import { sound } from '../sound.ts';
import { unitOf } from '../unit.ts';
import { drawBones } from '../foot/bones.ts';
import { bounds, grown, joined } from '../bounds.ts';
import { drawCapsule } from '../foot/capsule.ts';
import { whatGoes, type PlateCut } from './cut-drawn.ts';
import { drawGround, drawMarker } from './ground.ts';
import { drawFlatFoot } from '../foot/flat-foot.ts';
import { drawShoe, shoeLetters } from './shoe.ts';
import { asOnPicture, layOver, lettered, NOTHING_LAID } from '../foot/lay-over.ts';
import { keyMarks, type KeyMark } from './key-marks.ts';
import { landmarkMark } from './landmark-marks.ts';
import { marginLabels, stateClasses } from './margin-labels.ts';
import type { PlateLabel } from './plate-label.ts';
import { DRAWN } from './measures-drawn.ts';
import { SAMPLE_FOOT, SAMPLE_GROUND } from '../foot/sample-foot.ts';
import { drawOver, type FootOver } from '../foot/foot-over.ts';
import { placeLetters } from './cut-letters.ts';
import { group, type Box, type GroupNode, type LayerName, type Scene, type SceneNode } from '../scene.ts';
import { drawingContext, WEIGHT, type DrawingContext, type StandingLines } from '../drawing-context.ts';
import { drawSoft } from '../foot/soft.ts';
import { strokesOf } from './strokes.ts';
import { insideLabels, type InsideLabels } from './inside-labels.ts';
import { widthInEm, wrapped } from './lettering.ts';
import { parted } from './what-goes.ts';

export interface PlateInput {
  foot: 'LF' | 'RF' | 'LH' | 'RH';
  view: 'lateral' | 'front' | 'solar';
  placed: ReadonlyMap<string, XY>;
  ground: readonly [XY, XY] | null;
  /** The plane between hoof and shoe. */
  bearing?: readonly [XY, XY] | null;
  /** What is written on what the foot wears: `shoe, 10.0 to 17.2 mm`. */
  worn?: string | null;
  marker: readonly [XY, XY] | null;
  /** Millimetres to a pixel. */
  scale: number | null;
  picture: { href: string; width: number; height: number } | null;
  labels: readonly PlateLabel[];
  /** The landmark or measure under the cursor. */
  highlight?: string | null;
  /** What an empty plate says: the one next step. */
  sentence?: string | null;
  /** Words for landmarks, shown where a name is shown; without an entry the name itself. */
  landmarkWords?: ReadonlyMap<string, string>;
  /** Where measures are lettered: in columns beside the foot, or within the picture where there is no room for them. */
  labelsAt?: 'beside' | 'inside';
  /** Larger lettering for a narrow pane; 1 where absent. */
  lettering?: number;
  /** The marker's length as written; without it, its length by the scale. */
  markerWords?: string;
  /** A plan or trim laid over the foot; drawn only where there is a scale. */
  cut?: PlateCut | null;
  /** Another foot laid over this one, already aligned. */
  over?: FootOver | null;
  /** Where the key of a lesson has its places. */
  key?: readonly KeyMark[];
}

const FEET = spoken({ LF: 'left fore', RF: 'right fore', LH: 'left hind', RH: 'right hind' });

/** Far above the hoof, where words hide little. */
const ABOVE: ReadonlySet<string> = new Set(['pastern.centre', 'fetlock.centre']);

const NOTHING_INSIDE: InsideLabels = { nodes: [], boxes: [] };

function finitePair(pair: readonly [XY, XY] | null): readonly [XY, XY] | null {
  return pair && isFinitePoint(pair[0]) && isFinitePoint(pair[1]) ? pair : null;
}

function boxOf(points: readonly XY[]): Box {
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

/** A few points in a row would make a sliver of a plate. */
function roomy(box: Box): Box {
  const width = Math.max(box.width, box.height * 0.6);
  const height = Math.max(box.height, box.width * 0.5);
  return { x: box.x - (width - box.width) / 2, y: box.y - (height - box.height) / 2, width, height };
}

/** Room below the ground, where the words of a cut stand. */
function withFoot(box: Box, room: number): Box {
  return { ...box, height: box.height + room };
}

function weighted(node: SceneNode, times: number): SceneNode {
  return 'weight' in node && node.weight !== undefined ? { ...node, weight: node.weight * times } : node;
}

export interface DrawnFoot {
  readonly unit: number;
  /** Along the bearing plane. */
  readonly context: DrawingContext;
  /** Along the ground, for what is measured to it: the same where the foot is bare. */
  readonly standing: DrawingContext;
  readonly layers: Partial<Record<LayerName, SceneNode[]>>;
}

interface DrawnFootInput extends StandingLines {
  readonly places: LandmarkPositions;
  readonly unit: number;
  readonly onPicture: boolean;
  /** In the foot's own frame, as large as on the picture. */
  readonly cut: PlateCut | null;
  readonly bare?: boolean;
}

/** A lateral foot, in the pixels of its picture. */
export function drawFoot({
  places,
  ground,
  bearing = null,
  unit,
  onPicture,
  cut,
  bare = false,
}: DrawnFootInput): DrawnFoot {
  const context = drawingContext(places, { ground, bearing }, { unit, onPicture, bare });
  const standing = bearing && ground ? drawingContext(places, { ground }, { unit, onPicture, bare }) : context;
  const goes = cut && whatGoes(cut);
  const capsule = drawCapsule(context);
  const carry = (nodes: readonly SceneNode[], { axes } = context): SceneNode[] =>
    sound(nodes.map((n) => nodeOntoImage(axes, n)));
  const ends = ground && ([intoFrame(standing.axes, ground[0]), intoFrame(standing.axes, ground[1])] as const);
  // The ground stays under a shoe, whatever is cut above it.
  const line = bearing && !ground ? null : drawGround(standing, ends, cut !== null && !bearing);
  const shoe = drawShoe(context);
  return {
    unit,
    context,
    standing,
    layers: {
      bones: carry(drawBones(context)),
      capsule: carry(goes ? parted(capsule, goes, unit) : capsule),
      soft: bare ? [] : carry(drawSoft(context)),
      ground: [...carry(line ? [line] : [], standing), ...carry(shoe ? [shoe] : [])],
    },
  };
}

/** Where a measure is drawn: an angle to the ground of a shod foot opens from the ground. */
export function contextOf(
  { context, standing }: Pick<DrawnFoot, 'context' | 'standing'>,
  measure: string,
): DrawingContext {
  return findMeasure(measure)?.plane === 'ground' ? standing : context;
}

function layer(name: LayerName, children: readonly SceneNode[], film: boolean): GroupNode {
  return group([`layer-${name}`, ...(film ? ['film'] : [])], children, { layer: name });
}

function markerLength(marker: readonly [XY, XY], scale: number | null): string {
  if (scale === null || !(scale > 0)) return '';
  const mm = distance(marker[0], marker[1]) * scale;
  return `${figures(Number(mm.toFixed(mm < 10 ? 1 : 0)))} mm`;
}

/** A sentence in the middle under the drawing. */
function caption(sentence: string, box: Box, em: number): { nodes: SceneNode[]; height: number } {
  const size = em * 1.1;
  const lines = wrapped(sentence, Math.max(box.width / size, 16));
  return {
    nodes: lines.map((text, i) => ({
      kind: 'text',
      at: { x: box.x + box.width / 2, y: box.y + box.height + (1.6 + i * 1.4) * size },
      size,
      anchor: 'middle',
      runs: [{ text }],
      classes: ['sentence'],
    })),
    height: (1.4 + lines.length * 1.4) * size,
  };
}

export function drawPlate(input: PlateInput): Scene {
  const placed: LandmarkPositions = new Map([...input.placed].filter(([, p]) => isFinitePoint(p)));
  const ground = finitePair(input.ground);
  const bearing = finitePair(input.bearing ?? null);
  const marker = finitePair(input.marker);
  const picture =
    input.picture &&
    input.picture.width > 0 &&
    input.picture.height > 0 &&
    Number.isFinite(input.picture.width + input.picture.height)
      ? input.picture
      : null;
  const onPicture = picture !== null;
  const highlight = input.highlight ?? null;
  const lateral = input.view === 'lateral';
  const empty = placed.size === 0;
  // A faint foot of no horse is welcome on bare paper, but over a film it would pass for a reading.
  const ghost = empty && !onPicture;

  const shown = ghost ? SAMPLE_FOOT : placed;
  const line = ghost ? SAMPLE_GROUND : ground;
  const points = [...shown.values(), ...(line ?? []), ...(ghost ? [] : (bearing ?? [])), ...(marker ?? [])];
  const extent = picture
    ? Math.hypot(picture.width, picture.height)
    : Math.max(Math.hypot(boxOf(points).width, boxOf(points).height), 1);
  const unit = unitOf(shown, input.scale, extent);
  const cut = input.view !== 'solar' && !ghost && input.cut ? asOnPicture(input.cut, input.scale) : null;
  const foot =
    lateral || ghost
      ? drawFoot({ places: shown, ground: line, bearing: ghost ? null : bearing, unit, onPicture, cut })
      : null;
  const flat =
    input.view === 'lateral' || ghost || empty
      ? null
      : drawFlatFoot(input.view, { places: shown, ground: line, bearing, unit, onPicture });
  const any = foot ?? flat;
  const under = any?.context ?? null;
  const layers: Partial<Record<LayerName, readonly SceneNode[]>> = any?.layers ?? {};
  const drawn = Object.values(layers).flat();

  const frameBox: Box = picture
    ? { x: 0, y: 0, width: picture.width, height: picture.height }
    : withFoot(
        roomy(grown(joined(bounds(drawn) ?? boxOf(points), boxOf(points)), (ghost ? 4 : 9) * unit)),
        cut ? 9 * unit : 0,
      );
  const em = Math.max(Math.sqrt(frameBox.width * frameBox.height) * 0.026 * (input.lettering ?? 1), 1e-3);

  const groundNodes = [...(layers.ground ?? [])];
  if (!lateral && line) {
    groundNodes.push({
      kind: 'line',
      from: line[0],
      to: line[1],
      weight: unit,
      classes: ['ground-line'],
      halo: 'film',
    });
  }
  if (bearing && !ghost)
    groundNodes.push({
      kind: 'line',
      from: bearing[0],
      to: bearing[1],
      weight: WEIGHT.inner * 1.6 * unit,
      classes: ['bearing-line'],
      halo: 'film',
      data: { part: 'bearing' },
    });
  const worn =
    foot && !ghost ? shoeLetters(foot.context, input.worn ?? '', em, (p) => ontoImage(foot.context.axes, p)) : [];
  groundNodes.push(...worn);
  const scaleMark =
    marker &&
    drawMarker(marker, input.markerWords ?? markerLength(marker, input.scale), unit, em, {
      area: onPicture ? frameBox : grown(frameBox, 3.2 * em),
      onPicture,
    });
  if (scaleMark) groundNodes.push(scaleMark);
  const laid = under
    ? layOver(under, cut, frameBox, em, [
        ...(marker && scaleMark ? [boxOf(marker), ...lettered([scaleMark])] : []),
        ...lettered(worn),
      ])
    : NOTHING_LAID;

  const over =
    foot && !ghost && input.over && [...input.over.placed.values()].every(isFinitePoint)
      ? drawOver(foot.context, placed, input.over, input.scale)
      : null;
  const overLetters =
    foot && over
      ? placeLetters(over.letters, {
          axes: foot.context.axes,
          area: frameBox,
          em,
          taken: [...laid.letters.boxes, ...(marker ? [boxOf(marker)] : []), ...lettered(worn)],
          onPicture,
        })
      : NOTHING_LAID.letters;

  const measures: SceneNode[] = [];
  const anchors = new Map<string, XY>();
  for (const label of input.labels) {
    const draw = DRAWN.get(label.measure);
    const context = any && contextOf(any, label.measure);
    const lines = context && !ghost ? draw?.(context) : null;
    if (!context || !lines) continue;
    const { axes } = context;
    const nodes = sound(
      lines.nodes.map((n) => weighted(nodeOntoImage(axes, n), label.measure === highlight ? 1.9 : 1)),
    );
    const spot = nodeOntoImage(axes, { kind: 'circle', centre: lines.anchor, radius: 0 });
    if (spot.kind === 'circle' && isFinitePoint(spot.centre)) anchors.set(label.measure, spot.centre);
    measures.push(
      group(['measure', ...(onPicture ? ['film'] : []), ...stateClasses(label, highlight)], nodes, {
        measure: label.measure,
      }),
    );
  }

  const footBox = boxOf(shown.size > 0 ? [...shown.values()] : points.length > 0 ? points : [{ x: 0, y: 0 }]);
  const isInside = input.labelsAt === 'inside' && any !== null;
  const within = isInside
    ? insideLabels({
        labels: input.labels,
        anchors,
        foot: [...shown].filter(([name]) => !ABOVE.has(name)).map(([, place]) => place),
        // On bare paper there is room about the foot, and nothing that words could hide.
        area: onPicture ? frameBox : grown(frameBox, 3.2 * em),
        em,
        taken: [
          ...laid.letters.boxes,
          ...overLetters.boxes,
          ...(line ? [boxOf(line)] : []),
          ...(bearing ? [boxOf(bearing)] : []),
          ...(marker ? [boxOf(marker)] : []),
          ...lettered([...(scaleMark ? [scaleMark] : []), ...worn]),
        ],
        // The drawn foot of the side view is all lines; there the outline counts.
        strokes: flat ? strokesOf([...drawn, ...measures]) : [],
        onPicture,
        highlight,
      })
    : NOTHING_INSIDE;
  const margin = marginLabels({
    labels: isInside ? [] : input.labels,
    anchors,
    area: frameBox,
    middle: footBox.x + footBox.width / 2,
    em,
    slim: (input.lettering ?? 1) > 1.15,
    onPicture,
    highlight,
  });

  // Where nothing can be drawn yet the names tell what is placed.
  const isNamed = !lateral && anchors.size === 0;
  const marks = ghost
    ? []
    : [...placed].map(([name, p]) =>
        landmarkMark(name, input.landmarkWords?.get(name) ?? name, p, unit, em, name === highlight, isNamed),
      );

  let view = frameBox;
  for (const box of [...margin.boxes, ...within.boxes, ...laid.letters.boxes, ...overLetters.boxes])
    view = joined(view, grown(box, 0.5 * em));
  if (isNamed && marks.length > 0) {
    // Names stand to the right of their marks, and must not run off the context.
    for (const [name, p] of placed) {
      const width = (widthInEm(input.landmarkWords?.get(name) ?? name) * 0.86 + 1) * em + 3.4 * unit;
      if (!onPicture) view = joined(view, { x: p.x, y: p.y, width, height: 0 });
    }
  }
  const notes: SceneNode[] = [];
  if (empty && input.sentence) {
    const words = caption(input.sentence, frameBox, em);
    notes.push(...words.nodes);
    view = joined(view, { ...frameBox, height: frameBox.height + words.height });
  }

  const pictureNodes: SceneNode[] = picture
    ? [{ kind: 'image', href: picture.href, box: frameBox, data: { part: 'film' } }]
    : [];
  const count = input.labels.length;
  return {
    view,
    title: t('{0} foot, {1} view', FEET[input.foot], inLanguage(input.view)),
    description: ghost
      ? (input.sentence ?? t('No landmark is placed yet.'))
      : t(
          '{0} landmarks placed, {1} {2} lettered.{3}',
          placed.size,
          count,
          count === 1 ? t('measure') : t('measures'),
          [...(laid.nodes.length > 0 && cut ? [cut.words] : []), ...(over ? [input.over?.words ?? ''] : [])]
            .map((words) => t(' Laid over: {0}.', words))
            .join(''),
        ),
    unit,
    onPicture,
    ghost,
    layers: [
      layer('picture', pictureNodes, false),
      layer('capsule', layers.capsule ?? [], onPicture),
      layer('soft', layers.soft ?? [], onPicture),
      layer('bones', layers.bones ?? [], onPicture),
      group(['layer-over'], [...(over?.nodes ?? []), ...overLetters.nodes], { layer: 'over' }),
      layer('ground', groundNodes, onPicture),
      group(['layer-cut'], [...laid.nodes, ...laid.letters.nodes], { layer: 'cut' }),
      group(['layer-measures'], sound([...measures, ...margin.nodes, ...within.nodes, ...notes]), {
        layer: 'measures',
      }),
      // Beneath the places, so that a press goes to these.
      layer('landmarks', [...keyMarks(input.key ?? [], unit, em), ...marks], onPicture),
    ],
    labelBoxes: margin.boxes,
    cutBoxes: [...laid.letters.boxes, ...overLetters.boxes],
  };
}
