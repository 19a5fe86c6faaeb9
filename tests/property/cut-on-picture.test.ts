import type { LandmarkName } from '../../shared/notation/landmarks.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { Frame } from '../../shared/geometry/frame.ts';
import { footAxes, ontoImage, placedIn } from '../../shared/geometry/foot-axes.ts';
import type { XY } from '../../shared/geometry/vector.ts';
import { cutShape, type CutShape } from '../../shared/views/cut-shape.ts';
import { stand, type CutSize } from '../../shared/trim/stand.ts';
import { anyFoot, toNotation, type RandomFoot } from './random-foot.ts';

interface Laid {
  readonly frame: Frame;
  readonly placed: Readonly<Record<string, XY>>;
  readonly ground: readonly [XY, XY] | null;
  readonly scale: number;
  /** Carried onto the picture as the drawing carries it, by the axes that it finds itself. */
  readonly cut: CutShape;
}

/** Hundredths of a millimetre: less is nothing that a landmark is said to have moved by. */
const hundredths = (most: number): fc.Arbitrary<number> => fc.integer({ min: 0, max: 100 * most }).map((n) => n / 100);

const size: fc.Arbitrary<CutSize> = fc
  .record({ heelDown: hundredths(20), toeDown: hundredths(8), toeBack: hundredths(10) })
  .filter(({ heelDown, toeDown, toeBack }) => heelDown + toeDown + toeBack > 0.01);

function laid(foot: RandomFoot, cutSize: CutSize): Laid | null {
  const [film] = inspect(toNotation(foot)).study.films;
  const reading = film?.readings[0];
  const frame = reading?.taking.frame;
  if (!film || !reading || !frame) return null;
  const placed = Object.fromEntries(reading.reading.placings.map(({ name, x, y }) => [name, { x, y }]));
  const ground = film.film.ground && ([film.film.ground.from, film.film.ground.to] as const);
  const cut = cutShape({ frame, earlier: [] }, cutSize);
  const scale = frame.scale?.value ?? NaN;
  const axes = footAxes('lateral', placedIn(new Map(Object.entries(placed))), ground);
  const onto = ({ x, y }: XY): XY => ontoImage(axes, { x: x / scale, y: y / scale });
  return cut && { frame, placed, ground, cut: carried(cut, onto), scale };
}

function carried({ ground, bend, slivers, turned }: CutShape, onto: (place: XY) => XY): CutShape {
  return {
    ground: [onto(ground[0]), onto(ground[1])],
    bend: bend && onto(bend),
    slivers: slivers.map((one) => ({ ...one, outline: one.outline.map(onto), face: one.face.map(onto) })),
    turned: Object.fromEntries(Object.entries(turned).map(([name, place]) => [name, onto(place)])),
  };
}

/** Square to the line, in pixels; which side is above the caller has to know. */
function apart([from, to]: readonly [XY, XY], p: XY): number {
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  return ((to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)) / long;
}

/** From one place to another along a line, in pixels. */
function along([from, to]: readonly [XY, XY], a: XY, b: XY): number {
  const long = Math.hypot(to.x - from.x, to.y - from.y);
  return ((to.x - from.x) * (b.x - a.x) + (to.y - from.y) * (b.y - a.y)) / long;
}

