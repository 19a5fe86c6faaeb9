import { t, wordsInUse } from '../../../shared/language/words.ts';
import type { Proposed } from '../../../shared/proposals/from-film-before.ts';
import type { PlacedPicture, ProposingWorker } from './proposing-messages.ts';

/** What is asked: the film before, where there is one, and the one at hand, with their pictures. */
export interface Question {
  /** The same question has the same key. */
  readonly key: string;
  readonly before: PlacedPicture | null;
  readonly now: PlacedPicture;
}

export interface ProposerParts {
  start(): Promise<ProposingWorker>;
  load(href: string): Promise<Blob>;
  heard(question: Question, proposed: Proposed): void;
}

/**
 * Asks a worker for proposals, one question at a time and of those that wait the newest. Decoded pictures stay in the worker until
 * it is closed, so that only the first question about a film takes long.
 */
export class Proposer {
  readonly #parts: ProposerParts;
  readonly #sent = new Map<string, Promise<void>>();
  #worker: Promise<ProposingWorker> | null = null;
  #asked: Question | null = null;
  #next: Question | null = null;
  #count = 0;
  #isClosed = false;

  constructor(parts: ProposerParts) {
    this.#parts = parts;
  }

  /** These pictures will be asked about: they are read and decoded ahead. */
  ready(hrefs: readonly string[]): void {
    for (const href of hrefs) void this.#picture(href).catch(() => undefined);
  }

  ask(question: Question): void {
    if (this.#asked) {
      this.#next = question;
      return;
    }
    this.#asked = question;
    this.#put(question).catch(() => {
      if (this.#asked !== question) return;
      this.#answered({ says: t('A picture could not be searched, so nothing is proposed. Place by eye.') });
    });
  }

  /** Nothing is heard any more. */
  close(): void {
    this.#isClosed = true;
    void this.#worker?.then((worker) => worker.terminate()).catch(() => undefined);
    this.#worker = null;
    this.#sent.clear();
  }

  async #put(question: Question): Promise<void> {
    const { before, now } = question;
    await Promise.all([before && this.#picture(before.href), this.#picture(now.href)]);
    const worker = await this.#running();
    // The worker failed meanwhile, and another question is asked.
    if (this.#asked !== question) return;
    this.#count += 1;
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
    worker.postMessage({ type: 'propose', id: this.#count, before, now, words: wordsInUse() });
  }

  /** Once for each picture. One that could not be had is tried again when it is asked about again. */
  #picture(href: string): Promise<void> {
    const known = this.#sent.get(href);
    if (known) return known;
    const sending = this.#send(href);
    this.#sent.set(href, sending);
    sending.catch(() => this.#sent.delete(href));
    return sending;
  }

  async #send(href: string): Promise<void> {
    const [file, worker] = await Promise.all([this.#parts.load(href), this.#running()]);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
    worker.postMessage({ type: 'picture', href, file });
  }

  #running(): Promise<ProposingWorker> {
    this.#worker ??= this.#started().catch((error: unknown) => {
      this.#worker = null;
      throw error;
    });
    return this.#worker;
  }

  async #started(): Promise<ProposingWorker> {
    const worker = await this.#parts.start();
    if (this.#isClosed) worker.terminate();
    worker.addEventListener('message', ({ data }) => {
      if (data.id === this.#count) this.#answered(data.proposed);
    });
    worker.addEventListener('error', () => {
      // Another question gets another worker, with the pictures sent anew.
      worker.terminate();
      this.#worker = null;
      this.#sent.clear();
      this.#answered({ says: t('The pictures could not be compared, so nothing is proposed. Place by eye.') });
    });
    return worker;
  }

  #answered(proposed: Proposed): void {
    const [asked, next] = [this.#asked, this.#next];
    this.#asked = null;
    this.#next = null;
    if (this.#isClosed || !asked) return;
    if (next && next.key !== asked.key) this.ask(next);
    else this.#parts.heard(asked, proposed);
  }
}
