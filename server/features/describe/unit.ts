import { findUnit, isUnit, units } from '../../../shared/notation/units.ts';
import type { Dimension } from '../../../shared/notation/signature.ts';
import { paragraphs } from './markdown.ts';

/** Null for no unit. Without a dimension every meaning of the word is told. */
export function describeUnit(word: string, dimension: Dimension | null): string | null {
  if (!isUnit(word)) return null;
  const meant = dimension && findUnit(word, dimension);
  const docs = meant
    ? [meant.doc]
    : [...new Set(units.filter((unit) => findUnit(word, unit.dimension) === unit).map((unit) => unit.doc))];
  return paragraphs(`**${word}** · ${docs.join(' ')}`);
}
