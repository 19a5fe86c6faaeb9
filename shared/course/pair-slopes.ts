import { randomLcg } from 'd3-random';
import { inversions } from './inversions.ts';

/** The slopes between every two points of different times, by their size. */
export interface PairSlopes {
  /** How many there are. */
  readonly length: number;
  /** The slope with `rank` others before it, from 0 to `length - 1`. */
  at(rank: number): number;
}

/** Up to so many slopes are simply all made and sorted. */
const FEW = 500_000;

/**
 * Of 20,000 films there are 200 million slopes. Above `few` they are not all made: the answer is then the same but for rounding in the
 * last places, in time little more than in proportion to the points.
 */
export function pairSlopes(times: readonly number[], values: readonly number[], few = FEW): PairSlopes {
  const points = new SortedPoints(times, values);
  if (points.pairs > few) return new SoughtSlopes(points);
  const sorted = points.everySlope().sort();
  return { length: sorted.length, at: (rank) => sorted[rank] as number };
}

/** Points in the order of their times and, within one time, of their values. A pair ends at its later point. */
class SortedPoints {
  readonly times: Float64Array;
  readonly values: Float64Array;
  /** How many pairs are of different times. */
  readonly pairs: number;
  /** The shortest time between two different times. */
  readonly shortest: number;
  /** For each point how many are of an earlier time: so many pairs end at it. */
  private readonly earlier: Int32Array;
  /** For each point how many pairs end at it or at one before it. */
  private readonly upTo: Float64Array;

  constructor(times: readonly number[], values: readonly number[]) {
    const of = (list: readonly number[], index: number): number => list[index] as number;
    const order = times
      .map((_, index) => index)
      .sort((a, b) => of(times, a) - of(times, b) || of(values, a) - of(values, b));
    this.times = Float64Array.from(order, (index) => of(times, index));
    this.values = Float64Array.from(order, (index) => of(values, index));
    this.earlier = new Int32Array(order.length);
    this.upTo = new Float64Array(order.length);
    this.shortest = Infinity;
    this.pairs = 0;
    for (let index = 1; index < order.length; index++) {
      const run = (this.times[index] as number) - (this.times[index - 1] as number);
      if (run > 0) this.shortest = Math.min(this.shortest, run);
      this.earlier[index] = run > 0 ? index : (this.earlier[index - 1] as number);
      this.pairs += this.earlier[index] as number;
      this.upTo[index] = this.pairs;
    }
  }

  slope(early: number, late: number): number {
    const { times, values } = this;
    return (
      ((values[late] as number) - (values[early] as number)) / ((times[late] as number) - (times[early] as number))
    );
  }

  everySlope(): Float64Array {
    const slopes = new Float64Array(this.pairs);
    let count = 0;
    for (let late = 0; late < this.times.length; late++)
      for (let early = 0; early < (this.earlier[late] as number); early++) slopes[count++] = this.slope(early, late);
    return slopes;
  }

  /** Of the pair with `number` others before it, in some order of all pairs. */
  slopeOfPair(number: number): number {
    let [low, late] = [0, this.upTo.length - 1];
    while (low < late) {
      const middle = (low + late) >> 1;
      if ((this.upTo[middle] as number) > number) late = middle;
      else low = middle + 1;
    }
    return this.slope(number - ((this.upTo[late] as number) - (this.earlier[late] as number)), late);
  }
}

/** Slopes between two others, the least first. */
interface Stretch {
  /** How many lie below all of them. */
  readonly before: number;
  readonly slopes: Float64Array;
}

/** The more, the fewer are left between two of the sample, and the longer it takes to make. */
const SAMPLE_PER_POINT = 4;

/**
 * Sought among a sample of the slopes: between which two of it a rank lies is found by counting how many slopes lie below each, and those
 * few that lie between the two are made. The slope of two points is below s where `value - s * time` is less for the later one: as many as
 * there are pairs the wrong way round (from memory after Matoušek 1991, Randomized optimal algorithm for slope selection).
 */
