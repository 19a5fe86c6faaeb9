import { describe, expect, it } from 'vitest';
import { memoryFor, mostGrowth } from '../growth/series-memory.ts';

// `node tests/growth/series-memory.ts 200,2000` does the same with more; here the tables that wait for Parquet are full in both.
describe('the memory that an export takes', () => {
  it('is not much more for six times as many cases, each measured in a process of its own', () => {
    const [few, many] = [memoryFor(150), memoryFor(900)];
    expect([few.cases, many.cases]).toEqual([150, 900]);
    expect(few.live).toBeGreaterThan(5e6);
    expect(many.live / few.live).toBeLessThan(mostGrowth.live);
    expect(many.resident / few.resident).toBeLessThan(mostGrowth.resident);
  });
});
