import { markerMessage } from '../messages/placing-messages.ts';

const KEY = 'ungula.marker';

/** What the editor keeps for a person over windows and folders; `vscode.Memento` is one. */
export interface Kept {
  get(key: string): unknown;
  update(key: string, value: unknown): PromiseLike<void>;
}

/** The length of the marker that a person wrote last, mm: for the next film, whatever the case. Null until one was written. */
export class KeptMarker {
  readonly #kept: Kept;

  constructor(kept: Kept) {
    this.#kept = kept;
  }

  get mm(): number | null {
    // What was kept may be from any version, or from nobody.
    const read = markerMessage.safeParse({ type: 'marker', mm: this.#kept.get(KEY) });
    return read.success ? read.data.mm : null;
  }

  async write(mm: number): Promise<void> {
    await this.#kept.update(KEY, mm);
  }
}
