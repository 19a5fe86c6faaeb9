import type { MeasureName } from '../measures/names.ts';
import type { PublishedValue } from './published-value.ts';

const controls = { species: 'horse', feet: 'hind', condition: 'sound' } as const;
const hindLame = { species: 'horse', feet: 'hind', condition: 'lame' } as const;
const soundDonkeys = { species: 'donkey', feet: 'fore', condition: 'sound', words: 'normal donkeys' } as const;
const laminiticDonkeys = {
  species: 'donkey',
  feet: 'fore',
  condition: 'laminitis',
  words: 'donkeys with laminitis',
} as const;
const collinsSound = {
  population: soundDonkeys,
  n: 83,
  counted: 'animals',
  unit: 'deg',
  source: 'collins',
  strength: 'quoted',
} as const;
const collinsLaminitis = {
  population: laminiticDonkeys,
  n: 74,
  counted: 'animals',
  unit: 'deg',
  source: 'collins',
  strength: 'quoted',
} as const;

/** Photographs of the hoof from the side, both sexes, breeds mixed. */
const capsules = (
  feet: 'fore' | 'hind',
  measure: MeasureName,
  figures: Partial<PublishedValue>,
  note?: string,
): PublishedValue => ({
  measure,
  unit: 'deg',
  n: 225,
  counted: 'animals',
  ...figures,
  source: 'hindFeet',
  strength: 'read',
  population: { species: 'horse', feet, condition: 'mixed', words: 'horses and ponies of various breeds' },
  ...(note !== undefined && { note }),
});

const hunt = (outcome: string, n: number, mean: number, sd: number): PublishedValue => ({
  measure: 'capsular-rotation',
  unit: 'deg',
  n,
  counted: 'animals',
  mean,
  sd,
  source: 'hunt',
  strength: 'read',
  population: { species: 'horse', feet: 'all', condition: 'laminitis', words: `horses with laminitis${outcome}` },
});

const dareh = (
  measure: MeasureName,
  before: readonly [mean: number, sd: number],
  after: readonly [mean: number, sd: number],
  note?: string,
): PublishedValue[] =>
  (
    [
      ['before a trim', before],
      ['after a trim', after],
    ] as const
  ).map(([when, [mean, sd]]) => ({
    measure,
    unit: 'deg',
    n: 10,
    counted: 'animals',
    mean,
    sd,
    source: 'darehShori',
    strength: 'read',
    population: {
      species: 'horse',
      feet: 'fore',
      condition: 'sound',
      words: `apparently healthy Dareh-Shori horses, ${when}`,
    },
    ...(note !== undefined && { note }),
  }));

const floyd = (
  words: string,
  figures: Pick<PublishedValue, 'low' | 'high'>,
  strength: 'read' | 'memory',
): PublishedValue => ({
  measure: 'palmar-angle',
  unit: 'deg',
  n: null,
  ...figures,
  interval: 'usual',
  source: 'floydGrades',
  strength,
  population: { species: 'horse', feet: 'fore', condition: 'laminitis', words },
});

