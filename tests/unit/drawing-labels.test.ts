import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandRule, RULE_LENGTH } from '../../shared/drawing/plate/band-rule.ts';
import { layOut, leaderStart } from '../../shared/drawing/plate/label-layout.ts';
import { fitted, widthInEm, wrapped } from '../../shared/drawing/plate/lettering.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import type { PlateLabel } from '../../shared/drawing/plate/plate-label.ts';
import { SAMPLE_FOOT } from '../../shared/drawing/foot/sample-foot.ts';
import type { Box } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { EVERY_LABEL, foot, label, nodes, PICTURE, places, readXml, STATES } from './drawing-help.ts';

function meet(a: Box, b: Box): boolean {
  const touch = 1e-6 * (a.width + a.height + b.width + b.height);
  return (
    a.x + a.width > b.x + touch &&
    b.x + b.width > a.x + touch &&
    a.y + a.height > b.y + touch &&
    b.y + b.height > a.y + touch
  );
}

const anyLabel: fc.Arbitrary<PlateLabel> = fc.record({
  measure: fc.oneof(fc.constantFrom(...EVERY_LABEL.map((l) => l.measure)), fc.string({ maxLength: 12 })),
  words: fc.oneof(fc.string({ maxLength: 80 }), fc.constantFrom('palmar angle', 'horn-lamellar distance, middle')),
  text: fc.oneof(fc.string({ maxLength: 40 }), fc.constant('7.4° ± 0.6')),
  value: fc.double({ noNaN: true, min: -1e4, max: 1e4 }),
  unit: fc.constantFrom('deg', 'mm', '%'),
  band: fc.option(
    fc.record({
      low: fc.option(fc.double({ noNaN: true, min: -100, max: 100 })),
      high: fc.option(fc.double({ noNaN: true, min: -100, max: 100 })),
    }),
  ),
  state: fc.constantFrom(...STATES),
});

describe('labels in the margin', () => {
  it('are all there, within the sheet, and none over another', () => {
    fc.assert(
      fc.property(
        fc.array(anyLabel, { maxLength: 30 }),
        fc.subarray([...SAMPLE_FOOT]),
        fc.constantFrom(null, PICTURE, { href: 'x', width: 300, height: 1500 }),
        fc.constantFrom(0.6, 1, 2),
        (labels, kept, picture, lettering) => {
          const scene = drawPlate(foot({ labels, placed: new Map(kept), picture, lettering }));
          expect(scene.labelBoxes.map((b) => b.measure)).toEqual(labels.map((l) => l.measure));
          scene.labelBoxes.forEach((a, i) => {
            expect(a.x).toBeGreaterThanOrEqual(scene.view.x);
            expect(a.y).toBeGreaterThanOrEqual(scene.view.y);
            expect(a.x + a.width).toBeLessThanOrEqual(scene.view.x + scene.view.width);
            expect(a.y + a.height).toBeLessThanOrEqual(scene.view.y + scene.view.height);
            for (const b of scene.labelBoxes.slice(i + 1)) expect(meet(a, b)).toBe(false);
          });
          readXml(sceneToSvg(scene));
        },
      ),
      { numRuns: 120 },
    );
  });

  it('are written in full, with value and state', () => {
    const svg = sceneToSvg(drawPlate(foot()));
    for (const { words, text, state } of EVERY_LABEL) {
      expect(svg).toContain(words.split(' ')[0]);
      expect(svg).toContain(text);
      if (state !== 'none') expect(svg).toContain(`>${state}</text>`);
    }
  });

  it('have leaders that do not cross within a column', () => {
    const scene = drawPlate(foot({ picture: PICTURE }));
    const side = (p: { x: number; y: number }, q: { x: number; y: number }, r: { x: number; y: number }): number =>
      (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    const labels = scene.layers.flatMap(nodes).filter((n) => n.classes?.includes('label'));
    const lines = labels.flatMap((n) => {
      const all = nodes(n);
      const stub = all.find((c) => c.kind === 'path' && c.classes?.includes('leader'));
      const spot = all.find((c) => c.kind === 'circle');
      const box = scene.labelBoxes.find((b) => b.measure === n.data?.measure);
      const knee = stub && places(stub)[1];
      return spot && knee && box ? [{ knee, spot: places(spot)[0]!, side: box.side }] : [];
    });
    expect(lines.length).toBeGreaterThan(20);
    lines.forEach((a, i) => {
      for (const b of lines.slice(i + 1)) {
        if (a.side !== b.side) continue;
        const crossing =
          side(a.knee, a.spot, b.knee) * side(a.knee, a.spot, b.spot) < -1e-6 &&
          side(b.knee, b.spot, a.knee) * side(b.knee, b.spot, a.spot) < -1e-6;
        expect(crossing).toBe(false);
      }
    });
  });

  it('stand at the height of their place where there is room', () => {
    const rules = {
      area: { x: 0, y: 0, width: 1000, height: 1000 },
      middle: 500,
      gutter: 40,
      gap: 5,
      hook: 6,
      knee: 10,
    };
    const wishes = [100, 400, 800].map((y) => ({ anchor: { x: 200, y }, width: 100, height: 20 }));
    layOut(wishes, rules).forEach((place, i) => {
      expect(place.side).toBe('left');
      expect(leaderStart(place, rules.hook)).toEqual({ x: -40, y: [100, 400, 800][i] });
    });
  });
});

describe('the rule with its band', () => {
  const xs = (l: PlateLabel, part: string): number[] =>
    nodes(bandRule(l, { x: 0, y: 0 }, 1))
      .filter((n) => n.classes?.includes(part))
      .flatMap(places)
      .map((p) => p.x);

  it('sets the tick inside, below or above the band as the value is', () => {
    const at = (value: number): number => xs({ ...label('x'), value, band: { low: 2, high: 8 } }, 'tick')[0]!;
    const band = xs({ ...label('x'), value: 5, band: { low: 2, high: 8 } }, 'band');
    expect(at(5)).toBeCloseTo(RULE_LENGTH / 2, 9);
    expect(at(1)).toBeLessThan(Math.min(...band));
    expect(at(9)).toBeGreaterThan(at(5));
  });

  it('never leaves the rule, however far the value', () => {
    fc.assert(
      fc.property(anyLabel, (l) => {
        for (const n of nodes(bandRule(l, { x: 0, y: 0 }, 1))) {
          for (const p of n.kind === 'group' ? [] : places(n)) {
            expect(p.x).toBeGreaterThanOrEqual(-0.5);
            expect(p.x).toBeLessThanOrEqual(RULE_LENGTH + 0.5);
          }
        }
      }),
    );
  });
});

describe('lettering', () => {
  it('keeps to its width', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 120 }), fc.integer({ min: 4, max: 20 }), (text, limit) => {
        expect(widthInEm(fitted(text, limit))).toBeLessThanOrEqual(limit + 1e-9);
        const lines = wrapped(text, limit);
        expect(lines.length).toBeLessThanOrEqual(3);
        for (const line of lines) expect(widthInEm(line)).toBeLessThanOrEqual(limit + 1e-9);
      }),
    );
  });
});
