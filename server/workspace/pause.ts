/** Longest stretch of work, ms: a request that comes in waits for no more than this and one file. */
const stretch = 12;

/** Yields to the event loop now and then, so that requests are answered in between. */
export class Pauses {
  private since = performance.now();

  async now(): Promise<void> {
    if (performance.now() - this.since < stretch) return;
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    this.since = performance.now();
  }
}
