/**
 * Lets an answer through only if it is for the file that is followed and not older than what shows. While somebody
 * types, an answer may be one key behind its text: it is still shown, or a fast typist would see nothing move.
 */
export class NewestAnswer {
  #uri: string | null = null;
  #version = -1;

  /** Follows another file, or the same one opened again: its versions start anew. */
  follow(uri: string | null): void {
    this.#uri = uri;
    this.#version = -1;
  }

  accepts(uri: string, version: number | null): boolean {
    if (uri !== this.#uri) return false;
    if (version === null) return this.#version < 0;
    if (version < this.#version) return false;
    this.#version = version;
    return true;
  }
}
