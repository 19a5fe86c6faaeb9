import { describe, expect, it } from 'vitest';
import type { PublishedValue } from '../../shared/reference/published-value.ts';
import { values } from '../../shared/reference/values.ts';

// Figures as their sources print them, each beside its source; only such as were read there.

function rows(measure: string, source: string, words = ''): readonly PublishedValue[] {
  const found = values.filter(
    (row) => row.measure === measure && row.source === source && row.population.words.includes(words),
  );
  for (const row of found) expect(row.strength).toBe('read');
  return found;
}

const one = (measure: string, source: string, words = ''): PublishedValue => {
  const [row, ...more] = rows(measure, source, words);
  if (!row || more.length > 0) throw new Error(`${measure} of ${source}, ${words}: ${more.length} more`);
  return row;
};

describe('Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88', () => {
  it('palmar angle 2 to 10 degrees', () => {
    expect(one('palmar-angle', 'textbook')).toMatchObject({ low: 2, high: 10 });
  });
});

describe('Clements and others, Equine Vet Educ 2019', () => {
  it.each([
    ['without hind lameness, UK, left', 50, 1.8],
    ['without hind lameness, UK, right', 50, 1.4],
    ['hind-lame horses, UK, left', 132, -1],
    ['hind-lame horses, UK, right', 132, -1.1],
  ])('plantar angle, %s: n %d, mean %d degrees', (words, n, mean) => {
    expect(one('palmar-angle', 'clements', words)).toMatchObject({ n, mean, population: { feet: 'hind' } });
  });
});

describe('Hoof wall to distal phalanx ratio, 415 front feet of 279 horses', () => {
  it('mean 0.25, SD 0.03, range 0.19 to 0.36; median 0.25, IQR 0.23 to 0.26', () => {
    const [spread, middle] = rows('horn-lamellar-share', 'mullard');
    expect(spread).toMatchObject({
      n: 415,
      counted: 'feet',
      mean: 100 * 0.25,
      sd: 100 * 0.03,
      low: 100 * 0.19,
      high: 100 * 0.36,
    });
    expect(middle).toMatchObject({ median: 100 * 0.25, low: 100 * 0.23, high: 100 * 0.26, interval: 'IQR' });
  });
});

describe('Skelton and others, Equine Vet J 2025 (marginal means and 95 % CI)', () => {
  it.each([
    ['upper', 'healthy', 32, 7.3, 6.9, 7.7],
    ['middle', 'healthy', 32, 6.9, 6.5, 7.2],
    ['lower', 'healthy', 32, 7.5, 7, 8],
    ['upper', 'acute', 18, 8.8, 8.4, 9.2],
    ['middle', 'acute', 18, 8.9, 8.5, 9.3],
    ['lower', 'acute', 18, 9.2, 8.6, 9.7],
  ])('lamellar lucent zone, %s, %s: n %d, %d [%d-%d] mm', (place, words, n, mean, low, high) => {
    expect(one(`lamellar-zone.${place}`, 'skelton', words)).toMatchObject({ n, mean, low, high, interval: '95% CI' });
  });

  it('middle of the zone to palmar cortex 0.11', () => {
    expect(one('lamellar-share', 'skelton').high).toBe(100 * 0.11);
  });
});

describe('Floyd, dvm360 2011 (an expert’s experience)', () => {
  it('17/17 to 19/19 mm, outer wall to bone', () => {
    expect(one('horn-lamellar.upper', 'floyd')).toMatchObject({ low: 17, high: 19 });
    expect(one('horn-lamellar.lower', 'floyd')).toMatchObject({ low: 17, high: 19 });
  });

  it('palmar angle 5 to 9 degrees in grade I, 15 or more in grade III', () => {
    const read = values.filter((row) => row.source === 'floydGrades' && row.strength === 'read');
    expect(read.map(({ low, high }) => [low, high])).toEqual([
      [5, 9],
      [15, undefined],
    ]);
  });
});

describe('Dareh-Shori horses, Iran J Vet Surg: mean (SD) before and after trimming', () => {
  it.each([
    ['wall-angle', 'S', 50.05, 2.21, 51.4, 2.13],
    ['bone-angle', 'T', 48.65, 2.2, 50.6, 1.72],
    ['middle-angle', 'U', 45.65, 3.46, 47.9, 3],
    ['capsular-rotation', 'H = T - S', -2, 1.52, -1.65, 1.75],
    ['phalangeal-rotation', 'R = T - U', 3.3, 2.95, 3.4, 2.66],
    ['toe-length', 'dorsal wall length, 8.83 (1.19) and 8.53 (1.04) cm', 88.3, 11.9, 85.3, 10.4],
  ])('%s: %s', (measure, _printed, before, sdBefore, after, sdAfter) => {
    expect(one(measure, 'darehShori', 'before')).toMatchObject({ n: 10, mean: before, sd: sdBefore });
    expect(one(measure, 'darehShori', 'after')).toMatchObject({ n: 10, mean: after, sd: sdAfter });
  });
});

describe('Hunt, Equine Vet J 1993;25:61-64: rotation by outcome, 202 horses of which 9 were lost', () => {
  it.each([
    ['later sound', 57, 5.89, 6.48],
    ['lame at times', 20, 11.1, 8.19],
    ['lame for good', 19, 14.5, 10.8],
    ['died', 97, 7.49, 6.57],
  ])('%s: n %d, %d (%d) degrees', (words, n, mean, sd) => {
    expect(one('capsular-rotation', 'hunt', words)).toMatchObject({ n, mean, sd });
  });

  it('accounts for every horse', () => {
    expect(rows('capsular-rotation', 'hunt').reduce((sum, { n }) => sum + (n ?? 0), 9)).toBe(202);
  });
});
