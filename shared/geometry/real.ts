/**
 * Real numbers that remember how they were made, so that any result knows its exact derivative by every input
 * (reverse accumulation). A measure is written as plain arithmetic on them and gets its standard deviation for free.
 */
export class Real {
  readonly value: number;
  readonly graph: ComputationGraph;
  readonly index: number;
  /** 0 where the graph laid it out, else that of the `scratch` it was noted in: another may stand at its index later. */
  readonly mark: number;

  constructor(graph: ComputationGraph, value: number, index: number, mark: number) {
    this.graph = graph;
    this.value = value;
    this.index = index;
    this.mark = mark;
  }

  plus(other: Real | number): Real {
    return typeof other === 'number'
      ? this.graph.unary(this.value + other, this, 1)
      : this.graph.binary(this.value + other.value, this, 1, other, 1);
  }

  minus(other: Real | number): Real {
    return typeof other === 'number'
      ? this.graph.unary(this.value - other, this, 1)
      : this.graph.binary(this.value - other.value, this, 1, other, -1);
  }

  times(other: Real | number): Real {
    return typeof other === 'number'
      ? this.graph.unary(this.value * other, this, other)
      : this.graph.binary(this.value * other.value, this, other.value, other, this.value);
  }

  over(other: Real | number): Real {
    if (typeof other === 'number') return this.graph.unary(this.value / other, this, 1 / other);
    const value = this.value / other.value;
    return this.graph.binary(value, this, 1 / other.value, other, -value / other.value);
  }

  negated(): Real {
    return this.graph.unary(-this.value, this, -1);
  }

  sine(): Real {
    return this.graph.unary(Math.sin(this.value), this, Math.cos(this.value));
  }

  cosine(): Real {
    return this.graph.unary(Math.cos(this.value), this, -Math.sin(this.value));
  }
}

/** Length of the vector (x, y). */
export function hypotenuse(x: Real, y: Real): Real {
  const value = lengthOf(x.value, y.value);
  return x.graph.binary(value, x, x.value / value, y, y.value / value);
}

/** Angle of the vector (x, y) from the +x axis, radians in (-π, π]. */
export function angleOf(y: Real, x: Real): Real {
  const square = x.value * x.value + y.value * y.value;
  return x.graph.binary(Math.atan2(y.value, x.value), y, x.value / square, x, -y.value / square);
}

/** `Math.hypot` guards against squares that overflow or vanish and is slow for it; picture and foot never come near. */
export function lengthOf(x: number, y: number): number {
  const square = x * x + y * y;
  return square > 1e-200 && square < 1e200 ? Math.sqrt(square) : Math.hypot(x, y);
}

/** The columns in which graphs note. They begin with room for a film with every landmark and a cut of it. */
class Columns {
  /** Whose notes stand here. */
  owner: ComputationGraph | null = null;
  /** What the owner laid out, for as long as its notes stand here. */
  laid: unknown = null;
  /** How many pieces of work of the owner are not done yet: laying out, and what runs in `scratch`. */
  busy = 0;
  /** How many numbers are noted; what lies beyond in the columns is left over. */
  length = 0;
  /** Where each number's edges end; they begin where those of the number before end. */
  ends = new Int32Array(512);
  /** The variance of each number that is an input, 0 of every other. */
  variances = new Float64Array(512);
  /** The mark of each number. */
  marks = new Int32Array(512);
  /** That of the next numbers; 0 while the owner lays out. */
  mark = 0;
  /** An edge leads to a number that another was made of, with the partial derivative. */
  edges = 0;
  parents = new Int32Array(2048);
  partials = new Float64Array(2048);
}

/**
 * Shared by all graphs that can be laid out anew, by turns. Rules look from a film at the next of the foot and back: so
 * many films later it is still laid out. There are more only where work on as many graphs at once needs another one.
 */
const shared: Columns[] = Array.from({ length: 8 }, () => new Columns());
let turn = 0;
let marks = 0;

/** Derivatives are wanted one result at a time, and no two graphs work at once: they share the space for them. */
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
 * One computation: which number was made of which, with the partial derivatives. A graph that is made with `lay` keeps no
 * columns: it notes in columns that such graphs share, and where another has used them since, `lay` runs again. So it must
 * note the same each time, and what comes after it is noted in `scratch`. A number that is used after its notes are gone,
 * or with those of another graph, is an error: it never takes part in a result.
 */
export class ComputationGraph<L = unknown> {
  private columns: Columns;
  private readonly lay: ((graph: ComputationGraph) => L) | null;

  constructor(lay: ((graph: ComputationGraph) => L) | null = null) {
    this.lay = lay;
    if (lay) this.columns = this.layOut(lay);
    else {
      this.columns = new Columns();
      this.columns.owner = this;
      // Nobody else writes here, so that what is noted stays; `scratch` alone forgets.
      this.columns.busy = 1;
    }
  }

