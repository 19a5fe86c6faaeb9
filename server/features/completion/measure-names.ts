import { t } from '../../../shared/language/words.ts';
import type { HandMeasure } from '../../../shared/measures/by-hand.ts';
import type { MeasureUnit } from '../../../shared/measures/unit.ts';
import type { Measure } from '../../../shared/measures/registry.ts';
import type { Dimension } from '../../../shared/notation/signature.ts';
import { unitsOf } from '../../../shared/notation/units.ts';
import { code, paragraphs } from '../describe/markdown.ts';

const dimensions: Readonly<Record<MeasureUnit, Dimension | null>> = {
  deg: 'angle',
  mm: 'length',
  '%': 'share',
  '1': null,
};

/** The units that a value of the measure may be written in; none for a bare ratio, which the notation cannot state. */
export function unitsFor(measure: Pick<Measure, 'unit'>): string[] {
  const dimension = dimensions[measure.unit];
  return dimension ? unitsOf(dimension).map((unit) => unit.word) : [];
}

export function describeName(measure: Measure | HandMeasure): string {
  const formula = 'formula' in measure ? t('Formula: {0}', code(measure.formula)) : t('Taken on the hoof by hand.');
  return paragraphs(`**${measure.words}**`, measure.doc, formula);
}
