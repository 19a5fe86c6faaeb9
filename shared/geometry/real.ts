/**
 * Real numbers that remember how they were made, so that any result knows its exact derivative by every input
 * (reverse accumulation). A measure is written as plain arithmetic on them and gets its standard deviation for free.
 */
export class Real {
  readonly value: number;
  readonly sheet: Sheet;
  readonly index: number;

  constructor(sheet: Sheet, value: number, index: number) {
    this.sheet = sheet;
    this.value = value;
    this.index = index;
  }

  plus(other: Real | number): Real {
    return typeof other === 'number'
      ? this.sheet.unary(this.value + other, this, 1)
      : this.sheet.binary(this.value + other.value, this, 1, other, 1);
  }

  minus(other: Real | number): Real {
    return typeof other === 'number'
      ? this.sheet.unary(this.value - other, this, 1)
      : this.sheet.binary(this.value - other.value, this, 1, other, -1);
  }

  times(other: Real | number): Real {
    return typeof other === 'number'
      ? this.sheet.unary(this.value * other, this, other)
      : this.sheet.binary(this.value * other.value, this, other.value, other, this.value);
  }

  over(other: Real | number): Real {
    if (typeof other === 'number') return this.sheet.unary(this.value / other, this, 1 / other);
    const value = this.value / other.value;
    return this.sheet.binary(value, this, 1 / other.value, other, -value / other.value);
  }

  negated(): Real {
    return this.sheet.unary(-this.value, this, -1);
  }

  sine(): Real {
    return this.sheet.unary(Math.sin(this.value), this, Math.cos(this.value));
  }

  cosine(): Real {
    return this.sheet.unary(Math.cos(this.value), this, -Math.sin(this.value));
  }
}

/** Length of the vector (x, y). */
export function hypotenuse(x: Real, y: Real): Real {
  const value = Math.hypot(x.value, y.value);
  return x.sheet.binary(value, x, x.value / value, y, y.value / value);
}

/** Angle of the vector (x, y) from the +x axis, radians in (-π, π]. */
export function angleOf(y: Real, x: Real): Real {
  const square = x.value * x.value + y.value * y.value;
  return x.sheet.binary(Math.atan2(y.value, x.value), y, x.value / square, x, -y.value / square);
}

/** The record of one computation: which number was made of which, with the partial derivatives. */
export class Sheet {
  private readonly first: number[] = [];
  private readonly second: number[] = [];
  private readonly byFirst: number[] = [];
  private readonly bySecond: number[] = [];
  /** Variance of each input; 0 for a made number. */
  private readonly variance: number[] = [];
  /** Indices of the inputs that have a variance, ascending. */
  private readonly inputs: number[] = [];
  private spare = new Float64Array(256);

  /** An input with its standard deviation, in its own unit. */
  input(value: number, sd: number): Real {
    const made = this.note(value, -1, 0, -1, 0, sd * sd);
    if (sd > 0) this.inputs.push(made.index);
    return made;
  }

  constant(value: number): Real {
    return this.note(value, -1, 0, -1, 0, 0);
  }

  unary(value: number, a: Real, da: number): Real {
    return this.note(value, a.index, da, -1, 0, 0);
  }

  binary(value: number, a: Real, da: number, b: Real, db: number): Real {
    return this.note(value, a.index, da, b.index, db, 0);
  }

  /** Runs `work` and forgets what it noted: its results must leave as plain numbers. A sheet that is kept does not grow. */
  scratch<T>(work: () => T): T {
    const length = this.first.length;
    try {
      return work();
    } finally {
      for (const column of [this.first, this.second, this.byFirst, this.bySecond, this.variance])
        column.length = length;
      while ((this.inputs.at(-1) ?? -1) >= length) this.inputs.pop();
    }
  }

  /** Derivatives of `result` by every number on the sheet up to it, by index; valid until the next call. */
  derivatives(result: Real): Float64Array {
    const { first, second, byFirst, bySecond } = this;
    const by = this.adjoints(result.index + 1);
    by[result.index] = 1;
    for (let i = result.index; i >= 0; i--) {
      const weight = by[i] as number;
      if (weight === 0) continue;
      const a = first[i] as number;
      const b = second[i] as number;
      if (a >= 0) by[a] = (by[a] as number) + weight * (byFirst[i] as number);
      if (b >= 0) by[b] = (by[b] as number) + weight * (bySecond[i] as number);
    }
    return by;
  }

  private adjoints(length: number): Float64Array {
    if (this.spare.length < length) this.spare = new Float64Array(Math.max(length, 2 * this.spare.length));
    else this.spare.fill(0, 0, length);
    return this.spare;
  }

  /** First-order standard deviation: inputs independent, each with its own. */
  deviation(result: Real): number {
    const by = this.derivatives(result);
    return Math.sqrt(this.weighed(by, by, result.index));
  }

  /** First-order covariance of two results of this sheet. */
  covariance(one: Real, other: Real): number {
    const a = this.derivatives(one).slice(0, one.index + 1);
    return this.weighed(a, this.derivatives(other), Math.min(one.index, other.index));
  }

  private weighed(a: Float64Array, b: Float64Array, last: number): number {
    let sum = 0;
    for (const i of this.inputs) {
      if (i > last) break;
      sum += (this.variance[i] as number) * (a[i] as number) * (b[i] as number);
    }
    return sum;
  }

  private note(value: number, a: number, da: number, b: number, db: number, variance: number): Real {
    const index = this.first.length;
    this.first.push(a);
    this.byFirst.push(da);
    this.second.push(b);
    this.bySecond.push(db);
    this.variance.push(variance);
    return new Real(this, value, index);
  }
}