  /** What `lay` gave. Not to be kept: it is there for as long as the columns is, and made again when it is asked for later. */
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
    const columns = this.prepared(1);
    this.edge(columns, a, da);
    return this.noted(columns, value);
  }

  binary(value: number, a: Real, da: number, b: Real, db: number): Real {
    const columns = this.prepared(2);
    this.edge(columns, a, da);
    this.edge(columns, b, db);
    return this.noted(columns, value);
  }

  /**
   * A number made of the coordinates of two points at once. What is made of points is noted as one number and not by its
   * single steps: most of what is measured is, and a graph is then short.
   */
  ofTwo(value: number, a: Coordinates, dax: number, day: number, b: Coordinates, dbx: number, dby: number): Real {
    const columns = this.prepared(4);
    this.edge(columns, a.x, dax);
    this.edge(columns, a.y, day);
    this.edge(columns, b.x, dbx);
    this.edge(columns, b.y, dby);
    return this.noted(columns, value);
  }

  /** How far b lies from a along `axis`. */
  along(a: Coordinates, b: Coordinates, axis: Coordinates): Real {
    const columns = this.prepared(6);
    const dx = b.x.value - a.x.value;
    const dy = b.y.value - a.y.value;
    this.edge(columns, b.x, axis.x.value);
    this.edge(columns, b.y, axis.y.value);
    this.edge(columns, a.x, -axis.x.value);
    this.edge(columns, a.y, -axis.y.value);
    this.edge(columns, axis.x, dx);
    this.edge(columns, axis.y, dy);
    return this.noted(columns, dx * axis.x.value + dy * axis.y.value);
  }

  /** Runs `work` and forgets what it noted: its results must leave as plain numbers. A graph that is kept does not grow. */
  scratch<T>(work: () => T): T {
    const columns = this.prepared(0);
    const { length, edges, mark } = columns;
    columns.busy++;
    columns.mark = ++marks;
    try {
      return work();
    } finally {
      columns.busy--;
      columns.mark = mark;
      columns.length = length;
      columns.edges = edges;
    }
  }

  /** Derivatives of `result` by every number on the graph up to it, by index; valid until the next call. */
  derivatives(result: Real): Float64Array {
    const columns = this.prepared(0);
    const { ends, parents, partials } = columns;
    this.expectNoted(columns, result);
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
   * so that only these are walked over, from the newest to the oldest, and not the whole graph.
   */
  deviation(result: Real): number {
    const columns = this.prepared(0);
    const { ends, parents, partials, variances } = columns;
    this.expectNoted(columns, result);
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
    const columns = this.prepared(real.index);
    const { ends } = columns;
    for (let i = 0; i < real.index; i++)
      if ((by[i] as number) !== 0 && ends[i] === (i === 0 ? 0 : ends[i - 1])) addEdge(columns, i, by[i] as number);
    return this.noted(columns, real.value);
  }

  /** First-order covariance of two results of this graph. */
  covariance(one: Real, other: Real): number {
    const a = this.derivatives(one).slice(0, one.index + 1);
    const b = this.derivatives(other);
    const { variances } = this.columns;
    let sum = 0;
    for (let i = 0; i <= Math.min(one.index, other.index); i++)
      if ((variances[i] as number) > 0) sum += (variances[i] as number) * (a[i] as number) * (b[i] as number);
    return sum;
  }

  /** The columns with this graph's notes on it, and room for one number more with so many edges. */
  private prepared(edges: number): Columns {
    if (this.columns.owner !== this && this.lay) this.columns = this.layOut(this.lay);
    const { columns } = this;
    if (columns.length === columns.ends.length) {
      columns.ends = widened(columns.ends, new Int32Array(2 * columns.length));
      columns.variances = widened(columns.variances, new Float64Array(2 * columns.length));
      columns.marks = widened(columns.marks, new Int32Array(2 * columns.length));
    }
    if (columns.edges + edges > columns.parents.length) {
      const wider = 2 * columns.parents.length;
      columns.parents = widened(columns.parents, new Int32Array(wider));
      columns.partials = widened(columns.partials, new Float64Array(wider));
    }
    return columns;
  }

  private noted(columns: Columns, value: number, variance = 0): Real {
    // What is laid out anew would be without it.
    if (columns.busy === 0) throw new Error('a number is noted outside of `scratch` after its graph was laid out');
    const { length: index, mark } = columns;
    columns.ends[index] = columns.edges;
    columns.variances[index] = variance;
    columns.marks[index] = mark;
    columns.length = index + 1;
    return new Real(this, value, index, mark);
  }

  private edge(columns: Columns, to: Real, partial: number): void {
    this.expectNoted(columns, to);
    addEdge(columns, to.index, partial);
  }

  private expectNoted(columns: Columns, real: Real): void {
    if (real.graph !== this) throw new Error('numbers of two graphs are put together');
    if (real.index >= columns.length || columns.marks[real.index] !== real.mark)
      throw new Error('a number is used after its `scratch` has ended');
  }

  private layOut(lay: (graph: ComputationGraph) => L): Columns {
    const columns = freeColumns();
    this.columns = columns;
    columns.owner = this;
    columns.laid = null;
    columns.length = 0;
    columns.edges = 0;
    columns.mark = 0;
    columns.busy++;
    try {
      columns.laid = lay(this);
    } finally {
      columns.busy--;
    }
    return columns;
  }
}

interface Coordinates {
  readonly x: Real;
  readonly y: Real;
}

function addEdge(columns: Columns, parent: number, partial: number): void {
  columns.parents[columns.edges] = parent;
  columns.partials[columns.edges] = partial;
  columns.edges++;
}

/** The one that has not been laid out for longest. */
function freeColumns(): Columns {
  for (let tried = 0; tried < shared.length; tried++) {
    turn = (turn + 1) % shared.length;
    const columns = shared[turn] as Columns;
    if (columns.busy === 0) return columns;
  }
  const made = new Columns();
  shared.push(made);
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
