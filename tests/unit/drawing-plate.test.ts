import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { XY } from '../../shared/geometry/vector.ts';
import { DRAWN } from '../../shared/drawing/plate/measures-drawn.ts';
import { drawPlate, type PlateInput } from '../../shared/drawing/plate/plate.ts';
import { SAMPLE_FOOT, SAMPLE_GROUND } from '../../shared/drawing/foot/sample-foot.ts';
import { LAYERS, type LayerName, type Scene, type SceneNode } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { EVERY_LABEL, foot, label, nodes, PICTURE, places, readXml } from './drawing-help.ts';
import { findMeasure } from '../../shared/measures/registry.ts';

function layer(scene: Scene, name: LayerName): SceneNode {
  const found = scene.layers.find((l) => l.data?.layer === name);
  if (!found) throw new Error(`no layer ${name}`);
  return found;
}

function parts(scene: Scene): Set<string> {
  return new Set(scene.layers.flatMap(nodes).flatMap((n) => n.data?.part ?? []));
}

function only(...names: string[]): Map<string, { x: number; y: number }> {
  return new Map([...SAMPLE_FOOT].filter(([name]) => names.includes(name)));
}

describe('what is drawn', () => {
  it('has every layer, once, in order', () => {
    expect(drawPlate(foot()).layers.map((l) => l.data?.layer)).toEqual([...LAYERS]);
  });

  it('is the whole foot when all is placed', () => {
    const found = parts(drawPlate(foot()));
    for (const part of ['p1', 'p2', 'p3', 'navicular', 'cannon', 'flexor', 'extensor', 'cushion', 'sole', 'coronet']) {
      expect(found).toContain(part);
    }
    for (const part of ['horn.dorsal', 'horn.heel', 'horn.quarter', 'ground', 'marker']) expect(found).toContain(part);
  });

  it('is only what the placed landmarks bear out', () => {
    const drawn = (...names: string[]): Set<string> =>
      parts(drawPlate(foot({ placed: only(...names), ground: null, marker: null, labels: [] })));
    expect(drawn('p3.tip')).toEqual(new Set());
    expect(drawn('p3.tip', 'p3.wing')).toEqual(new Set(['p3', 'p3.margin']));
    expect(drawn('p3.tip', 'p3.wing', 'p3.extensor')).toEqual(new Set(['p3']));
    expect(drawn('coffin.centre', 'pastern.centre').has('p1')).toBe(false);
    expect(drawn('coffin.centre', 'pastern.centre').has('p2')).toBe(true);
    expect(drawn('navicular.upper')).toEqual(new Set());
    expect(drawn('wall.upper', 'wall.lower').has('horn.inner')).toBe(false);
    expect(drawn('wall.upper', 'wall.lower', 'wall.inner.upper', 'wall.inner.lower').has('horn.inner')).toBe(true);
  });

  it('runs through the places that were clicked', () => {
    const bones = places(layer(drawPlate(foot()), 'bones'));
    for (const name of ['p3.dorsal.upper', 'p3.extensor', 'p3.navicular', 'p3.wing', 'navicular.upper']) {
      const p = SAMPLE_FOOT.get(name)!;
      const near = Math.min(...bones.map((q) => Math.hypot(q.x - p.x, q.y - p.y)));
      expect(near, name).toBeLessThan(0.01);
    }
  });

  it('lies over the picture, pixel for pixel, with the labels outside it', () => {
    const scene = drawPlate(foot({ picture: PICTURE }));
    const image = nodes(layer(scene, 'picture')).find((n) => n.kind === 'image');
    expect(image?.kind === 'image' && image.box).toEqual({ x: 0, y: 0, width: 2000, height: 1900 });
    for (const box of scene.labelBoxes) {
      const left = box.x + box.width <= 0;
      expect(left || box.x >= PICTURE.width, box.measure).toBe(true);
    }
  });

  it('stands no mark on a film where there is none, and draws other views by their points', () => {
    const scene = drawPlate(foot({ view: 'front', labels: [label('p3-tilt')] }));
    expect(nodes(layer(scene, 'bones'))).toHaveLength(1);
    expect(nodes(layer(scene, 'landmarks')).filter((n) => n.classes?.includes('is-named'))).toHaveLength(
      SAMPLE_FOOT.size,
    );
    expect(scene.labelBoxes).toHaveLength(1);
  });

  it('lights the landmark or the measure under the cursor', () => {
    const lit = (highlight: string): SceneNode[] =>
      drawPlate(foot({ highlight }))
        .layers.flatMap(nodes)
        .filter((n) => n.classes?.includes('is-lit'));
    expect(lit('p3.tip').map((n) => n.data?.landmark)).toEqual(['p3.tip']);
    expect(lit('palmar-angle').map((n) => n.data?.measure)).toEqual(['palmar-angle', 'palmar-angle']);
  });

  it('letters a measure it has no lines for', () => {
    const scene = drawPlate(foot({ labels: [label('something-new'), label('constructor'), label('toString')] }));
    expect(scene.labelBoxes.map((b) => b.measure).sort()).toEqual(['constructor', 'something-new', 'toString']);
  });

  it('draws every lateral measure of its table on a whole shod foot', () => {
    const placed = new Map(SAMPLE_FOOT);
    placed.set('wall.turn', { x: 620, y: 1400 });
    const shoe = SAMPLE_GROUND.map(({ x, y }) => ({ x, y: y + 100 })) as [XY, XY];
    const scene = drawPlate(foot({ placed, bearing: SAMPLE_GROUND, ground: shoe }));
    const drawn = nodes(layer(scene, 'measures')).filter((n) => n.classes?.includes('measure'));
    const lateral = [...DRAWN.keys()].filter((name) => findMeasure(name)?.view === 'lateral');
    expect(drawn.map((n) => n.data?.measure).sort()).toEqual(lateral.sort());
  });
});

