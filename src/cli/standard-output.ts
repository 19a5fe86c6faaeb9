import { t } from '../../shared/language/words.ts';
import { fstatSync, writeSync } from 'node:fs';
import { reason } from './problem.ts';

/**
 * Standard output and standard error, of which either may end before the program does. A reader that has seen enough (`| head`)
 * is no mistake: the rest is dropped and the status stays what it would have been. A full disk is said once.
 */
export class StandardOutput {
  /** Whether something that was to be printed is lost. */
  failed = false;
  #shownAt = 0;
  /** Node writes to a file once and does not look how much of it arrived, so that is done here. */
  readonly #file = isFile();

  constructor() {
    process.stdout.on('error', (error) => this.#refused(error));
    // Where nobody can be told, nobody is.
    process.stderr.on('error', () => {});
  }

  out(text: string): void {
    if (this.failed) return;
    try {
      if (this.#file) writeAll(text);
      else process.stdout.write(text);
    } catch (error) {
      this.#refused(error);
    }
  }

  err(line: string): void {
    try {
      process.stderr.write(t('ungula: {0}\n', line));
    } catch {
      // As above; the status tells it.
    }
  }

  /** One line on standard error that the next one takes the place of. */
  progress(words: string): void {
    const now = performance.now();
    if (words !== '' && now - this.#shownAt < 100) return;
    this.#shownAt = words === '' ? 0 : now;
    try {
      // ECMA-48: back to the first column, and what stands there away.
      process.stderr.write(`\r\u001b[K${words}`);
    } catch {
      // As above.
    }
  }

  #refused(error: unknown): void {
    if (this.failed || (error as NodeJS.ErrnoException).code === 'EPIPE') return;
    this.failed = true;
    process.exitCode = 2;
    this.err(t('standard output: {0}', reason(error, 'write')));
  }
}

/** A device such as /dev/full counts as a file; a terminal does not. */
function isFile(): boolean {
  try {
    const is = fstatSync(1);
    return is.isFile() || (is.isCharacterDevice() && !process.stdout.isTTY);
  } catch {
    return false;
  }
}

function writeAll(text: string): void {
  const bytes = Buffer.from(text);
  for (let done = 0; done < bytes.length;) done += writeSync(1, bytes, done);
}
