import type { XY } from '../../shared/geometry/vector.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlateCut } from '../../shared/drawing/plate/cut-drawn.ts';
import { drawPlate, type PlateInput } from '../../shared/drawing/plate/plate.ts';
import { SAMPLE_FOOT, SAMPLE_GROUND } from '../../shared/drawing/foot/sample-foot.ts';
import type { Box, Scene, SceneNode } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { foot, label, nodes, PICTURE, places, readXml } from './drawing-help.ts';

const flip = ({ x, y }: XY): XY => ({ x: PICTURE.width - x, y });

/** From the pixels of the sample foot to its own frame, mm. */
const inFoot = ({ x, y }: XY): XY => ({ x: (600 - x) / 10, y: (1700 - y) / 10 });

/** The same cut with its places carried. */
function carried(of: PlateCut, carry: (place: XY) => XY): PlateCut {
  return {
    ...of,
    ground: [carry(of.ground[0]), carry(of.ground[1])],
    slivers: of.slivers.map((one) => ({ ...one, outline: one.outline.map(carry), face: one.face.map(carry) })),
    turned: new Map([...of.turned].map(([name, p]) => [name, carry(p)])),
  };
}

/** Of the sample foot, in its pixels: a heel cut of 12 mm that reaches live sole, and the toe brought back by 4 mm. */
const onSample: PlateCut = {
  words: 'Plan of 2026-03-04: heel down 12 mm, toe back 4 mm',
  ground: [
    { x: 1400, y: 1580 },
    { x: 260, y: 1700 },
  ],
  slivers: [
    {
      part: 'heel',
      outline: [
        { x: 1400, y: 1700 },
        { x: 1480, y: 1572 },
        { x: 260, y: 1700 },
        { x: 220, y: 1700 },
      ],
      face: [],
      text: '12 mm',
    },
    {
      part: 'toe',
      outline: [
        { x: 220, y: 1700 },
        { x: 430, y: 1445 },
        { x: 470, y: 1390 },
        { x: 470, y: 1445 },
        { x: 260, y: 1700 },
      ],
      face: [
        { x: 470, y: 1390 },
        { x: 470, y: 1445 },
        { x: 260, y: 1700 },
      ],
      text: '4 mm back',
    },
    {
      part: 'sole',
      outline: [
        { x: 1240, y: 1597 },
        { x: 1240, y: 1610 },
        { x: 1370, y: 1660 },
        { x: 1370, y: 1583 },
      ],
      face: [],
      text: 'live sole 7.6 mm',
    },
  ],
  turned: new Map([
    ['pastern.centre', { x: 1340, y: 740 }],
    ['fetlock.centre', { x: 1750, y: 120 }],
  ]),
  turnWords: 'turns 6.0°',
};

const cut = carried(onSample, inFoot);

const plate = (change: Partial<PlateInput> = {}): Scene => drawPlate(foot({ labels: [], cut, ...change }));
const all = (scene: Scene): SceneNode[] => scene.layers.flatMap(nodes);
const part = (scene: Scene, name: string): SceneNode[] => all(scene).filter((node) => node.data?.part === name);
const words = (scene: Scene): string[] =>
  all(scene).flatMap((node) =>
    node.kind === 'text' && node.classes?.includes('cut-words') ? [node.runs.map(({ text }) => text).join('')] : [],
  );
const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

