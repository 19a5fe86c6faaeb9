/** How long is worked at a stretch, ms: a request that comes in meanwhile waits for no longer than this and one file. */
const stretch = 12;

/** Lets go of the thread now and then, so that whatever has come in is answered in between. */
export class Pauses {
  private since = performance.now();

  async now(): Promise<void> {
    if (performance.now() - this.since < stretch) return;
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    this.since = performance.now();
  }
}
