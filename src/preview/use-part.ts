import type { ComponentType } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

/** A part of the page that is loaded when it is wanted for the first time, and is there from then on. */
export class LaterPart<P> {
  readonly #load: () => Promise<ComponentType<P>>;
  view: ComponentType<P> | null = null;

  constructor(load: () => Promise<ComponentType<P>>) {
    this.#load = load;
  }

  async load(): Promise<void> {
    this.view ??= await this.#load();
  }
}

/** Null until the part is there: what stood in its place stays meanwhile. `failed` is called where it cannot be loaded. */
export function usePart<P>(part: LaterPart<P>, isWanted: boolean, failed: () => void): ComponentType<P> | null {
  const [, setLoaded] = useState(false);
  useLayoutEffect(() => {
    if (isWanted && !part.view) part.load().then(() => setLoaded(true), failed);
  }, [part, isWanted]);
  return part.view;
}