class SoughtSlopes implements PairSlopes {
  readonly length: number;
  private readonly points: SortedPoints;
  /** From the middle one, where rounding is least. */
  private readonly times: Float64Array;
  /** No slope is steeper. */
  private readonly steepest: number;
  private readonly largest: { readonly time: number; readonly value: number };
  /** The different slopes of the sample, the least first. */
  private readonly sample: Float64Array;
  private readonly counted = new Map<number, number>();
  private readonly stretches = new Map<number, Stretch>();

  constructor(points: SortedPoints) {
    this.points = points;
    this.length = points.pairs;
    const middle = points.times[points.times.length >> 1] as number;
    this.times = points.times.map((time) => time - middle);
    this.largest = { time: largestOf(this.times), value: largestOf(points.values) };
    this.steepest = (2 * this.largest.value) / points.shortest;
    const random = randomLcg(0.5);
    const drawn = Float64Array.from({ length: SAMPLE_PER_POINT * this.times.length }, () =>
      points.slopeOfPair(Math.floor(random() * points.pairs)),
    ).sort();
    this.sample = drawn.filter((slope, index) => index === 0 || slope !== drawn[index - 1]);
  }

  at(rank: number): number {
    const { sample } = this;
    let [low, high] = [-1, sample.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      const slope = sample[middle] as number;
      const off = this.rounding(slope);
      if (rank < this.below(slope - off)) high = middle;
      else if (rank >= this.below(slope + off)) low = middle;
      else return slope;
    }
    const { before, slopes } = this.behind(low);
    return slopes[Math.min(Math.max(rank - before, 0), slopes.length - 1)] as number;
  }

  /** How far a slope may lie from where its pair is counted. */
  private rounding(slope: number): number {
    const { time, value } = this.largest;
    const size = (Math.abs(slope) * time + value) / this.points.shortest + Math.abs(slope);
    return 8 * Number.EPSILON * size + 1e-300;
  }

  /** How many slopes lie below one. */
  private below(slope: number): number {
    const known = this.counted.get(slope);
    if (known !== undefined) return known;
    const count = inversions(this.heights(slope));
    this.counted.set(slope, count);
    return count;
  }

  /** By how much each point lies above a line of that slope. */
  private heights(slope: number): Float64Array {
    const { times } = this;
    return this.points.values.map((value, index) => value - slope * (times[index] as number));
  }

  /** The slopes between that place in the sample and the next. */
  private behind(place: number): Stretch {
    const known = this.stretches.get(place);
    if (known) return known;
    const { sample, steepest } = this;
    const least = sample[place] ?? -2 * steepest;
    const most = sample[place + 1] ?? 2 * steepest;
    const from = least + this.rounding(least);
    const stretch = { before: this.below(from), slopes: this.slopesBetween(from, most - this.rounding(most)) };
    this.stretches.set(place, stretch);
    return stretch;
  }

  /** Made of the pairs that stand one way round by the one slope and the other way by the other. */
  private slopesBetween(from: number, to: number): Float64Array {
    const first = this.heights(from);
    const then = this.heights(to);
    const order = Uint32Array.from(first, (_, index) => index).sort(
      (a, b) => (first[a] as number) - (first[b] as number) || a - b,
    );
    const slopes: number[] = [];
    // Put in order by insertion: it makes one step for each such pair.
    for (let place = 1; place < order.length; place++) {
      const point = order[place] as number;
      const height = then[point] as number;
      let gap = place;
      for (; gap > 0 && (then[order[gap - 1] as number] as number) > height; gap--) {
        const passed = order[gap - 1] as number;
        order[gap] = passed;
        slopes.push(this.points.slope(passed, point));
      }
      order[gap] = point;
    }
    return Float64Array.from(slopes).sort();
  }
}

function largestOf(numbers: Float64Array): number {
  return numbers.reduce((largest, number) => Math.max(largest, Math.abs(number)), 0);
}
