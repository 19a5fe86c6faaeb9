import { t } from '../language/words.ts';
import type { MeasureName } from '../measures/names.ts';
import type { JudgedAnimal } from './bands.ts';
import type { Severity } from './severity.ts';
import { sentenceOf } from './own-set-problem.ts';
import { ownSetSchema, type KnownMeasure } from './own-set-schema.ts';
import type { PublishedValue } from './published-value.ts';

/** A line that somebody's own set of reference values draws. */
export interface OwnBand {
  readonly measure: string;
  readonly feet: 'fore' | 'hind' | 'all';
  readonly animals: 'horses' | 'ponies' | 'donkeys' | 'all';
  readonly low?: number;
  readonly high?: number;
  readonly severity: Severity;
  readonly says?: string;
}

export type OwnValue = Omit<PublishedValue, 'source' | 'strength'>;

/** Reference values that a practice, a clinic or a yard keeps in a file of its own. */
export interface OwnSet {
  readonly name: string;
  readonly source: { readonly cite: string; readonly doi?: string };
  readonly bands: readonly OwnBand[];
  readonly values: readonly OwnValue[];
}

export type ReadOwnSet =
  { readonly set: OwnSet; readonly problem: null } | { readonly set: null; readonly problem: string };

/** Reads the text of a file. What is wrong with it comes as one sentence that begins with its place in the JSON. */
export function readOwnSet(json: string, measures: readonly KnownMeasure[]): ReadOwnSet {
  let data: unknown;
  try {
    data = JSON.parse(json.replace(/^\uFEFF/, ''));
  } catch (error) {
    return failed(t('this is not JSON: {0}.', (error as Error).message));
  }
  const read = ownSetSchema(measures).safeParse(data, { reportInput: true });
  if (!read.success) return failed(sentenceOf(read.error.issues, measures));
  const { name, source, bands = [], values = [] } = read.data;
  const units = new Map(measures.map((one) => [one.name, one.unit]));
  return {
    problem: null,
    set: {
      name: oneLine(name),
      source: { cite: oneLine(source.cite), ...(source.doi !== undefined && { doi: source.doi }) },
      bands: bands.map(({ measure, feet = 'all', animals = 'all', low, high, severity = 'warning', says }) => ({
        measure,
        feet,
        animals,
        severity,
        ...(low !== undefined && { low }),
        ...(high !== undefined && { high }),
        ...(says !== undefined && { says: oneLine(says) }),
      })),
      values: values.map((row) => ({ ...row, n: row.n ?? null, unit: units.get(row.measure) ?? '1' }) as OwnValue),
    },
  };
}

const failed = (problem: string): ReadOwnSet => ({ set: null, problem });
const oneLine = (words: string): string => words.replace(/\s+/g, ' ').trim();

/** The bands of a set for a measure on this foot: those made for the kind of animal, else those for all. */
export function ownBandsFor(
  { bands }: OwnSet,
  measure: MeasureName,
  foot: string,
  { kind }: JudgedAnimal,
): readonly OwnBand[] {
  const where = foot.endsWith('H') ? 'hind' : 'fore';
  const here = bands.filter((band) => band.measure === measure && [where, 'all'].includes(band.feet));
  const words: readonly OwnBand['animals'][] =
    kind === 'donkey' ? ['donkeys'] : kind === 'pony' ? ['ponies', 'horses'] : ['horses'];
  for (const animals of [...words, 'all'] as const) {
    const made = here.filter((band) => band.animals === animals);
    if (made.length > 0) return made;
  }
  return [];
}

/** A set as it is named where its figures are told. */
export function ownSource({ name, source }: OwnSet): string {
  return `${name}: ${source.cite}`;
}
