/**
 * What was found for each of some paths. A path is looked up once, until somebody says that a file may have changed:
 * a case of years names more pictures than a keystroke has time to look at.
 */
export class KeptLookups<T> {
  #about: string | null = null;
  #known = new Map<string, Promise<T>>();

  /**
   * By path. `about` is what the answers hang on beside their paths; where it is another, all is looked up anew.
   * `isKept`: an answer that is not is looked up each time.
   */
  async of(
    about: string,
    paths: readonly string[],
    look: (path: string) => Promise<T>,
    isKept: (found: T) => boolean = () => true,
  ): Promise<Record<string, T>> {
    const before = about === this.#about ? this.#known : new Map<string, Promise<T>>();
    const now = new Map([...new Set(paths)].map((path) => [path, before.get(path) ?? look(path)]));
    this.#about = about;
    // What is no longer named is let go.
    this.#known = now;
    try {
      const found = await Promise.all([...now].map(async ([path, one]) => [path, await one] as const));
      for (const [path, one] of found) if (!isKept(one)) now.delete(path);
      return Object.fromEntries(found);
    } catch (error) {
      // No failure is kept.
      if (this.#known === now) this.forget();
      throw error;
    }
  }

  /** A file may have changed. */
  forget(): void {
    this.#about = null;
    this.#known = new Map();
  }
}
