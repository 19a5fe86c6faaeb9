import { codeImage } from '../notation/check-items.ts';
import { decimal } from '../notation/decimal.ts';
import { findUnit, toBase } from '../notation/units.ts';
import type { FootName } from '../notation/choices.ts';
import type { Dimension } from '../notation/signature.ts';
import type { Item, ItemOf, Leaf, Span, Statement } from '../notation/tree.ts';
import type { Quantity, Segment, Words } from './schema.ts';

/** Reads one argument of a whole statement as a value; the parser has already checked its kind. */

export const spanOf = (part: Span): Span => ({ start: part.start, end: part.end });

function first<K extends Item['kind']>(statement: Statement, name: string, kind: K): ItemOf<K> | null {
  const { args } = statement;
  // A mark and what it stands before go by one name.
  const item = args.item(name)?.kind === kind ? args.item(name) : args.item(name, 1);
  return item?.kind === kind ? (item as ItemOf<K>) : null;
}

export function textOf(statement: Statement, name: string): Words | null {
  const item = first(statement, name, 'text');
  return item && { text: item.value, at: spanOf(item) };
}

export function wordOf(statement: Statement, name: string): string | null {
  return first(statement, name, 'word')?.image ?? null;
}

export function wordsOf(statement: Statement, name: string): { word: string; at: Span }[] {
  return (statement.args.get(name) ?? []).flatMap((item) =>
    item.kind === 'word' ? [{ word: item.image, at: spanOf(item) }] : [],
  );
}

export function feetOf(statement: Statement): FootName[] {
  return wordsOf(statement, 'feet').map(({ word }) => word as FootName);
}

export function dateOf(statement: Statement, name: string): { date: string; at: Span } | null {
  const item = first(statement, name, 'date');
  if (item) return { date: item.image, at: spanOf(item) };
  const year = first(statement, name, 'number');
  return year && { date: year.number.image, at: spanOf(year) };
}

export function codeOf(statement: Statement, name: string): string | null {
  const items = statement.args.get(name);
  return items ? codeImage(items) : null;
}

export function numberOf(statement: Statement, name: string): { value: number; at: Span } | null {
  const item = first(statement, name, 'number');
  return item && { value: decimal(item.number.image), at: spanOf(item) };
}

const dimensions: readonly Dimension[] = ['length', 'angle', 'share', 'mass', 'time', 'resolution'];

/** Shapes: mm, deg, %, kg, days or mm/px in `base`. Without a dimension the unit itself says which it is; a bare number has the unit 1. */
export function quantityOf(statement: Statement, name: string, dimension?: Dimension): Quantity | null {
  const item = first(statement, name, 'number');
  return item && readQuantity(item, dimension);
}

function readQuantity(item: ItemOf<'number'>, dimension?: Dimension): Quantity | null {
  const value = decimal(item.number.image);
  if (!item.unit) return dimension ? null : { value, unit: '1', base: value, at: spanOf(item) };
  for (const candidate of dimension ? [dimension] : dimensions) {
    const unit = findUnit(item.unit.image, candidate);
    const base = unit && toBase(item.number.image, unit);
    if (unit && base !== undefined) return { value, unit: unit.word, base, at: spanOf(item) };
  }
  return null;
}

const pair = (x: Leaf, y: Leaf) => ({ x: decimal(x.image), y: decimal(y.image) });

export function pointOf(statement: Statement, name: string): { x: number; y: number } | null {
  const item = first(statement, name, 'point');
  return item && pair(item.x, item.y);
}

export function segmentOf(statement: Statement, name: string): Segment | null {
  const item = first(statement, name, 'segment');
  return item && { from: pair(...item.from), to: pair(...item.to), at: spanOf(item) };
}

/** The number after `+-`. */
export function spreadOf(statement: Statement, name: string): ItemOf<'number'> | null {
  const item = statement.args.item(name, 1);
  return item?.kind === 'number' ? item : null;
}

export function spreadQuantityOf(statement: Statement, name: string): Quantity | null {
  const item = spreadOf(statement, name);
  return item && readQuantity(item);
}
