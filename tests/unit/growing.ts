import { expect } from 'vitest';

/** How many times larger the second text or list is. */
export const LARGER = 8;
/** How many times longer than in proportion something may take: what is looked at once for each other takes 8 times longer. */
const MOST = 2.5;
/** Seconds below which a time says nothing of how it grows. */
const SHORT = 0.02;

/**
 * Expects work on something `LARGER` times as large to take little more than in proportion. The median of three each, in processor time of
 * this thread, so that a machine with other work to do changes little.
 */
export function expectInProportion<T>(make: (size: number) => T, size: number, work: (made: T) => unknown): void {
  const [small, large] = [make(size), make(size * LARGER)];
  // The compiler has seen to what is run before it is measured.
  work(small);
  const first = Math.max(
    secondsOf(() => work(small)),
    SHORT,
  );
  expect(secondsOf(() => work(large)) / first).toBeLessThan(LARGER * MOST);
}

function secondsOf(work: () => unknown): number {
  const times = Array.from({ length: 3 }, () => {
    const before = process.threadCpuUsage();
    work();
    const { user, system } = process.threadCpuUsage(before);
    return (user + system) / 1e6;
  });
  return times.sort((a, b) => a - b)[1] as number;
}
