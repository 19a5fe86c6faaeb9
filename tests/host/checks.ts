import { describe } from './failure.ts';

export interface Skipped {
  name: string;
  why: string;
}

export interface Outcome {
  passed: number;
  failed: number;
  skipped: Skipped[];
}

/** Thrown by a check that cannot run here; counted and printed, never taken for a pass. */
export class NotRun extends Error {}

/** A list of named checks, run in order, each line printed as it ends. */
export class Checks {
  readonly outcome: Outcome = { passed: 0, failed: 0, skipped: [] };
  readonly #say: (line: string) => void;

  constructor(say: (line: string) => void = console.log) {
    this.#say = say;
  }

  async check(name: string, limitSeconds: number, body: () => Promise<void>): Promise<void> {
    const began = Date.now();
    try {
      await within(limitSeconds, name, body());
      this.outcome.passed += 1;
      this.#say(`  ok    ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
    } catch (error) {
      if (error instanceof NotRun) {
        this.skip(name, error.message);
        return;
      }
      this.outcome.failed += 1;
      this.#say(`  FAIL  ${name}\n${indent(describe(error))}`);
    }
  }

  skip(name: string, why: string): void {
    this.outcome.skipped.push({ name, why });
    this.#say(`  skip  ${name}: not run: ${why}`);
  }
}

export function expectEqual(actual: unknown, wanted: unknown, what: string): void {
  const [is, should] = [JSON.stringify(actual), JSON.stringify(wanted)];
  if (is !== should) throw new Error(`${what}: is ${is}, should be ${should}`);
}

export function expectThat(holds: boolean, otherwise: string): asserts holds {
  if (!holds) throw new Error(otherwise);
}

export function sum(outcomes: readonly Outcome[]): Outcome {
  return {
    passed: outcomes.reduce((total, { passed }) => total + passed, 0),
    failed: outcomes.reduce((total, { failed }) => total + failed, 0),
    skipped: outcomes.flatMap(({ skipped }) => skipped),
  };
}

export async function within<T>(limitSeconds: number, what: string, work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`${what}: not done within ${limitSeconds} s`)), limitSeconds * 1000);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Asks again and again until the answer is there; the last refusal is the failure. */
export async function eventually<T>(limitSeconds: number, ask: () => Promise<T> | T): Promise<T> {
  const until = Date.now() + limitSeconds * 1000;
  for (;;) {
    try {
      return await ask();
    } catch (error) {
      if (Date.now() > until) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function indent(text: string): string {
  return text.replace(/^/gm, '        ');
}
