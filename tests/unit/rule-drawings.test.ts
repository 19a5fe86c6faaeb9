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
    expect(read('sinking.md')).toContain(`](pictures/${name})`);
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
  });
});
