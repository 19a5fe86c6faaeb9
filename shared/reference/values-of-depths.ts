import type { PublishedValue } from './published-value.ts';

// prettier-ignore
export const depthValues: readonly PublishedValue[] = [
  {
    measure: 'founder-distance', unit: 'mm', n: 25, counted: 'animals', mean: 4.1, sd: 2.2, low: -1.8, high: 9.7, interval: 'range',
    source: 'cripps', strength: 'memory', population: { species: 'horse', feet: 'all', condition: 'sound', words: 'normal horses' },
    note: 'breeds differ',
  },
  {
    measure: 'coronet-extensor', unit: 'mm', n: null, high: 16, interval: 'usual', source: 'sherlock', strength: 'quoted',
    population: { species: 'horse', feet: 'all', condition: 'sound', words: 'horses' },
    note: 'above it the prognosis is poor',
  },
  {
    measure: 'coronet-extensor', unit: 'mm', n: null, low: 12, high: 15, interval: 'usual', source: 'reddenParks', strength: 'memory',
    population: { species: 'horse', feet: 'all', condition: 'sound', words: 'light horses' },
  },
  {
    measure: 'sole-depth.tip', unit: 'mm', n: null, low: 15, interval: 'usual', source: 'soleRule', strength: 'quoted',
    population: { species: 'horse', feet: 'all', condition: 'sound', words: 'horses, an expert’s rule' }, note: '10 mm for the corium, 5 mm of horn',
  },
  {
    measure: 'sole-depth.tip', unit: 'mm', n: 10, counted: 'animals', mean: 11.5, sd: 4.5, source: 'darehShori', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'apparently healthy Dareh-Shori horses, before a trim' },
  },
  {
    measure: 'sole-depth.tip', unit: 'mm', n: 10, counted: 'animals', mean: 8.6, sd: 3.3, source: 'darehShori', strength: 'read',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'apparently healthy Dareh-Shori horses, after a trim' },
  },
  {
    measure: 'sole-depth.tip', unit: 'mm', n: null, low: 12, interval: 'usual', source: 'parks', strength: 'memory',
    population: { species: 'horse', feet: 'all', condition: 'sound', words: 'light horses; less in foals and ponies' },
    note: 'thin where under 12 to 15 mm',
  },
];
