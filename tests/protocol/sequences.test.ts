import { expect, it } from 'vitest';
import { seedOf, statesOf } from '../fuzz/sequence.ts';
import { TwoServers } from '../fuzz/served.ts';

const seed = Number(process.env['UNGULA_SEED'] ?? 20_261_125);
const sequences = 200;

it(
  `a server that follows ${sequences} sequences of edits says what a fresh one says of the whole text`,
  { timeout: 600_000 },
  async () => {
    const two = new TwoServers();
    try {
      for (let number = 0; number < sequences; number++) {
        const own = seedOf(seed, number);
        expect(
          await two.failureOf(statesOf(own), own),
          `to have it shorter: npm run fuzz -- --seed ${seed} --first ${number} --servers 1 --sequences 0`,
        ).toBeNull();
      }
    } finally {
      await two.stop();
    }
    expect(two.compared).toBeGreaterThan(5 * sequences);
  },
);
