import type { Showable } from '../../shared/picture/shown-picture.ts';
import type { Decoder } from './platform.ts';
import { t, wordsInUse, type WordTable } from '../../shared/language/words.ts';

export interface DecoderQuestion {
  readonly id: number;
  readonly bytes: Uint8Array;
  /** A worker is a process of its own and says in a sentence what it cannot show. */
  readonly words: WordTable | undefined;
}

export interface DecoderAnswer {
  readonly id: number;
  readonly shown: Showable;
}

/** What is used of a worker, in a browser and under Node. */
export interface DecoderWorker {
  postMessage(question: DecoderQuestion): void;
  addEventListener(kind: 'message', hear: (event: { readonly data: DecoderAnswer }) => void): void;
  /** `outOfMemory` where the worker ended because it had no more memory; a browser does not tell. */
  addEventListener(kind: 'error', hear: (event: { readonly outOfMemory?: boolean }) => void): void;
  terminate(): void;
}

interface QueuedPicture {
  readonly id: number;
  readonly bytes: Uint8Array;
  readonly resolve: (shown: Showable) => void;
}

/** Milliseconds. A film of 60 million pixels takes some seconds on a slow computer. */
const PATIENCE = 60_000;

/**
 * The decoders in a worker: started for the first picture, ended when none is waiting, so that it holds no memory. It is given
 * one picture at a time. One that takes longer than any film does, or more memory, ends it; those that wait behind it are asked of
 * a new one.
 */
export class WorkerDecoder implements Decoder {
  readonly #start: () => DecoderWorker;
  readonly #waiting: QueuedPicture[] = [];
  #worker: DecoderWorker | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #last = 0;

  constructor(start: () => DecoderWorker) {
    this.#start = start;
  }

  showable(bytes: Uint8Array): Promise<Showable> {
    return new Promise((resolve) => {
      this.#last += 1;
      this.#waiting.push({ id: this.#last, bytes, resolve });
      if (this.#waiting.length === 1) this.#ask();
    });
  }

  dispose(): void {
    this.#giveUp();
  }

  /** The picture that has waited longest. */
  #ask(): void {
    clearTimeout(this.#timer);
    const [first] = this.#waiting;
    if (!first) return this.#end();
    try {
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
      this.#running().postMessage({ id: first.id, bytes: first.bytes, words: wordsInUse() });
    } catch {
      return this.#giveUp();
    }
    this.#timer = setTimeout(() => {
      this.#end();
      this.#answer({ problem: t('It could not be decoded within a minute. Save it as PNG, and write that path.') });
    }, PATIENCE);
  }

  #running(): DecoderWorker {
    if (this.#worker) return this.#worker;
    const worker = this.#start();
    this.#worker = worker;
    worker.addEventListener('message', ({ data }) => {
      if (worker === this.#worker && data.id === this.#waiting[0]?.id) this.#answer(data.shown);
    });
    worker.addEventListener('error', ({ outOfMemory }) => {
      if (worker !== this.#worker) return;
      if (!outOfMemory) return this.#giveUp();
      this.#end();
      this.#answer({ problem: t('It takes more memory than any film does. Save it as PNG, and write that path.') });
    });
    return worker;
  }

  #answer(shown: Showable): void {
    this.#waiting.shift()?.resolve(shown);
    this.#ask();
  }

  #giveUp(): void {
    const failed: Showable = {
      problem: t('The part that decodes such pictures did not start. Reload the window, or save the picture as PNG.'),
    };
    for (const { resolve } of this.#waiting.splice(0)) resolve(failed);
    this.#end();
  }

  #end(): void {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = null;
  }
}
