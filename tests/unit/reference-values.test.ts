import type { MeasureName } from '../../shared/measures/names.ts';
import { describe, expect, it } from 'vitest';
import { publishedLines, sayFigures } from '../../shared/findings/limits/published-lines.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { bands, type JudgedAnimal } from '../../shared/reference/bands.ts';
import { sources, strengthWords } from '../../shared/reference/sources.ts';
import { values, valuesFor } from '../../shared/reference/values.ts';

const animal = (kind: JudgedAnimal['kind']): JudgedAnimal => ({ kind, heightMm: null });
const named = values.map((row) => [`${row.measure}, ${row.population.words}`, row] as const);

describe.each(named)('%s', (_name, row) => {
  it('is of a measure that exists, in its unit', () => {
    const measure = findMeasure(row.measure);
    expect(measure?.name).toBe(row.measure);
    expect(row.unit).toBe(measure?.unit);
  });

  it('has a source with a strength, and people with words', () => {
    expect(Object.keys(sources)).toContain(row.source);
    expect(Object.keys(strengthWords)).toContain(row.strength);
    expect(row.population.words.length).toBeGreaterThan(5);
    if (row.strength === 'practice') expect(row.source).toBe('trade');
  });

  it('says a figure, and what its ends are, and does not contradict itself', () => {
    const { mean, median, about, low, high, sd, interval, n, counted } = row;
    const middles = [mean, median, about].filter((one) => one !== undefined);
    expect(middles.length + Number(low !== undefined) + Number(high !== undefined)).toBeGreaterThan(0);
    expect(interval !== undefined).toBe(low !== undefined || high !== undefined);
    expect(counted !== undefined).toBe(n !== null);
    if (sd !== undefined) {
      expect(mean).toBeDefined();
      expect(sd).toBeGreaterThan(0);
    }
    for (const middle of middles) {
      expect(middle).toBeGreaterThanOrEqual(low ?? -Infinity);
      expect(middle).toBeLessThanOrEqual(high ?? Infinity);
    }
    // Of n values none lies further from the mean than (n - 1) / sqrt(n) standard deviations (Samuelson's bound).
    if (mean !== undefined && sd !== undefined && n !== null && interval === 'range')
      for (const end of [low, high])
        expect(Math.abs((end ?? mean) - mean)).toBeLessThanOrEqual((sd * (n - 1)) / Math.sqrt(n));
    if (low !== undefined && high !== undefined) expect(low).toBeLessThan(high);
  });
});

describe('the conventions that are never mixed', () => {
  it('founder distance and the distance from the hairline rest on different sources', () => {
    const of = (measure: string) => new Set(values.filter((row) => row.measure === measure).map((row) => row.source));
    expect([...of('founder-distance')].filter((source) => of('coronet-extensor').has(source))).toEqual([]);
    const against = bands
      .filter(({ measure }) => measure === 'founder-distance')
      .flatMap(({ thresholds: cuts }) => cuts.flatMap((cut) => [cut, ...(cut.against ?? [])]));
    expect(against.map(({ source }) => source)).not.toContain('sherlock');
    expect(against.map(({ at }) => at)).not.toContain(16);
  });

  it('whole wall and lamellar zone do too', () => {
    const of = (start: string) =>
      new Set(values.filter((row) => row.measure.startsWith(start)).map((row) => row.source));
    expect([...of('horn-lamellar')].filter((source) => of('lamellar-').has(source))).toEqual([]);
  });
});

describe('the choice of values', () => {
  const sourcesOf = (measure: MeasureName, foot: string, kind: JudgedAnimal['kind']) => [
    ...new Set(valuesFor(measure, foot, animal(kind)).values.map(({ source }) => source)),
  ];

  it('goes by the foot', () => {
    expect(sourcesOf('palmar-angle', 'LF', 'horse')).toEqual(['textbook', 'floydGrades']);
    expect(sourcesOf('palmar-angle', 'RH', 'horse')).toEqual(['clements', 'pezzanite', 'hindFeet']);
    expect(sourcesOf('capsular-rotation', 'RH', 'horse')).toEqual(['hunt']);
  });

  it('goes by the animal: a donkey is never compared with horses', () => {
    expect(sourcesOf('palmar-angle', 'LF', 'donkey')).toEqual(['collins']);
    expect(valuesFor('sole-depth.tip', 'LF', animal('donkey'))).toEqual({
      values: [],
      borrowed: 'No figures of donkeys could be read.',
    });
    // Of what nobody has measured in horses either nothing needs to be said.
    expect(valuesFor('heel-height', 'LF', animal('donkey'))).toEqual({ values: [], borrowed: null });
  });

  it('gives mules, hinnies and ponies a horse’s, and says so', () => {
    for (const kind of ['mule', 'hinny', 'pony'] as const) {
      const { values: chosen, borrowed } = valuesFor('sole-depth.tip', 'LF', animal(kind));
      expect(chosen).toEqual(valuesFor('sole-depth.tip', 'LF', animal('horse')).values);
      expect(borrowed).toMatch(/^Horses’ values: .+\.$/);
    }
    expect(valuesFor('sole-depth.tip', 'LF', animal('pony')).borrowed).toContain('follow height');
    expect(valuesFor('wall-angle', 'LF', animal('pony')).borrowed).toContain('hardly depend on height');
    expect(valuesFor('horn-lamellar-share', 'LF', animal('pony')).borrowed).toBe('Horses’ values.');
    expect(valuesFor('sole-depth.tip', 'LF', animal(null)).borrowed).toBeNull();
    expect(valuesFor('heel-height', 'LF', animal('mule'))).toEqual({ values: [], borrowed: null });
  });
});

describe('a value in words', () => {
  it('stands as printed, with who, how many, from where and how sure', () => {
    const lines = publishedLines('founder-distance', 'LF', { animal: animal('mule'), reference: [] });
    expect(lines).toEqual([
      'mean 4.1 mm ± 2.2, range -1.8 to 9.7 mm: normal horses, 25 animals (breeds differ). Cripps and Eustace, Equine Vet J 1999;31:427-432, from memory.',
      'Horses’ values: none are known for mules.',
    ]);
    expect(sayFigures({ mean: 50.05, sd: 2.21 }, 'deg')).toBe('mean 50.05° ± 2.21');
    expect(sayFigures({ low: 2, high: 10, interval: 'range' }, 'deg')).toBe('range 2° to 10°');
    expect(sayFigures({ median: 25, low: 23, high: 26, interval: 'IQR' }, '%')).toBe('median 25 %, IQR 23 to 26 %');
    expect(sayFigures({ high: 16, interval: 'usual' }, 'mm')).toBe('usually up to 16 mm');
  });
});
