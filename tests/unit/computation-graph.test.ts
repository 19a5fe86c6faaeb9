import { describe, expect, it } from 'vitest';
import { ComputationGraph, hypotenuse, type Real } from '../../shared/geometry/real.ts';

/** A graph that lays out two inputs, as a film's frame lays out its landmarks. */
function laidOut(): ComputationGraph<readonly [Real, Real]> {
  return new ComputationGraph((graph) => [graph.input(3, 0.3), graph.input(4, 0.4)] as const);
}

/** As many graphs laid out as take the columns of every other one. */
function takeAllColumns(): void {
  for (let i = 0; i < 20; i++) laidOut();
}

describe('a graph of numbers', () => {
  it('gives the deviation of a length from those of its ends', () => {
    const graph = laidOut();
    const sd = graph.scratch(() => {
      const [x, y] = graph.laid();
      return graph.deviation(hypotenuse(x, y));
    });
    // First order: (3 * 0.3)² + (4 * 0.4)², over 5².
    expect(sd).toBeCloseTo(Math.hypot(0.9, 1.6) / 5, 12);
  });

  it('is laid out anew where others have used its columns, and gives the same', () => {
    const graph = laidOut();
    const [x] = graph.laid();
    takeAllColumns();
    const sd = graph.scratch(() => graph.deviation(x.times(2)));
    expect(sd).toBeCloseTo(0.6, 12);
  });

  it('refuses a number whose scratch has ended, whatever stands in its place since', () => {
    const graph = laidOut();
    const kept = graph.scratch(() => graph.laid()[0].times(2));
    expect(() => graph.scratch(() => kept.plus(1))).toThrow(/scratch/);
    const other = graph.scratch(() => {
      graph.laid()[1].times(5);
      expect(() => kept.plus(1)).toThrow(/scratch/);
      expect(() => graph.deviation(kept)).toThrow(/scratch/);
      expect(() => graph.covariance(kept, kept)).toThrow(/scratch/);
      expect(() => graph.ofInputs(kept)).toThrow(/scratch/);
      return graph.deviation(graph.laid()[1]);
    });
    expect(other).toBeCloseTo(0.4, 12);
  });

  it('refuses a number of an inner scratch in the outer one, and keeps those of the outer', () => {
    const graph = laidOut();
    graph.scratch(() => {
      const outer = graph.laid()[0].plus(1);
      const inner = graph.scratch(() => outer.times(3));
      const next = outer.times(7);
      expect(graph.deviation(next)).toBeCloseTo(2.1, 12);
      expect(() => inner.plus(outer)).toThrow(/scratch/);
    });
  });

  it('refuses what is noted outside of a scratch once it was laid out', () => {
    const graph = laidOut();
    expect(() => graph.laid()[0].times(2)).toThrow(/scratch/);
  });

  it('refuses numbers of another graph', () => {
    const [one, other] = [laidOut(), laidOut()];
    expect(() => one.scratch(() => one.laid()[0].plus(other.laid()[0]))).toThrow(/two graphs/);
  });
});
