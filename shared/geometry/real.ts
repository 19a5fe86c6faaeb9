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
  /** How many pieces of work of the owner are not done yet. */
  busy = 0;
  /** How many numbers are noted; what lies beyond in the columns is left over. */
  length = 0;
  /** Numbers at the beginning that were made of no others. */
  leaves = 0;
  /** Where each number's edges end; they begin where those of the number before end. */
  ends = new Int32Array(1024);
  /** An edge leads to a number that another was made of, with the partial derivative. */
  edges = 0;
  parents = new Int32Array(4096);
  partials = new Float64Array(4096);
  /** The inputs that have a variance: their indices, ascending, and the variances. */
  inputs = 0;
  indices = new Int32Array(256);
  variances = new Float64Array(256);
}

/** Shared by all sheets that can be laid out anew. There is more than one only where work on a sheet needs another sheet. */
const tables: Table[] = [];

/** Derivatives are wanted one result at a time, and no two sheets work at once: they share the space for them. */
let spare = new Float64Array(1024);

/**
 * The record of one computation: which number was made of which, with the partial derivatives. A sheet that is made with
 * `lay` keeps no columns: it notes on a table that all such sheets share, and where another has used the table since, `lay`
 * runs again. So it must note the same each time, and what comes after it is noted in `scratch`.
 */
export class Sheet {
  private table: Table;
  private readonly lay: ((sheet: Sheet) => void) | null;

  constructor(lay: ((sheet: Sheet) => void) | null = null) {
    this.lay = lay;
    this.table = lay ? freeTable() : new Table();
    this.table.owner = this;
    if (lay) clear(this.table);
  }

  /** An input with its standard deviation, in its own unit. */
  input(value: number, sd: number): Real {
    const table = this.prepared(0);
    const index = table.length;
    if (sd > 0) {
      if (table.inputs === table.indices.length) {
        table.indices = widened(table.indices, new Int32Array(2 * table.inputs));
        table.variances = widened(table.variances, new Float64Array(2 * table.inputs));
      }
      table.indices[table.inputs] = index;
      table.variances[table.inputs] = sd * sd;
      table.inputs++;
    }
    return this.noted(table, value);
  }

  constant(value: number): Real {
    return this.noted(this.prepared(0), value);
  }

  unary(value: number, a: Real, da: number): Real {
    const table = this.prepared(1);
    edge(table, a, da);
    return this.noted(table, value);
  }

  binary(value: number, a: Real, da: number, b: Real, db: number): Real {
    const table = this.prepared(2);
    edge(table, a, da);
    edge(table, b, db);
    return this.noted(table, value);
  }

  /**
   * A number made of the coordinates of two points at once. What is made of points is noted as one number and not by its
   * single steps: most of what is measured is, and a sheet is then short.
   */
  ofTwo(value: number, a: Coordinates, dax: number, day: number, b: Coordinates, dbx: number, dby: number): Real {
    const table = this.prepared(4);
    edge(table, a.x, dax);
    edge(table, a.y, day);
    edge(table, b.x, dbx);
    edge(table, b.y, dby);
    return this.noted(table, value);
  }

  /** How far b lies from a along `axis`. */
  along(a: Coordinates, b: Coordinates, axis: Coordinates): Real {
    const table = this.prepared(6);
    const dx = b.x.value - a.x.value;
    const dy = b.y.value - a.y.value;
    edge(table, b.x, axis.x.value);
    edge(table, b.y, axis.y.value);
    edge(table, a.x, -axis.x.value);
    edge(table, a.y, -axis.y.value);
    edge(table, axis.x, dx);
    edge(table, axis.y, dy);
    return this.noted(table, dx * axis.x.value + dy * axis.y.value);
  }

  /** Runs `work` and forgets what it noted: its results must leave as plain numbers. A sheet that is kept does not grow. */
  scratch<T>(work: () => T): T {
    const table = this.prepared(0);
    const { length, edges, inputs, leaves } = table;
    table.busy++;
    try {
      return work();
    } finally {
      table.busy--;
      table.length = length;
      table.edges = edges;
      table.inputs = inputs;
      table.leaves = leaves;
    }
  }

  /** Derivatives of `result` by every number on the sheet up to it, by index; valid until the next call. */
  derivatives(result: Real): Float64Array {
    const { ends, parents, partials, leaves } = this.prepared(0);
    const last = result.index;
    const by = adjoints(last + 1);
    by[last] = 1;
    for (let i = last; i >= leaves; i--) {
      const weight = by[i] as number;
      if (weight === 0) continue;
      for (let e = i === 0 ? 0 : (ends[i - 1] as number); e < (ends[i] as number); e++) {
        const parent = parents[e] as number;
        by[parent] = (by[parent] as number) + weight * (partials[e] as number);
      }
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
    const { inputs, indices, variances } = this.table;
    let sum = 0;
    for (let n = 0; n < inputs; n++) {
      const i = indices[n] as number;
      if (i > last) break;
      sum += (variances[n] as number) * (a[i] as number) * (b[i] as number);
    }
    return sum;
  }

  /** The table with this sheet's notes on it, and room for one number more with so many edges. */
  private prepared(edges: number): Table {
    if (this.table.owner !== this) this.layAgain();
    const { table } = this;
    if (table.length === table.ends.length) table.ends = widened(table.ends, new Int32Array(2 * table.length));
    if (table.edges + edges > table.parents.length) {
      const wider = 2 * table.parents.length;
      table.parents = widened(table.parents, new Int32Array(wider));
      table.partials = widened(table.partials, new Float64Array(wider));
    }
    return table;
  }

  private noted(table: Table, value: number): Real {
    const index = table.length;
    table.ends[index] = table.edges;
    table.length = index + 1;
    if (table.edges === 0) table.leaves = index + 1;
    return new Real(this, value, index);
  }

  private layAgain(): void {
    this.table = freeTable();
    this.table.owner = this;
    clear(this.table);
    this.lay?.(this);
  }
}

interface Coordinates {
  readonly x: Real;
  readonly y: Real;
}

function edge(table: Table, parent: Real, partial: number): void {
  table.parents[table.edges] = parent.index;
  table.partials[table.edges] = partial;
  table.edges++;
}

function freeTable(): Table {
  const free = tables.find((table) => table.busy === 0);
  if (free) return free;
  const made = new Table();
  tables.push(made);
  return made;
}

function clear(table: Table): void {
  table.length = 0;
  table.edges = 0;
  table.inputs = 0;
  table.leaves = 0;
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
