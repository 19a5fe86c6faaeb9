/**
 * Count, mean, spread and ends of numbers that come one by one and are not kept (Welford, Technometrics 1962;4:419-420; from memory).
 * Held against a table that keeps them all in `tests/unit/running-sum.test.ts`.
 */
export class RunningSum {
  n = 0;
  mean = NaN;
  least = NaN;
  greatest = NaN;
  /** Sum of the squared distances from the mean. */
  #squares = 0;

  add(value: number): void {
    this.n += 1;
    if (this.n === 1) {
      this.mean = this.least = this.greatest = value;
      return;
    }
    const before = value - this.mean;
    this.mean += before / this.n;
    this.#squares += before * (value - this.mean);
    if (value < this.least) this.least = value;
    if (value > this.greatest) this.greatest = value;
  }

  /** Of the sample, n - 1 in the denominator; null of fewer than two. */
  get sd(): number | null {
    return this.n < 2 ? null : Math.sqrt(Math.max(0, this.#squares) / (this.n - 1));
  }
}
