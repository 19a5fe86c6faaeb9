/** Mulberry32: a foot must come back from its seed alone, on any machine. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Draws of one seed. */
export class Dice {
  readonly uniform: () => number;

  constructor(seed: number) {
    this.uniform = seeded(seed);
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  chance(probability: number): boolean {
    return this.uniform() < probability;
  }

  pick<T>(choices: readonly [T, ...T[]]): T {
    return choices[Math.floor(this.uniform() * choices.length)] ?? choices[0];
  }

  shuffled<T>(items: readonly T[]): T[] {
    return items
      .map((item) => ({ item, key: this.uniform() }))
      .sort((a, b) => a.key - b.key)
      .map(({ item }) => item);
  }
}

/** What is written in a file must be the number that was computed with, so both are rounded. */
export function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
