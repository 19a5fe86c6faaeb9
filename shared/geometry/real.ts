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

/** Columns begin with room for a film with every landmark and a cut of it. */
const room = 1024;

/** Derivatives are wanted one result at a time, and no two sheets work at once: they share the space for them. */
let spare = new Float64Array(4 * room);

/** The record of one computation: which number was made of which, with the partial derivatives. */
export class Sheet {
  /** How many numbers are noted; what lies beyond in the columns is left over. */
  private length = 0;
  private first = new Int32Array(room);
  private second = new Int32Array(room);
  private byFirst = new Float64Array(room);
  private bySecond = new Float64Array(room);
  /** The inputs that have a variance: their indices, ascending, and the variances. */
  private readonly inputs: number[] = [];
  private readonly variances: number[] = [];

  /** An input with its standard deviation, in its own unit. */
  input(value: number, sd: number): Real {
    const made = this.note(value, -1, 0, -1, 0);
    if (sd > 0) {
      this.inputs.push(made.index);
      this.variances.push(sd * sd);
    }
    return made;
  }

  constant(value: number): Real {
    return this.note(value, -1, 0, -1, 0);
  }

  unary(value: number, a: Real, da: number): Real {
    return this.note(value, a.index, da, -1, 0);
  }

  binary(value: number, a: Real, da: number, b: Real, db: number): Real {
    return this.note(value, a.index, da, b.index, db);
  }

  /** Runs `work` and forgets what it noted: its results must leave as plain numbers. A sheet that is kept does not grow. */
  scratch<T>(work: () => T): T {
    const { length } = this;
    try {
      return work();
    } finally {
      this.length = length;
      while ((this.inputs.at(-1) ?? -1) >= length) {
        this.inputs.pop();
        this.variances.pop();
      }
    }
  }

  /** Derivatives of `result` by every number on the sheet up to it, by index; valid until the next call. */
  derivatives(result: Real): Float64Array {
    const { first, second, byFirst, bySecond } = this;
    const by = adjoints(result.index + 1);
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
    for (let n = 0; n < this.inputs.length; n++) {
      const i = this.inputs[n] as number;
      if (i > last) break;
      sum += (this.variances[n] as number) * (a[i] as number) * (b[i] as number);
    }
    return sum;
  }

  private note(value: number, a: number, da: number, b: number, db: number): Real {
    const index = this.length;
    if (index === this.first.length) this.widen();
    this.first[index] = a;
    this.byFirst[index] = da;
    this.second[index] = b;
    this.bySecond[index] = db;
    this.length = index + 1;
    return new Real(this, value, index);
  }

  private widen(): void {
    const wider = 2 * this.first.length;
    const widened = <C extends Int32Array | Float64Array>(column: C, empty: C): C => {
      empty.set(column);
      return empty;
    };
    this.first = widened(this.first, new Int32Array(wider));
    this.second = widened(this.second, new Int32Array(wider));
    this.byFirst = widened(this.byFirst, new Float64Array(wider));
    this.bySecond = widened(this.bySecond, new Float64Array(wider));
  }
}

function adjoints(length: number): Float64Array {
  if (spare.length < length) spare = new Float64Array(2 * length);
  else spare.fill(0, 0, length);
  return spare;
}
