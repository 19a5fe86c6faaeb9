import { createHash, type Hash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** A new file that knows its length and its SHA-256 when it is closed. What is not there yet is made; what is there is refused. */
export class DigestedFile {
  readonly #file: number;
  readonly #hash: Hash = createHash('sha256');
  #bytes = 0;

  constructor(path: string) {
    this.#file = openSync(path, 'wx');
  }

  write(bytes: Uint8Array): void {
    this.#hash.update(bytes);
    this.#bytes += bytes.length;
    for (let done = 0; done < bytes.length;) done += writeSync(this.#file, bytes, done);
  }

  close(): { readonly bytes: number; readonly sha256: string } {
    fsyncSync(this.#file);
    closeSync(this.#file);
    return { bytes: this.#bytes, sha256: this.#hash.digest('hex') };
  }

  /** Where it is not wanted any more. */
  abandon(): void {
    closeSync(this.#file);
  }
}
