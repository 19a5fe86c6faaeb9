import { expect } from 'vitest';
import type { Values } from './oracle/lateral.ts';
import type { ReportedMeasures } from './product.ts';

export const VALUE_TOLERANCE = 1e-6;
const SD_TOLERANCE = 1e-4;

const near = (value: number | undefined): number => VALUE_TOLERANCE * Math.max(1, Math.abs(value ?? 0));

/** Collects what differs, so that one run shows every slip and not the first only. */
export class Comparison {
  readonly problems: string[] = [];
  readonly compared = new Map<string, number>();

  close(
    where: string,
    what: string,
    product: number | null | undefined,
    oracle: number | undefined,
    tolerance: number,
  ): void {
    this.compared.set(what, (this.compared.get(what) ?? 0) + 1);
    const alike =
      oracle === undefined
        ? product === undefined || product === null
        : typeof product === 'number' && Math.abs(product - oracle) <= tolerance;
    if (!alike) this.problems.push(`${where}: ${what} is ${product} in the product, ${oracle} in the oracle`);
  }

  same(where: string, what: string, product: unknown, expected: unknown): void {
    if (product !== expected) this.problems.push(`${where}: ${what} is ${String(product)}, not ${String(expected)}`);
  }

  measures(
    where: string,
    product: ReportedMeasures,
    oracle: { values: Values; spreads: Values; unitOf: (measure: string) => string | undefined },
    names: Iterable<string>,
  ): void {
    for (const measure of names) {
      const value = oracle.values.get(measure);
      const spread = oracle.spreads.get(measure);
      const reported = product[measure];
      this.close(where, measure, reported?.value, value, near(value));
      if (value === undefined || spread === undefined || !reported) continue;
      this.close(where, `sd of ${measure}`, reported.sd, spread, SD_TOLERANCE * spread);
      const unit = oracle.unitOf(measure);
      if (unit !== undefined) this.same(where, `unit of ${measure}`, reported.unit, unit);
    }
  }

  finish(): void {
    const shown = this.problems.slice(0, 40).join('\n');
    expect(this.problems.length, `${this.problems.length} differences, the first of them:\n${shown}`).toBe(0);
  }
}
