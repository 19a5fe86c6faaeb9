import type { MeasureName } from '../../shared/measures/names.ts';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ruleDrawings } from '../../scripts/rule-scenes.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { readXml } from './drawing-help.ts';

const docs = new URL('../../docs/', import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, docs), 'utf8');
const drawings = ruleDrawings();

/** A measure on the first film of an example and on the last, as the product takes it there. */
function ends(name: string, measure: MeasureName): (string | undefined)[] {
  const { films } = inspect(readFileSync(new URL(`../examples/${name}.hoof`, docs), 'utf8')).study;
  return [films[0], films.at(-1)].map((film) => film?.readings[0]?.taking.values.get(measure)?.value.toFixed(1));
}

const lengths = (svg: string | undefined): number[] =>
  [...(svg ?? '').matchAll(/>([\d.]+) mm</g)].map(([, mm]) => Number(mm));

describe('the drawings that explain the rules', () => {
  it.each(Object.entries(drawings))('%s is what stands in docs, sound and small, and shown there', (name, svg) => {
    expect(read(`pictures/${name}`)).toBe(svg);
    expect(() => readXml(svg)).not.toThrow();
    expect(svg.length).toBeLessThan(30_000);
    expect(read('sinking.md') + read('rules.md')).toContain(`](pictures/${name})`);
  });

  // Half a pixel of rounding in the case files is 0.2 mm here.
  it.each([
    ['rule-stance.svg', 'sorrel', 'founder-distance', 0],
    ['rule-stance.svg', 'sorrel', 'founder-distance.level', 2],
    ['rule-sinking.svg', 'teasel', 'founder-distance.level', 0],
  ] as const)('%s letters what is measured on the films of %s: %s', (name, example, measure, from) => {
    const lettered = lengths(drawings[name]).slice(from, from + 2);
    expect(lettered).toHaveLength(2);
    ends(example, measure).forEach((value, index) =>
      expect(Math.abs(Number(value) - (lettered[index] ?? NaN))).toBeLessThanOrEqual(0.25),
    );
  });

  it('keeps the depth of a bone that only rotates', () => {
    const [before, after] = lengths(drawings['rule-rotating.svg']);
    expect(after).toBe(before);
    expect(drawings['rule-rotating.svg']).toMatch(/rotation 1°[^]*rotation 9°/);
  });

  it('is linked from the page of each rule that it explains', () => {
    for (const page of ['course-sinking', 'course-rotating', 'course-stands-flatter'])
      expect(read(`codes/${page}.md`)).toContain('](../sinking.md)');
    for (const page of [
      'scale-bone-length',
      'scale-other-foot',
      'course-tip-shorter',
      'alignment-outside-only',
      'range-wall-to-bone',
    ])
      expect(read(`codes/${page}.md`)).toContain('](../rules.md)');
  });

  it('letters what is measured on the first film of juniper', () => {
    const values = (measure: MeasureName): number => Number(ends('juniper', measure)[0]);
    const wall = drawings['rule-wall-to-bone.svg'] ?? '';
    const lettered = [...wall.matchAll(/>([\d.]+)</g)].map(([, mm]) => Number(mm)).slice(3);
    for (const [index, measure] of (
      ['horn-lamellar.upper', 'horn-lamellar.middle', 'horn-lamellar.lower'] as const
    ).entries())
      expect(Math.abs(values(measure) - (lettered[index] ?? NaN)), measure).toBeLessThanOrEqual(0.25);
    const share = Number(/31 % of the bone’s length/.exec(wall)?.[0].split(' ')[0]);
    expect(Math.abs(values('horn-lamellar-share') - share)).toBeLessThan(0.6);
    expect(drawings['rule-outside-only.svg']).toContain(`>${values('capsular-rotation').toFixed(0)}° apart<`);
    expect(lengths(drawings['rule-outside-only.svg'])).toEqual([Math.round(values('heel-surplus'))]);
  });

  it('draws the bones of the third film larger by what its marker is typed too long', () => {
    const mm = lengths(drawings['rule-bone-length.svg']);
    expect(mm.slice(3, 6)).toEqual(mm.slice(0, 3));
    mm.slice(6).forEach((one, index) => expect(one / (mm[index] ?? NaN)).toBeCloseTo(1.08, 2));
  });
});