// prettier-ignore
export const angleValues: readonly PublishedValue[] = [
  {
    measure: 'palmar-angle', unit: 'deg', n: null, low: 2, high: 10, interval: 'range', source: 'textbook', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'horses, as a textbook gives it' }, note: 'usually 3 to 5°',
  },
  floyd('horses with laminitis, Floyd’s grade I', { low: 5, high: 9 }, 'read'),
  floyd('horses with laminitis, Floyd’s grade II', { low: 10, high: 14 }, 'memory'),
  floyd('horses with laminitis, Floyd’s grade III', { low: 15 }, 'read'),
  { measure: 'palmar-angle', population: { ...controls, words: 'horses without hind lameness, UK, left side' }, n: 50, counted: 'animals', mean: 1.8, unit: 'deg', source: 'clements', strength: 'read' },
  { measure: 'palmar-angle', population: { ...controls, words: 'horses without hind lameness, UK, right side' }, n: 50, counted: 'animals', mean: 1.4, unit: 'deg', source: 'clements', strength: 'read' },
  { measure: 'palmar-angle', population: { ...hindLame, words: 'hind-lame horses, UK, left side' }, n: 132, counted: 'animals', mean: -1, unit: 'deg', source: 'clements', strength: 'read' },
  { measure: 'palmar-angle', population: { ...hindLame, words: 'hind-lame horses, UK, right side' }, n: 132, counted: 'animals', mean: -1.1, unit: 'deg', source: 'clements', strength: 'read' },
  {
    measure: 'palmar-angle', population: { ...controls, words: 'sound sport and pleasure horses' }, n: 80, counted: 'animals', median: 0.9,
    unit: 'deg', source: 'pezzanite', strength: 'quoted', note: 'lame cases lay 1.76° lower on the mean',
  },
  { measure: 'palmar-angle', about: 8, ...collinsSound },
  { measure: 'palmar-angle', about: 11, ...collinsLaminitis },
  { measure: 'wall-angle', about: 62, ...collinsSound },
  { measure: 'bone-angle', about: 64, ...collinsSound },
  { measure: 'capsular-rotation', about: 12.5, ...collinsLaminitis },
  {
    measure: 'wall-angle', unit: 'deg', n: null, about: 45, source: 'wikivet', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'mixed', words: 'horses in general' }, note: 'an older figure',
  },
  {
    measure: 'wall-angle', unit: 'deg', n: null, low: 50, high: 55, interval: 'usual', source: 'wikivet', strength: 'read',
    population: { species: 'horse', feet: 'hind', condition: 'mixed', words: 'horses in general' },
  },
  ...dareh('wall-angle', [50.05, 2.21], [51.4, 2.13]),
  ...dareh('bone-angle', [48.65, 2.2], [50.6, 1.72]),
  ...dareh('middle-angle', [45.65, 3.46], [47.9, 3]),
  ...dareh('capsular-rotation', [-2, 1.52], [-1.65, 1.75], 'as printed; it is not the difference of the printed angles'),
  ...dareh('phalangeal-rotation', [3.3, 2.95], [3.4, 2.66], 'as printed; it is not the difference of the printed angles'),
  hunt(', later sound', 57, 5.89, 6.48),
  hunt(', later lame at times', 20, 11.1, 8.19),
  hunt(', later lame for good', 19, 14.5, 10.8),
  hunt(' that died', 97, 7.49, 6.57),
  {
    measure: 'toe-heel-difference', unit: 'deg', n: null, high: 5, interval: 'usual', source: 'trade', strength: 'practice',
    population: { species: 'horse', feet: 'all', condition: 'mixed', words: 'horses; heels are called underrun beyond it' },
    note: 'most feet lie beyond it: 225 horses had means 11.7° apart in front and 14.5° behind',
  },
  capsules('fore', 'wall-angle', { mean: 51.8, sd: 3.9 }, 'from photographs; smaller in Thoroughbreds than in ponies'),
  capsules('hind', 'wall-angle', { mean: 50.9, sd: 3.7 }, 'from photographs'),
  capsules('fore', 'heel-angle', { mean: 40.1, sd: 9.3 }, 'from photographs; larger in unshod feet'),
  capsules('hind', 'heel-angle', { mean: 36.4, sd: 9.6 }, 'from photographs; larger in unshod feet'),
  capsules('hind', 'palmar-angle', { median: 0.6, low: -1.4, high: 2.3, interval: 'IQR' }),
  {
    measure: 'wall-angle', unit: 'deg', n: 61, counted: 'animals', about: 62, source: 'rosanowski', strength: 'quoted',
    population: { species: 'donkey', feet: 'fore', condition: 'mixed', words: 'working draught donkeys, Pakistan' }, note: 'from photographs; nine in ten were lame',
  },
  {
    measure: 'wall-angle', unit: 'deg', n: 133, counted: 'animals', about: 51, source: 'icelandic', strength: 'quoted',
    population: { species: 'horse', feet: 'all', condition: 'mixed', words: 'Icelandic competition horses, shod' },
  },
  {
    measure: 'coronet-angle', unit: 'deg', n: null, about: 23.5, source: 'trade', strength: 'practice',
    population: { species: 'horse', feet: 'fore', condition: 'mixed', words: 'horses' },
  },
  {
    measure: 'coronet-angle', unit: 'deg', n: null, low: 25, high: 30, interval: 'usual', source: 'trade', strength: 'practice',
    population: { species: 'horse', feet: 'fore', condition: 'mixed', words: 'horses, what a trim aims at' },
  },
];
