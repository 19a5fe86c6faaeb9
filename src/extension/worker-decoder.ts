import type { Showable } from '../../shared/picture/shown-picture.ts';
import type { Decoder } from './surroundings.ts';
import { t } from './words.ts';

export interface DecoderQuestion {
  readonly id: number;
  readonly bytes: Uint8Array;
}

export interface DecoderAnswer {
  readonly id: number;
  readonly shown: Showable;
}

/** What is used of a worker, in a browser and under Node. */
export interface DecoderWorker {
  postMessage(question: DecoderQuestion): void;
  addEventListener(kind: 'message', hear: (event: { readonly data: DecoderAnswer }) => void): void;
  addEventListener(kind: 'error', hear: () => void): void;
  terminate(): void;
}

interface Waiting {
  readonly bytes: Uint8Array;
  readonly resolve: (shown: Showable) => void;
}

/** Milliseconds. A film of 60 million pixels takes some seconds on a slow computer. */
const PATIENCE = 60_000;

/**
 * The decoders in a worker: started for the first picture, ended when none is waiting, so that it holds no memory. A picture that
 * takes longer than any film does ends it; those that wait behind it are asked of a new one.
 */
export class WorkerDecoder implements Decoder {
  readonly #start: () => DecoderWorker;
  readonly #waiting = new Map<number, Waiting>();
  #worker: DecoderWorker | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #last = 0;

  constructor(start: () => DecoderWorker) {
    this.#start = start;
  }

  showable(bytes: Uint8Array): Promise<Showable> {
    const id = ++this.#last;
    return new Promise((resolve) => {
      this.#waiting.set(id, { bytes, resolve });
      this.#ask(id, bytes);
    });
  }

  dispose(): void {
    this.#giveUp();
  }

  #ask(id: number, bytes: Uint8Array): void {
    try {
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
      this.#running().postMessage({ id, bytes });
    } catch {
      this.#giveUp();
    }
  }

  #running(): DecoderWorker {
    if (this.#worker) return this.#worker;
    const worker = this.#start();
    this.#worker = worker;
    worker.addEventListener('message', ({ data }) => {
      if (worker !== this.#worker) return;
      this.#waiting.get(data.id)?.resolve(data.shown);
      this.#waiting.delete(data.id);
      if (this.#waiting.size === 0) this.#end();
      else this.#wait();
    });
    worker.addEventListener('error', () => {
      if (worker === this.#worker) this.#giveUp();
    });
    this.#wait();
    return worker;
  }

  /** The worker goes on from one picture to the next: the first that waits is the one that takes so long. */
  #wait(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      const [slow] = this.#waiting;
      this.#end();
      if (!slow) return;
      const [id, { resolve }] = slow;
      this.#waiting.delete(id);
      resolve({ problem: t('It could not be decoded within a minute. Save it as PNG, and write that path.') });
      for (const [next, { bytes }] of this.#waiting) this.#ask(next, bytes);
    }, PATIENCE);
  }

  #giveUp(): void {
    const failed: Showable = {
      problem: t('The part that decodes such pictures did not start. Reload the window, or save the picture as PNG.'),
    };
    for (const { resolve } of this.#waiting.values()) resolve(failed);
    this.#waiting.clear();
    this.#end();
  }

  #end(): void {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = null;
  }
}
