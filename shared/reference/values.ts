import { t } from '../language/words.ts';
import { spoken, spokenRows } from '../language/rows.ts';
import type { MeasureName } from '../measures/names.ts';
import type { JudgedAnimal } from './bands.ts';
import type { Population, PublishedValue } from './published-value.ts';
import { angleValues } from './values-of-angles.ts';
import { depthValues } from './values-of-depths.ts';
import { wallValues } from './values-of-the-wall.ts';

/** Every published value of a measure that is computed here. They only inform: findings come from the bands. */
export const values: readonly PublishedValue[] = spokenRows([...angleValues, ...depthValues, ...wallValues], 'note');
spokenRows(
  values.map(({ population }) => population),
  'words',
);

export interface ChosenValues {
  readonly values: readonly PublishedValue[];
  /** Set where the values are of another kind of animal than the case's, or where there are none of its kind. */
  readonly borrowed: string | null;
}

/** The values for this measure on this foot and kind of animal; where none are known, a horse's with a word that says so. */
export function valuesFor(measure: MeasureName, foot: string, animal: JudgedAnimal): ChosenValues {
  const rows = rowsFor(values, measure, foot);
  const chosen = ofAnimal(rows, animal);
  const isGap = animal.kind === 'donkey' && chosen.length === 0 && rows.length > 0;
  return { values: chosen, borrowed: isGap ? t('No figures of donkeys could be read.') : borrowed(chosen, animal) };
}

type OfPopulation = Pick<PublishedValue, 'measure' | 'population'>;

/** The rows of a measure that hold for this foot, of whatever animal. */
export function rowsFor<R extends OfPopulation>(rows: readonly R[], measure: MeasureName, foot: string): R[] {
  const where = foot.endsWith('H') ? 'hind' : 'fore';
  return rows.filter((row) => row.measure === measure && [where, 'all'].includes(row.population.feet));
}

/** A donkey's foot is another shape, so that a horse's values would mislead; every other animal falls back on them. */
export function ofAnimal<R extends OfPopulation>(rows: readonly R[], { kind }: JudgedAnimal): R[] {
  const of = (species: Population['species']) => rows.filter((row) => row.population.species === species);
  if (kind === 'donkey') return of('donkey');
  const own = kind === 'pony' ? of('pony') : [];
  return own.length > 0 ? own : of('horse');
}

/** Nothing is at hand on ratios of pony feet. */
const ponyWords: Readonly<Record<PublishedValue['unit'], string>> = spoken({
  mm: ': lengths of pony feet follow height (Thieme 2015)',
  deg: ': angles of pony feet hardly depend on height (Thieme 2015)',
  '%': '',
  '1': '',
});

function borrowed([first]: readonly PublishedValue[], { kind }: JudgedAnimal): string | null {
  if (first?.population.species !== 'horse') return null;
  switch (kind) {
    case 'pony':
      return t('Horses’ values{0}.', ponyWords[first.unit]);
    case 'mule':
    case 'hinny':
      return t('Horses’ values: none are known for {0}.', kind === 'mule' ? t('mules') : t('hinnies'));
    default:
      return null;
  }
}
