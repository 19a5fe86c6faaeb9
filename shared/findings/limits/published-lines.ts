import { figures } from '../../language/figures.ts';
import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import type { MeasureName } from '../../measures/names.ts';
import { findMeasure } from '../../measures/registry.ts';
import type { MeasureUnit } from '../../measures/unit.ts';
import type { JudgedAnimal } from '../../reference/bands.ts';
import { ownSource, type OwnValue } from '../../reference/own-set.ts';
import type { Figures } from '../../reference/published-value.ts';
import { citation } from '../../reference/sources.ts';
import { ofAnimal, rowsFor, valuesFor } from '../../reference/values.ts';
import type { Study } from '../../trim/study.ts';

/** What others have measured, a line each: figures, who, how many, from where. Sets of one's own come first. */
export function publishedLines(
  measure: MeasureName,
  foot: string,
  { animal, reference }: Pick<Study, 'reference'> & { readonly animal: JudgedAnimal },
): string[] {
  const unit = findMeasure(measure)?.unit ?? '1';
  const own = reference.flatMap((set) =>
    ofAnimal(rowsFor(set.values, measure, foot), animal).map((row) => sayPublished(row, unit, ownSource(set))),
  );
  const { values, borrowed } = valuesFor(measure, foot, animal);
  const published = values.map((row) => sayPublished(row, unit, citation(row.source, row.strength)));
  return [...own, ...published, ...(borrowed === null ? [] : [borrowed])];
}

function sayPublished(row: OwnValue, unit: MeasureUnit, source: string): string {
  const { population, n, counted, note } = row;
  const feet = feetWords[population.feet];
  const count =
    n === null
      ? ''
      : counted === 'animals'
        ? t(', {0} animals', n)
        : counted === 'feet'
          ? t(', {0} feet', n)
          : `, n = ${n}`;
  return `${sayFigures(row, unit)}: ${population.words}${feet}${count}${note ? ` (${note})` : ''}. ${source}.`;
}

const feetWords = spoken({ all: '', fore: ', fore feet', hind: ', hind feet' });

/** As printed, without rounding: `mean 4.1 mm ± 2.2, range -1.8 to 9.7 mm`. */
export function sayFigures({ mean, sd, median, about, low, high, interval }: Figures, unit: MeasureUnit): string {
  const spread = sd === undefined ? '' : ` ± ${sd}`;
  const parts = [
    mean !== undefined && t('mean {0}{1}', figure(mean, unit), spread),
    median !== undefined && t('median {0}', figure(median, unit)),
    about !== undefined && t('about {0}', figure(about, unit)),
    ends(low, high, unit, interval),
  ];
  return parts.filter((part) => part !== false).join(', ');
}

const intervals: Readonly<Record<NonNullable<Figures['interval']>, string>> = spoken({
  range: 'range ',
  '95% CI': '95 % CI ',
  IQR: 'IQR ',
  usual: 'usually ',
});

function ends(
  low: number | undefined,
  high: number | undefined,
  unit: MeasureUnit,
  interval: Figures['interval'],
): string | false {
  const kind = interval ? intervals[interval] : '';
  if (low !== undefined && high !== undefined)
    return t('{0}{1} to {2}', kind, unit === 'deg' ? figure(low, unit) : low, figure(high, unit));
  if (high !== undefined) return t('{0}up to {1}', kind, figure(high, unit));
  return low !== undefined && t('{0}from {1}', kind, figure(low, unit));
}

function figure(value: number, unit: MeasureUnit): string {
  const written = figures(value);
  return unit === 'deg' ? `${written}°` : unit === '1' ? written : `${written} ${unit}`;
}
