import type { Figures, PublishedValue } from './published-value.ts';

const places = ['upper', 'middle', 'lower'] as const;

/** Marginal means and their 95 % confidence intervals. */
const skelton = (
  population: PublishedValue['population'],
  n: number,
  [upper, middle, lower]: readonly [Triple, Triple, Triple],
): PublishedValue[] =>
  places.map((place, index) => {
    const [mean, low, high] = [upper, middle, lower][index] as Triple;
    return {
      measure: `lamellar-zone.${place}`,
      unit: 'mm',
      population,
      n,
      counted: 'animals',
      mean,
      low,
      high,
      interval: '95% CI',
      source: 'skelton',
      strength: 'read',
      ...(place === 'middle' &&
        population.condition === 'sound' && {
          note: 'above 7.5 mm told acute laminitis with a sensitivity of 87 % and a specificity of 91 %',
        }),
    };
  });
type Triple = readonly [mean: number, low: number, high: number];

const bothLevels = (rest: Omit<PublishedValue, 'measure' | 'unit' | 'n'>): PublishedValue[] =>
  (['upper', 'lower'] as const).map((place) => ({ measure: `horn-lamellar.${place}`, unit: 'mm', n: null, ...rest }));

const shareOfMullard = (figures: Figures, note: string): PublishedValue => ({
  measure: 'horn-lamellar-share',
  unit: '%',
  n: 415,
  counted: 'feet',
  ...figures,
  source: 'mullard',
  strength: 'read',
  note,
  population: {
    species: 'horse',
    feet: 'fore',
    condition: 'lame',
    words: 'foot-sore horses and ponies without laminitis, mixed breeds',
  },
});

// prettier-ignore
export const wallValues: readonly PublishedValue[] = [
  ...bothLevels({
    low: 17, high: 19, interval: 'usual', source: 'floyd', strength: 'read', note: 'the same at both levels',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'grown light horses' },
  }),
  ...bothLevels({
    low: 15, high: 20, interval: 'usual', source: 'redden', strength: 'memory', note: 'the same at both levels',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'Thoroughbred racehorses (15 mm) to Standardbreds and Warmbloods (up to about 20 mm)' },
  }),
  ...skelton(
    { species: 'horse', feet: 'fore', condition: 'sound', words: 'healthy horses, mixed breeds' }, 32,
    [[7.3, 6.9, 7.7], [6.9, 6.5, 7.2], [7.5, 7, 8]],
  ),
  ...skelton(
    { species: 'horse', feet: 'fore', condition: 'laminitis', words: 'acute laminitis without rotation of 3° or more, mixed breeds' }, 18,
    [[8.8, 8.4, 9.2], [8.9, 8.5, 9.3], [9.2, 8.6, 9.7]],
  ),
  shareOfMullard({ mean: 25, sd: 3, low: 19, high: 36, interval: 'range' }, '42.2 % of the feet above 25 %'),
  shareOfMullard({ median: 25, low: 23, high: 26, interval: 'IQR' }, 'older limits quoted there: 25 to 30 %'),
  {
    measure: 'horn-lamellar-share', unit: '%', n: null, high: 28, interval: 'usual', source: 'linford', strength: 'memory',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'sound Thoroughbred racehorses' }, note: 'an upper end of 25 to 28 %',
  },
  {
    measure: 'lamellar-share', unit: '%', n: 32, counted: 'animals', high: 11, interval: 'usual', source: 'skelton', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'healthy horses, mixed breeds' },
    note: 'told acute laminitis with a sensitivity and a specificity of 95 %',
  },
  {
    measure: 'toe-length', unit: 'mm', n: 10, counted: 'animals', mean: 88.3, sd: 11.9, source: 'darehShori', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'apparently healthy Dareh-Shori horses, before a trim' },
  },
  {
    measure: 'toe-length', unit: 'mm', n: 10, counted: 'animals', mean: 85.3, sd: 10.4, source: 'darehShori', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'apparently healthy Dareh-Shori horses, after a trim' },
  },
  {
    measure: 'horn-lamellar.middle', unit: 'mm', n: null, low: 11, high: 14, interval: 'usual', source: 'mansoura', strength: 'read',
    population: { species: 'donkey', feet: 'all', condition: 'sound', words: 'donkeys over two years with normal feet, Egypt' }, note: 'called wall thickness; the level is not told',
  },
  {
    measure: 'cortex-length', unit: 'mm', n: null, low: 33, high: 35, interval: 'usual', source: 'mansoura', strength: 'read',
    population: { species: 'donkey', feet: 'all', condition: 'sound', words: 'donkeys over two years with normal feet, Egypt' },
  },
  {
    measure: 'toe-length', unit: 'mm', n: 61, counted: 'animals', about: 65, source: 'rosanowski', strength: 'quoted',
    population: { species: 'donkey', feet: 'fore', condition: 'mixed', words: 'working draught donkeys, Pakistan' }, note: 'from photographs',
  },
  {
    measure: 'toe-length', unit: 'mm', n: 133, counted: 'animals', about: 89, source: 'icelandic', strength: 'quoted',
    population: { species: 'horse', feet: 'all', condition: 'mixed', words: 'Icelandic competition horses, shod' },
  },
  {
    measure: 'toe-length', unit: 'mm', n: 22, counted: 'animals', mean: 56, sd: 23, source: 'hassanpour', strength: 'read',
    population: { species: 'donkey', feet: 'fore', condition: 'mixed', words: 'donkeys with overgrown feet, after a trim' }, note: '122 ± 41 mm before',
  },
  {
    measure: 'toe-length', unit: 'mm', n: 22, counted: 'animals', mean: 61, sd: 14, source: 'hassanpour', strength: 'read',
    population: { species: 'donkey', feet: 'hind', condition: 'mixed', words: 'donkeys with overgrown feet, after a trim' }, note: '83 ± 42 mm before',
  },
  {
    measure: 'breakover-reach', unit: 'mm', n: null, low: 20, high: 25, interval: 'usual', source: 'reddenTrade', strength: 'memory',
    population: { species: 'horse', feet: 'fore', condition: 'mixed', words: 'unshod horses' },
  },
  {
    measure: 'toe-share', unit: '%', n: null, low: 50, high: 60, interval: 'usual', source: 'grady', strength: 'memory',
    population: { species: 'horse', feet: 'all', condition: 'mixed', words: 'horses, by convention' },
  },
];
