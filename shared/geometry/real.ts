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
  const value = lengthOf(x.value, y.value);
  return x.sheet.binary(value, x, x.value / value, y, y.value / value);
}

/** Angle of the vector (x, y) from the +x axis, radians in (-π, π]. */
export function angleOf(y: Real, x: Real): Real {
  const square = x.value * x.value + y.value * y.value;
  return x.sheet.binary(Math.atan2(y.value, x.value), y, x.value / square, x, -y.value / square);
}

/** `Math.hypot` guards against squares that overflow or vanish and is slow for it; picture and foot never come near. */
export function lengthOf(x: number, y: number): number {
  const square = x * x + y * y;
  return square > 1e-200 && square < 1e200 ? Math.sqrt(square) : Math.hypot(x, y);
}

/** The columns on which sheets note. They begin with room for a film with every landmark and a cut of it. */
class Table {
  /** Whose notes stand in the columns. */
  owner: Sheet | null = null;
  /** What the owner laid out, for as long as its notes stand here. */
  laid: unknown = null;
  /** How many pieces of work of the owner are not done yet. */
  busy = 0;
  /** How many numbers are noted; what lies beyond in the columns is left over. */
  length = 0;
  /** Where each number's edges end; they begin where those of the number before end. */
  ends = new Int32Array(512);
  /** The variance of each number that is an input, 0 of every other. */
  variances = new Float64Array(512);
  /** An edge leads to a number that another was made of, with the partial derivative. */
  edges = 0;
  parents = new Int32Array(2048);
  partials = new Float64Array(2048);
}

/**
 * Shared by all sheets that can be laid out anew, by turns. Rules look from a film at the next of the foot and back: so
 * many films later it is still laid out. There are more only where work on as many sheets at once needs another one.
 */
const tables: Table[] = Array.from({ length: 8 }, () => new Table());
let turn = 0;

/** Derivatives are wanted one result at a time, and no two sheets work at once: they share the space for them. */
let spare = new Float64Array(1024);

/** For `deviation`, which leaves both all 0: derivatives by index, and a bit for each number that is still to be looked at. */
class Pending {
  readonly weights: Float64Array;
  readonly waiting: Int32Array;

  constructor(room: number) {
    this.weights = new Float64Array(room);
    this.waiting = new Int32Array(room / 32);
  }
}

let pending = new Pending(1024);

/**
 * The record of one computation: which number was made of which, with the partial derivatives. A sheet that is made with
 * `lay` keeps no columns: it notes on a table that such sheets share, and where another has used the table since, `lay`
 * runs again. So it must note the same each time, and what comes after it is noted in `scratch`.
 */
export class Sheet<L = unknown> {
  private table: Table;
  private readonly lay: ((sheet: Sheet) => L) | null;

  constructor(lay: ((sheet: Sheet) => L) | null = null) {
    this.lay = lay;
    if (lay) this.table = this.layOut(lay);
    else {
      this.table = new Table();
      this.table.owner = this;
    }
  }

  /** What `lay` gave. Not to be kept: it is there for as long as the table is, and made again when it is asked for later. */
  laid(): L {
    return this.prepared(0).laid as L;
  }

  /** An input with its standard deviation, in its own unit. */
  input(value: number, sd: number): Real {
    return this.noted(this.prepared(0), value, sd > 0 ? sd * sd : 0);
  }

  constant(value: number): Real {
    return this.noted(this.prepared(0), value);
  }

  unary(value: number, a: Real, da: number): Real {
    const table = this.prepared(1);
    edge(table, a.index, da);
    return this.noted(table, value);
  }

  binary(value: number, a: Real, da: number, b: Real, db: number): Real {
    const table = this.prepared(2);
    edge(table, a.index, da);
    edge(table, b.index, db);
    return this.noted(table, value);
  }

  /**
   * A number made of the coordinates of two points at once. What is made of points is noted as one number and not by its
   * single steps: most of what is measured is, and a sheet is then short.
   */
  ofTwo(value: number, a: Coordinates, dax: number, day: number, b: Coordinates, dbx: number, dby: number): Real {
    const table = this.prepared(4);
    edge(table, a.x.index, dax);
    edge(table, a.y.index, day);
    edge(table, b.x.index, dbx);
    edge(table, b.y.index, dby);
    return this.noted(table, value);
  }

  /** How far b lies from a along `axis`. */
  along(a: Coordinates, b: Coordinates, axis: Coordinates): Real {
    const table = this.prepared(6);
    const dx = b.x.value - a.x.value;
    const dy = b.y.value - a.y.value;
    edge(table, b.x.index, axis.x.value);
    edge(table, b.y.index, axis.y.value);
    edge(table, a.x.index, -axis.x.value);
    edge(table, a.y.index, -axis.y.value);
    edge(table, axis.x.index, dx);
    edge(table, axis.y.index, dy);
    return this.noted(table, dx * axis.x.value + dy * axis.y.value);
  }

  /** Runs `work` and forgets what it noted: its results must leave as plain numbers. A sheet that is kept does not grow. */
  scratch<T>(work: () => T): T {
    const table = this.prepared(0);
    const { length, edges } = table;
    table.busy++;
    try {
      return work();
    } finally {
      table.busy--;
      table.length = length;
      table.edges = edges;
    }
  }

