import { expect } from 'vitest';

/** How many times larger the second text or list is. */
export const LARGER = 8;
/** How many times longer than in proportion something may take: what is looked at once for each other takes 8 times longer. */
const MOST = 2.5;
/** Seconds below which a time says nothing of how it grows. */
const SHORT = 0.02;

/**
 * Expects work on something `LARGER` times as large to take little more than in proportion. In processor time of this thread, so that a
 * machine with other work to do changes little; what seems to take more is measured again, and the best of three counts.
 */
export function expectInProportion<T>(make: (size: number) => T, size: number, work: (made: T) => unknown): void {
  const [small, large] = [make(size), make(size * LARGER)];
  // The compiler has seen to what is run before it is measured.
  work(small);
  let ratio = Infinity;
  for (let attempt = 0; attempt < 3 && ratio >= LARGER * MOST; attempt++) {
    const first = Math.max(
      secondsOf(() => work(small)),
      SHORT,
    );
    ratio = Math.min(ratio, secondsOf(() => work(large)) / first);
  }
  expect(ratio).toBeLessThan(LARGER * MOST);
}

function secondsOf(work: () => unknown): number {
  const before = process.threadCpuUsage();
  work();
  const { user, system } = process.threadCpuUsage(before);
  return (user + system) / 1e6;
}