describe('a mirrored foot', () => {
  const flip = (p: { x: number; y: number }): { x: number; y: number } => ({
    x: PICTURE.width - p.x,
    y: p.y,
  });
  const straight = drawPlate(foot({ picture: PICTURE }));
  const mirrored = drawPlate(
    foot({
      picture: PICTURE,
      placed: new Map([...SAMPLE_FOOT].map(([name, p]) => [name, flip(p)])),
      ground: [flip(SAMPLE_GROUND[0]), flip(SAMPLE_GROUND[1])],
      marker: null,
    }),
  );

  it('gives the mirrored drawing', () => {
    for (const name of ['bones', 'capsule', 'soft'] as const) {
      const a = places(layer(straight, name)).map(flip);
      const b = places(layer(mirrored, name));
      expect(b.length).toBe(a.length);
      a.forEach((p, i) => expect(Math.hypot(p.x - b[i]!.x, p.y - b[i]!.y)).toBeLessThan(1e-6));
    }
    const lines = (scene: Scene): SceneNode[] =>
      nodes(layer(scene, 'measures')).filter((n) => n.classes?.includes('measure'));
    const a = lines(straight).flatMap(places).map(flip);
    const b = lines(mirrored).flatMap(places);
    a.forEach((p, i) => expect(Math.hypot(p.x - b[i]!.x, p.y - b[i]!.y)).toBeLessThan(1e-6));
  });

  it('has its labels on the other side', () => {
    straight.labelBoxes.forEach((box, i) => {
      const other = mirrored.labelBoxes[i]!;
      expect(other.side, box.measure).toBe(box.side === 'left' ? 'right' : 'left');
      expect(other.y).toBeCloseTo(box.y, 6);
    });
  });
});

describe('any landmarks at all', () => {
  const NAMES = [...SAMPLE_FOOT.keys(), 'wall.turn', 'wall.inner.upper', 'wall.inner.lower', 'p3.wing.other', '<x>'];
  const number = fc.oneof(
    { weight: 8, arbitrary: fc.double({ min: -200, max: 2200, noNaN: true }) },
    { weight: 2, arbitrary: fc.constantFrom(0, 100, 100.0000001, 1000) },
    { weight: 1, arbitrary: fc.constantFrom(Number.NaN, Infinity, 1e7, -1e7, 5e-324) },
  );
  const point = fc.record({ x: number, y: number });
  const pair = fc.option(fc.tuple(point, point));
  const input: fc.Arbitrary<PlateInput> = fc.record({
    foot: fc.constantFrom('LF', 'RF', 'LH', 'RH'),
    view: fc.constantFrom('lateral', 'lateral', 'lateral', 'front', 'solar'),
    placed: fc.array(fc.tuple(fc.constantFrom(...NAMES), point), { maxLength: 30 }).map((list) => new Map(list)),
    ground: pair,
    marker: pair,
    scale: fc.option(fc.constantFrom(0.1, 0, -1, 1e9, 1e-9, Number.NaN)),
    picture: fc.option(fc.constantFrom(PICTURE, { href: 'x', width: 0, height: 10 })),
    labels: fc.subarray(EVERY_LABEL),
    highlight: fc.option(fc.constantFrom(...NAMES, 'palmar-angle')),
  });

  it('never throw and never draw what is no number', () => {
    fc.assert(
      fc.property(input, (given) => {
        const scene = drawPlate(given);
        for (const p of scene.layers.flatMap(places)) {
          expect(Number.isFinite(p.x) && Number.isFinite(p.y)).toBe(true);
        }
        const { x, y, width, height } = scene.view;
        expect([x, y, width, height].every(Number.isFinite) && width > 0 && height > 0).toBe(true);
        const svg = sceneToSvg(scene);
        expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
        readXml(svg);
      }),
      { numRuns: 150 },
    );
  });

  it('leave the true foot whole when some of it is missing', () => {
    fc.assert(
      fc.property(fc.subarray([...SAMPLE_FOOT]), fc.boolean(), (kept, grounded) => {
        const scene = drawPlate(foot({ placed: new Map(kept), ground: grounded ? SAMPLE_GROUND : null }));
        readXml(sceneToSvg(scene));
        // Nothing flies off: each line stays within reach of the sheet.
        const room = scene.unit * 120 + Math.max(scene.view.width, scene.view.height);
        for (const p of scene.layers.flatMap(places)) {
          expect(Math.abs(p.x - scene.view.x - scene.view.width / 2)).toBeLessThan(room);
          expect(Math.abs(p.y - scene.view.y - scene.view.height / 2)).toBeLessThan(room);
        }
      }),
      { numRuns: 80 },
    );
  });
});