  /** Derivatives of `result` by every number on the sheet up to it, by index; valid until the next call. */
  derivatives(result: Real): Float64Array {
    const { ends, parents, partials } = this.prepared(0);
    const last = result.index;
    const by = adjoints(last + 1);
    by[last] = 1;
    for (let i = last; i > 0; i--) {
      const weight = by[i] as number;
      if (weight === 0) continue;
      for (let e = ends[i - 1] as number; e < (ends[i] as number); e++) {
        const parent = parents[e] as number;
        by[parent] = (by[parent] as number) + weight * (partials[e] as number);
      }
    }
    return by;
  }

  /**
   * First-order standard deviation: inputs independent, each with its own. A measure rests on a few of a film's numbers,
   * so that only these are walked over, from the newest to the oldest, and not the whole sheet.
   */
  deviation(result: Real): number {
    const { ends, parents, partials, variances } = this.prepared(0);
    if (pending.weights.length <= result.index) pending = new Pending(2 * variances.length);
    const { weights, waiting } = pending;
    let variance = 0;
    weights[result.index] = 1;
    waiting[result.index >> 5] = 1 << (result.index & 31);
    for (let word = result.index >> 5; word >= 0; word--)
      for (let bits = waiting[word] as number; bits !== 0; bits = waiting[word] as number) {
        const bit = 31 - Math.clz32(bits);
        const i = 32 * word + bit;
        const weight = weights[i] as number;
        waiting[word] = bits & ~(1 << bit);
        weights[i] = 0;
        if (weight === 0) continue;
        const from = i === 0 ? 0 : (ends[i - 1] as number);
        const end = ends[i] as number;
        // Only what is made of nothing else is an input.
        if (from === end && (variances[i] as number) > 0) variance += (variances[i] as number) * weight * weight;
        for (let e = from; e < end; e++) {
          const parent = parents[e] as number;
          weights[parent] = (weights[parent] as number) + weight * (partials[e] as number);
          waiting[parent >> 5] = (waiting[parent >> 5] as number) | (1 << (parent & 31));
        }
      }
    return Math.sqrt(variance);
  }

  /** The same number, noted as made of what it rests on in the end and not of the steps between. */
  ofInputs(real: Real): Real {
    const by = this.derivatives(real);
    const table = this.prepared(real.index);
    const { ends } = table;
    for (let i = 0; i < real.index; i++)
      if ((by[i] as number) !== 0 && ends[i] === (i === 0 ? 0 : ends[i - 1])) edge(table, i, by[i] as number);
    return this.noted(table, real.value);
  }

  /** First-order covariance of two results of this sheet. */
  covariance(one: Real, other: Real): number {
    const a = this.derivatives(one).slice(0, one.index + 1);
    const b = this.derivatives(other);
    const { variances } = this.table;
    let sum = 0;
    for (let i = 0; i <= Math.min(one.index, other.index); i++)
      if ((variances[i] as number) > 0) sum += (variances[i] as number) * (a[i] as number) * (b[i] as number);
    return sum;
  }

  /** The table with this sheet's notes on it, and room for one number more with so many edges. */
  private prepared(edges: number): Table {
    if (this.table.owner !== this && this.lay) this.table = this.layOut(this.lay);
    const { table } = this;
    if (table.length === table.ends.length) {
      table.ends = widened(table.ends, new Int32Array(2 * table.length));
      table.variances = widened(table.variances, new Float64Array(2 * table.length));
    }
    if (table.edges + edges > table.parents.length) {
      const wider = 2 * table.parents.length;
      table.parents = widened(table.parents, new Int32Array(wider));
      table.partials = widened(table.partials, new Float64Array(wider));
    }
    return table;
  }

  private noted(table: Table, value: number, variance = 0): Real {
    const index = table.length;
    table.ends[index] = table.edges;
    table.variances[index] = variance;
    table.length = index + 1;
    return new Real(this, value, index);
  }

  private layOut(lay: (sheet: Sheet) => L): Table {
    const table = freeTable();
    this.table = table;
    table.owner = this;
    table.laid = null;
    table.length = 0;
    table.edges = 0;
    table.laid = lay(this);
    return table;
  }
}

interface Coordinates {
  readonly x: Real;
  readonly y: Real;
}

function edge(table: Table, parent: number, partial: number): void {
  table.parents[table.edges] = parent;
  table.partials[table.edges] = partial;
  table.edges++;
}

/** The one that has not been laid out for longest. */
function freeTable(): Table {
  for (let tried = 0; tried < tables.length; tried++) {
    turn = (turn + 1) % tables.length;
    const table = tables[turn] as Table;
    if (table.busy === 0) return table;
  }
  const made = new Table();
  tables.push(made);
  return made;
}

function widened<C extends Int32Array | Float64Array>(column: C, empty: C): C {
  empty.set(column);
  return empty;
}

function adjoints(length: number): Float64Array {
  if (spare.length < length) spare = new Float64Array(2 * length);
  else spare.fill(0, 0, length);
  return spare;
}