describe('a cut laid over the foot', () => {
  it('shows the horn that goes, the live sole, the new ground, the angle and the pastern', () => {
    for (const picture of [null, PICTURE]) {
      const scene = plate({ picture });
      for (const name of ['cut.heel', 'cut.toe', 'cut.sole', 'cut.ground', 'cut.turn', 'cut.pastern', 'cut.face'])
        expect(part(scene, name).length, name).toBeGreaterThan(0);
      expect([...words(scene)].sort()).toEqual([
        '12 mm',
        '4 mm back',
        'live sole 7.6 mm',
        'pastern after',
        'turns 6.0°',
      ]);
      expect(all(scene).find((node) => node.data?.part === 'cut')?.title).toBe(cut.words);
      expect(scene.description).toContain(cut.words);
      readXml(sceneToSvg(scene));
    }
  });

  it('makes the new ground the heavy line, and the old one thin and dashed', () => {
    const scene = plate();
    const [old] = part(scene, 'ground.old')
      .flatMap(nodes)
      .filter(({ kind }) => kind === 'line');
    const [fresh] = part(scene, 'cut.ground')
      .flatMap(nodes)
      .filter(({ kind }) => kind === 'line');
    if (old?.kind !== 'line' || fresh?.kind !== 'line') throw new Error('no ground');
    expect(old.dash).toBeDefined();
    expect(fresh.dash).toBeUndefined();
    expect(fresh.weight).toBeGreaterThan(2 * (old.weight ?? NaN));
    expect(part(scene, 'ground')).toEqual([]);
  });

  it('dashes the contours that go and leaves no horn of the capsule below the new ground', () => {
    const scene = plate();
    const capsule = scene.layers.find(({ data }) => data?.layer === 'capsule');
    if (!capsule) throw new Error('no capsule');
    const [heel, toe] = onSample.ground;
    const below = (p: XY): number => p.y - heel.y - ((toe.y - heel.y) * (p.x - heel.x)) / (toe.x - heel.x);
    for (const node of nodes(capsule)) {
      if (node.kind === 'group' || node.classes?.includes('goes')) continue;
      for (const p of places(node)) expect(below(p)).toBeLessThan(scene.unit);
    }
    const dashed = nodes(capsule).filter(({ classes }) => classes?.includes('goes'));
    expect(new Set(dashed.map(({ data }) => data?.part))).toEqual(
      new Set(['wall.dorsal', 'horn.inner', 'wall.heel', 'sole']),
    );
  });

  it('hatches what goes and fills live sole', () => {
    const kinds = part(plate(), 'cut.sole')
      .flatMap(nodes)
      .flatMap(({ classes }) => classes ?? []);
    expect(kinds).toContain('live');
    expect(
      part(plate(), 'cut.heel')
        .flatMap(nodes)
        .flatMap(({ classes }) => classes ?? []),
    ).toContain('cut-hatch');
  });

  it('is the mirrored drawing on a mirrored foot', () => {
    const straight = plate({ picture: PICTURE, marker: null });
    const other = plate({
      picture: PICTURE,
      marker: null,
      placed: new Map([...SAMPLE_FOOT].map(([name, p]) => [name, flip(p)])),
      ground: [flip(SAMPLE_GROUND[0]), flip(SAMPLE_GROUND[1])],
    });
    for (const name of ['cut', 'capsule'] as const) {
      const of = (scene: Scene): XY[] => scene.layers.filter(({ data }) => data?.layer === name).flatMap(places);
      const a = of(straight).map(flip);
      const b = of(other);
      expect(b).toHaveLength(a.length);
      a.forEach((p, i) => expect(Math.hypot(p.x - b[i]!.x, p.y - b[i]!.y)).toBeLessThan(1e-6));
    }
  });

  it('has no word over another, over a label or off the sheet', () => {
    const number = fc.integer({ min: -300, max: 2300 });
    const point = fc.record({ x: number, y: number });
    const sliver = fc.record({
      part: fc.constantFrom('heel', 'toe', 'sole'),
      outline: fc.array(point, { maxLength: 6 }),
      face: fc.array(point, { maxLength: 3 }),
      text: fc.constantFrom('', '5 mm', 'live sole 1.7 mm', '12.5 mm back'),
    });
    const anyCut = fc.record({
      words: fc.constant('Plan'),
      ground: fc.tuple(point, point),
      slivers: fc.array(sliver, { maxLength: 8 }),
      turned: fc.constant(onSample.turned),
      turnWords: fc.constantFrom('', 'turns 2.2°'),
    });
    fc.assert(
      fc.property(
        fc.oneof(
          fc.constant(cut),
          anyCut.map((one) => carried(one, inFoot)),
        ),
        fc.subarray([...SAMPLE_FOOT]),
        fc.constantFrom(null, PICTURE),
        fc.constantFrom(1, 2),
        (given, kept, picture, lettering) => {
          const labels = [label('palmar-angle', 1), label('heel-angle', 2)];
          const scene = plate({ cut: given, placed: new Map(kept), picture, lettering, labels });
          readXml(sceneToSvg(scene));
          scene.cutBoxes.forEach((a, i) => {
            for (const b of [...scene.cutBoxes.slice(i + 1), ...scene.labelBoxes]) expect(meet(a, b)).toBe(false);
            expect(a.y + a.height).toBeLessThanOrEqual(scene.view.y + scene.view.height);
          });
        },
      ),
      { numRuns: 120 },
    );
  });

  it('is nothing on another view, on an empty plate and where it holds no numbers', () => {
    const none = (change: Partial<PlateInput>): void => {
      const scene = plate(change);
      expect(part(scene, 'cut')).toEqual([]);
      expect(scene.cutBoxes).toEqual([]);
    };
    none({ cut: null });
    none({ view: 'solar' });
    none({ placed: new Map() });
    none({ cut: { ...cut, ground: [{ x: Number.NaN, y: 0 }, cut.ground[1]] } });
    none({ cut: { ...cut, ground: [cut.ground[0], cut.ground[0]] } });
  });

  it('letters nothing where it is given no words', () => {
    const mute = { ...cut, turnWords: '', slivers: cut.slivers.map((one) => ({ ...one, text: '' })) };
    expect(words(plate({ cut: mute }))).toEqual([]);
  });
});

describe('a measure that a cut changes', () => {
  it('has both values in its label and a ring on its rule', () => {
    const scene = plate({ labels: [{ ...label('palmar-angle', 1), after: { value: 2.5, text: '2.5°' } }] });
    const svg = sceneToSvg(scene);
    expect(svg).toContain('→ 2.5°');
    expect(all(scene).filter(({ classes }) => classes?.includes('becomes'))).toHaveLength(1);
  });
});
