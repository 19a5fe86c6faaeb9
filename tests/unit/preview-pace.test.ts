import { describe, expect, it, vi } from 'vitest';
import { NewestAnswer } from '../../src/extension/newest-answer.ts';
import { Pace, type Clock } from '../../src/extension/pace.ts';

/** A clock that stands until it is moved. */
class HeldClock implements Clock {
  #time = 0;
  #waiting: { at: number; run: () => void }[] = [];

  now(): number {
    return this.#time;
  }

  after(milliseconds: number, run: () => void): () => void {
    const one = { at: this.#time + milliseconds, run };
    this.#waiting.push(one);
    return () => {
      this.#waiting = this.#waiting.filter((other) => other !== one);
    };
  }

  async pass(milliseconds: number): Promise<void> {
    this.#time += milliseconds;
    const due = this.#waiting.filter(({ at }) => at <= this.#time);
    this.#waiting = this.#waiting.filter(({ at }) => at > this.#time);
    for (const { run } of due) run();
    await settled();
  }
}

const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

function paced(): { clock: HeldClock; pace: Pace; runs: number[]; finish: () => Promise<void> } {
  const clock = new HeldClock();
  const runs: number[] = [];
  let end: (() => void) | null = null;
  const pace = new Pace(
    () => {
      runs.push(clock.now());
      return new Promise<void>((resolve) => {
        end = resolve;
      });
    },
    100,
    clock,
  );
  return {
    clock,
    pace,
    runs,
    finish: async () => {
      end?.();
      await settled();
    },
  };
}

describe('the pace of the preview', () => {
  it('runs at once, then gathers what is asked into one run at the end', async () => {
    const { clock, pace, runs, finish } = paced();
    pace.ask();
    expect(runs).toEqual([0]);
    await finish();
    for (let key = 0; key < 5; key += 1) {
      await clock.pass(10);
      pace.ask();
    }
    expect(runs).toEqual([0]);
    await clock.pass(50);
    expect(runs).toEqual([0, 100]);
    await finish();
    await clock.pass(500);
    expect(runs).toEqual([0, 100]);
  });

  it('never runs two at a time, and never loses the last wish', async () => {
    const { clock, pace, runs, finish } = paced();
    pace.ask();
    await clock.pass(300);
    pace.ask();
    pace.ask();
    expect(runs).toEqual([0]);
    await finish();
    expect(runs).toEqual([0, 300]);
  });

  it('hurries without the gap, and not beside a run that is on its way', async () => {
    const { clock, pace, runs, finish } = paced();
    pace.ask();
    await finish();
    await clock.pass(10);
    pace.ask();
    pace.hurry();
    expect(runs).toEqual([0, 10]);
    await clock.pass(5);
    pace.hurry();
    expect(runs).toEqual([0, 10]);
    await finish();
    expect(runs).toEqual([0, 10, 15]);
    await finish();
    // What was asked before is met too, and the gap is kept again.
    await clock.pass(20);
    pace.ask();
    expect(runs).toEqual([0, 10, 15]);
    await clock.pass(80);
    expect(runs).toEqual([0, 10, 15, 115]);
  });

  it('goes on after a run that failed', async () => {
    const clock = new HeldClock();
    let runs = 0;
    const pace = new Pace(
      async () => {
        runs += 1;
        if (runs === 1) throw new Error('no answer');
      },
      100,
      clock,
      () => undefined,
    );
    pace.ask();
    await settled();
    await clock.pass(100);
    pace.ask();
    await settled();
    expect(runs).toBe(2);
  });

  it('does nothing more once it is stopped', async () => {
    const { clock, pace, runs, finish } = paced();
    pace.ask();
    await finish();
    pace.ask();
    pace.stop();
    await clock.pass(1000);
    expect(runs).toEqual([0]);
  });
});

describe('which answer may be shown', () => {
  it('takes answers of the followed file, never an older one after a newer', () => {
    const newest = new NewestAnswer();
    newest.follow('a');
    expect(newest.accepts('a', 4)).toBe(true);
    expect(newest.accepts('a', 4)).toBe(true);
    expect(newest.accepts('a', 3)).toBe(false);
    expect(newest.accepts('b', 9)).toBe(false);
    expect(newest.accepts('a', 5)).toBe(true);
  });

  it('begins anew with another file, and with the same one opened again', () => {
    const newest = new NewestAnswer();
    newest.follow('a');
    newest.accepts('a', 40);
    newest.follow('a');
    expect(newest.accepts('a', 1)).toBe(true);
    newest.follow('b');
    expect(newest.accepts('a', 41)).toBe(false);
  });

  it('does not wipe what shows because the file is just being closed', () => {
    const newest = new NewestAnswer();
    newest.follow('a');
    expect(newest.accepts('a', null)).toBe(true);
    newest.accepts('a', 1);
    expect(newest.accepts('a', null)).toBe(false);
  });
});

it('goes on where the computer’s clock is set back', async () => {
  vi.useFakeTimers({ toFake: ['Date'] });
  try {
    let runs = 0;
    const pace = new Pace(async () => void runs++, 20);
    pace.ask();
    vi.setSystemTime(Date.now() - 3_600_000);
    pace.ask();
    await vi.waitFor(() => expect(runs).toBe(2), 2000);
  } finally {
    vi.useRealTimers();
  }
});