describe('a cut on the picture', () => {
  it('has every landmark as far above the new ground as the trim model, whichever way the foot faces and however it is tilted', () => {
    fc.assert(
      fc.property(anyFoot({ complete: true }), size, (foot, cutSize) => {
        const here = laid(foot, cutSize);
        if (!here) throw new Error('a complete film has its cut');
        const { frame, placed, ground, cut, scale } = here;
        const heights = frame.graph.scratch(() => {
          const stood = stand(frame, cutSize)?.frame;
          if (!stood) throw new Error('the model stands the foot');
          return new Map(stood.names.map((name) => [name, stood.at(name)?.y.value]));
        });
        const tip = placed['p3.tip'];
        if (!tip) throw new Error('no tip');
        const side = Math.sign(apart(cut.ground, tip)) * Math.sign(heights.get('p3.tip') ?? NaN);
        for (const [name, spot] of Object.entries({ ...placed, ...cut.turned })) {
          const y = heights.get(name as LandmarkName);
          if (y === undefined || name === 'p3.wing' || name === 'p3.wing.other') continue;
          expect(side * apart(cut.ground, spot) * scale, name).toBeCloseTo(y, 6);
        }
        const [heel, toe] = cut.ground;
        const { 'heel.ground': oldHeel, 'toe.ground': oldToe } = placed;
        if (!ground || !oldHeel || !oldToe) throw new Error('a complete film has its contacts');
        const up = Math.sign(apart(ground, tip));
        expect(up * apart(ground, heel) * scale).toBeCloseTo(cutSize.heelDown, 6);
        expect(up * apart(ground, toe) * scale).toBeCloseTo(cutSize.toeDown, 6);
        expect(along(ground, oldHeel, heel) * scale).toBeCloseTo(0, 6);
        const forward = Math.sign(along(ground, oldHeel, oldToe));
        expect(forward * along(ground, oldToe, toe) * scale).toBeCloseTo(-cutSize.toeBack, 6);
      }),
      { numRuns: 150 },
    );
  });

  it('on two planes stands every landmark over the heel’s plane as the model does on its heels', () => {
    const bent = fc
      .tuple(size, hundredths(80))
      .map(([one, more]): CutSize => ({ ...one, heelDown: one.heelDown + 0.5, heelFrom: 15 + more }));
    let drawnOnes = 0;
    fc.assert(
      fc.property(anyFoot({ complete: true }), bent, (foot, cutSize) => {
        const here = laid(foot, cutSize);
        if (!here?.cut.bend) return;
        drawnOnes += 1;
        const { frame, placed, cut, scale } = here;
        const heelPlane = [cut.ground[0], here.cut.bend] as const;
        const heights = frame.graph.scratch(() => {
          const stood = stand(frame, cutSize, 'heels')?.frame;
          if (!stood) throw new Error('the model stands the foot');
          return new Map(stood.names.map((name) => [name, stood.at(name)?.y.value]));
        });
        const tip = placed['p3.tip'];
        if (!tip) throw new Error('no tip');
        const side = Math.sign(apart(heelPlane, tip)) * Math.sign(heights.get('p3.tip') ?? NaN);
        for (const [name, spot] of Object.entries({ ...placed, ...cut.turned })) {
          const y = heights.get(name as LandmarkName);
          if (y === undefined || name === 'p3.wing' || name === 'p3.wing.other') continue;
          expect(side * apart(heelPlane, spot) * scale, name).toBeCloseTo(y, 6);
        }
      }),
      { numRuns: 100 },
    );
    expect(drawnOnes).toBeGreaterThan(80);
  });

  it('takes as much live sole as the model says, and says it where it is', () => {
    fc.assert(
      fc.property(anyFoot({ complete: true }), size, (foot, cutSize) => {
        const here = laid(foot, cutSize);
        if (!here) throw new Error('a complete film has its cut');
        const { frame, cut, scale } = here;
        const soleCut = frame.graph.scratch(() => stand(frame, cutSize))?.soleCut;
        const most = Math.max(...Object.values(soleCut ?? {}).map((depth) => depth ?? 0));
        const depths = cut.slivers
          .filter(({ part }) => part === 'sole')
          .map(({ outline }) => Math.max(...outline.map((p) => Math.abs(apart(cut.ground, p)))) * scale);
        if (most < 0.05) expect(depths).toEqual([]);
        else expect(Math.max(...depths)).toBeCloseTo(most, 6);
      }),
      { numRuns: 150 },
    );
  });

  it('moves nothing but the contacts, the pastern and the sole that is cut', () => {
    const may = /^(heel\.ground|toe\.ground|breakover|pastern\.centre|fetlock\.centre|sole\..*)$/;
    fc.assert(
      fc.property(anyFoot(), size, (foot, cutSize) => {
        const here = laid(foot, cutSize);
        for (const name of Object.keys(here?.cut.turned ?? {})) expect(name).toMatch(may);
      }),
      { numRuns: 150 },
    );
  });
});
