import type { Showable } from '../../shared/picture/shown-picture.ts';
import type { Decoder } from './surroundings.ts';

export interface DecoderQuestion {
  readonly id: number;
  readonly bytes: Uint8Array;
}

export interface DecoderAnswer {
  readonly id: number;
  readonly shown: Showable;
}

const failed: Showable = {
  problem: 'The part that decodes such pictures did not start. Close the preview and open it again.',
};

/** The decoders in a web worker: started for the first picture, ended when none is waiting, so that it holds no memory. */
export class WorkerDecoder implements Decoder {
  readonly #start: () => Worker;
  readonly #waiting = new Map<number, (shown: Showable) => void>();
  #worker: Worker | null = null;
  #last = 0;

  constructor(start: () => Worker) {
    this.#start = start;
  }

  showable(bytes: Uint8Array): Promise<Showable> {
    const id = ++this.#last;
    return new Promise((resolve) => {
      this.#waiting.set(id, resolve);
      try {
        const question: DecoderQuestion = { id, bytes };
        // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker, not a window
        this.#running().postMessage(question);
      } catch {
        this.#giveUp();
      }
    });
  }

  dispose(): void {
    this.#giveUp();
  }

  #running(): Worker {
    if (this.#worker) return this.#worker;
    const worker = this.#start();
    this.#worker = worker;
    worker.addEventListener('message', ({ data }: MessageEvent<DecoderAnswer>) => {
      this.#waiting.get(data.id)?.(data.shown);
      this.#waiting.delete(data.id);
      if (this.#waiting.size === 0) this.#end();
    });
    worker.addEventListener('error', () => this.#giveUp());
    return worker;
  }

  #giveUp(): void {
    for (const resolve of this.#waiting.values()) resolve(failed);
    this.#waiting.clear();
    this.#end();
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
