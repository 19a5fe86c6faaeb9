import { severities } from './severity.ts';
import * as z from 'zod/mini';
import type { PublishedValue } from './published-value.ts';

/** What a set may speak of: the measures, which live further up in the house. */
export interface KnownMeasure {
  readonly name: string;
  readonly alias?: string;
  readonly unit: PublishedValue['unit'];
}

const described = (words: string) => z.describe(words);
const text = (longest: number, words: string) =>
  z.string().check(z.minLength(1), z.maxLength(longest), described(words));
const figure = (words: string) => z.optional(z.number().check(described(words)));

const inItsUnit = 'in the unit of the measure: degrees, millimetres or per cent.';
const figures = {
  mean: figure(`The mean, ${inItsUnit}`),
  sd: z.optional(z.number().check(z.nonnegative(), described('The standard deviation.'))),
  median: figure(`The median, ${inItsUnit}`),
  about: figure('A figure of which nobody knows whether it is a mean or a median.'),
  low: figure(`The lower end, ${inItsUnit}`),
  high: figure(`The upper end, ${inItsUnit}`),
};

const ordered = ({ low, high }: { low?: number | undefined; high?: number | undefined }): boolean =>
  low === undefined || high === undefined || low <= high;

/** The schema of the file, over the names of the measures. */
export function ownSetSchema(measures: readonly KnownMeasure[]) {
  const measure = z.enum(measures.map(({ name }) => name)).check(described('The measure, by its name in a case file.'));
  const feet = z.enum(['fore', 'hind', 'all']);
  const band = z
    .strictObject({
      measure,
      feet: z.optional(feet.check(described('The feet it holds for; all where it is left out.'))),
      animals: z.optional(
        z
          .enum(['horses', 'ponies', 'donkeys', 'all'])
          .check(
            described(
              'The animals it holds for; all where it is left out. Horses includes ponies that have no row of their own.',
            ),
          ),
      ),
      low: figure(`A value below this is told, ${inItsUnit}`),
      high: figure(`A value above this is told, ${inItsUnit}`),
      severity: z.optional(z.enum(severities).check(described('How it is told; warning where it is left out.'))),
      says: z.optional(text(500, 'What it means and what to do, told after the numbers.')),
    })
    .check(
      z.refine(({ low, high }) => low !== undefined || high !== undefined, { error: 'wants low, high or both' }),
      z.refine(ordered, { error: 'has a low above its high' }),
    );
  const value = z
    .strictObject({
      measure,
      population: z.strictObject({
        species: z.enum(['horse', 'pony', 'donkey']),
        feet,
        condition: z.enum(['sound', 'laminitis', 'lame', 'mixed']),
        words: text(200, 'Who was measured, in words.'),
      }),
      n: z.optional(z.int().check(z.positive(), described('How many were measured.'))),
      counted: z.optional(z.enum(['animals', 'feet']).check(described('What n counts.'))),
      ...figures,
      interval: z.optional(z.enum(['range', '95% CI', 'IQR', 'usual']).check(described('What low and high are.'))),
      note: z.optional(text(300, 'What else to know of it.')),
    })
    .check(
      z.refine((row) => [row.mean, row.median, row.about, row.low, row.high].some((one) => one !== undefined), {
        error: 'wants a mean, a median, about, low or high',
      }),
      z.refine(ordered, { error: 'has a low above its high' }),
    );
  return z.strictObject({
    $schema: z.optional(z.string()),
    'ungula-reference': z.literal(1).check(described('The version of this form of file: 1.')),
    name: text(80, 'What the set is called where its lines are told.'),
    source: z.strictObject({
      cite: text(300, 'Where the figures come from: a paper, or whose experience.'),
      doi: z.optional(text(200, 'The DOI of the paper.')),
    }),
    bands: z.optional(z.array(band).check(described('Lines that stand before the published ones of their measure.'))),
    values: z.optional(z.array(value).check(described('Values that only inform, shown with the published ones.'))),
  });
}
