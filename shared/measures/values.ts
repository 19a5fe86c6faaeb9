import type { View } from '../notation/landmarks.ts';
import type { MeasureUnit } from './unit.ts';
import type { Measure } from './registry.ts';
import type { MeasureName } from './names.ts';
import { measuresIn } from './registry.ts';

export interface Value {
  readonly measure: Measure;
  readonly value: number;
  readonly unit: MeasureUnit;
  /** One standard deviation from the placings, in the measure's unit. */
  readonly sd: number;
  readonly axis?: 'short';
}

export type Values = ReadonlyMap<MeasureName, Value>;

const places: Readonly<Record<View, ReadonlyMap<MeasureName, number>>> = {
  lateral: placesIn('lateral'),
  front: placesIn('front'),
  solar: placesIn('solar'),
};

function placesIn(view: View): ReadonlyMap<MeasureName, number> {
  return new Map(measuresIn(view).map(({ name }, place) => [name, place]));
}

const untaken: Readonly<Record<View, readonly number[]>> = {
  lateral: untakenIn('lateral'),
  front: untakenIn('front'),
  solar: untakenIn('solar'),
};

function untakenIn(view: View): readonly number[] {
  return measuresIn(view).flatMap(() => [NaN, NaN]);
}

const never: ReadonlySet<number> = new Set();

/**
 * The values of one reading, in the order of the registry. A case holds a few dozen for each of its films, mostly to
 * be looked at once: they are kept as bare numbers, a tenth of what a map of them takes, and made when they are asked for.
 */
export class TakenValues implements Values {
  private readonly view: View;
  /** For each measure of the view its value and its standard deviation; NaN where it is not taken. */
  private readonly numbers: number[];
  /** The measures for which a shorter axis stood in, by their place in the view. */
  private short = never;

  constructor(view: View) {
    this.view = view;
    this.numbers = untaken[view].slice();
  }

  /** Only while the values are taken. */
  put(place: number, value: number, sd: number, axis: 'short' | undefined): void {
    this.numbers[2 * place] = value;
    this.numbers[2 * place + 1] = sd;
    if (axis) this.short = new Set([...this.short, place]);
  }

  get(name: MeasureName): Value | undefined {
    const place = places[this.view].get(name);
    return place === undefined ? undefined : this.at(place);
  }

  has(name: MeasureName): boolean {
    return this.get(name) !== undefined;
  }

  get size(): number {
    let size = 0;
    for (let place = 0; 2 * place < this.numbers.length; place++) if (this.isTaken(place)) size++;
    return size;
  }

  *values(): Generator<Value, undefined> {
    for (let place = 0; 2 * place < this.numbers.length; place++) {
      const value = this.at(place);
      if (value) yield value;
    }
  }

  *entries(): Generator<[MeasureName, Value], undefined> {
    for (const value of this.values()) yield [value.measure.name, value];
  }

  *keys(): Generator<MeasureName, undefined> {
    for (const { measure } of this.values()) yield measure.name;
  }

  [Symbol.iterator](): Generator<[MeasureName, Value], undefined> {
    return this.entries();
  }

  forEach(each: (value: Value, name: MeasureName, values: Values) => void): void {
    for (const value of this.values()) each(value, value.measure.name, this);
  }

  private isTaken(place: number): boolean {
    return !Number.isNaN(this.numbers[2 * place]);
  }

  private at(place: number): Value | undefined {
    if (!this.isTaken(place)) return undefined;
    const measure = measuresIn(this.view)[place] as Measure;
    const value = this.numbers[2 * place] as number;
    const sd = this.numbers[2 * place + 1] as number;
    const { unit } = measure;
    return this.short.has(place) ? { measure, value, unit, sd, axis: 'short' } : { measure, value, unit, sd };
  }
}
