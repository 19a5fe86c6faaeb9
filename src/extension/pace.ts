/** The clock, so that a test can hold it. */
export interface Clock {
  now(): number;
  after(milliseconds: number, run: () => void): () => void;
}

export const realClock: Clock = {
  // Not the time of day, which may be set back: the preview would wait until it has come round again.
  now: () => performance.now(),
  after: (milliseconds, run) => {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
};

/**
 * Runs at once when asked, then never sooner than `gap` after the last beginning and never two at a time. Whatever is
 * asked in between is one more run at the end, so the last wish is always met.
 */
export class Pace {
  readonly #run: () => Promise<void>;
  readonly #gap: number;
  readonly #clock: Clock;
  readonly #onFailure: (error: unknown) => void;
  #began = -Infinity;
  #running = false;
  #wanted = false;
  #cancel: (() => void) | null = null;

  constructor(
    run: () => Promise<void>,
    gap: number,
    clock: Clock = realClock,
    onFailure: (error: unknown) => void = console.error,
  ) {
    this.#onFailure = onFailure;
    this.#run = run;
    this.#gap = gap;
    this.#clock = clock;
  }

  ask(): void {
    this.#wanted = true;
    if (this.#running || this.#cancel) return;
    const wait = this.#began + this.#gap - this.#clock.now();
    if (wait <= 0) void this.#go();
    else
      this.#cancel = this.#clock.after(wait, () => {
        this.#cancel = null;
        void this.#go();
      });
  }

  /** Runs without the gap, at once or as soon as the run that is on its way has ended. */
  hurry(): void {
    this.#cancel?.();
    this.#cancel = null;
    this.#began = -Infinity;
    this.ask();
  }

  stop(): void {
    this.#wanted = false;
    this.#cancel?.();
    this.#cancel = null;
  }

  async #go(): Promise<void> {
    this.#wanted = false;
    this.#running = true;
    this.#began = this.#clock.now();
    try {
      await this.#run();
    } catch (error) {
      this.#onFailure(error);
    } finally {
      this.#running = false;
      if (this.#wanted) this.ask();
    }
  }
}
