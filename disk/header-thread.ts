import { Worker } from 'node:worker_threads';
import { wordsInUse } from '../shared/language/words.ts';
import type { Looked } from '../shared/picture/picture-files.ts';
import type { ScaleFound } from '../shared/picture/stored-scale.ts';
import type { HeaderAnswer, HeaderQuestion } from './header-question.ts';

export interface HeaderBounds {
  /** Milliseconds for one header. */
  readonly patience: number;
  /** Milliseconds without a question after which the thread ends. */
  readonly idle: number;
  /** Of the thread's heap. */
  readonly megabytes: number;
}

/** A header takes some milliseconds and next to no memory; what takes so much more is no picture of a film. */
const usual: HeaderBounds = { patience: 10_000, idle: 2000, megabytes: 256 };

type QueuedHeader = Omit<HeaderQuestion, 'words'> & { readonly resolve: (scale: Looked<ScaleFound>) => void };

/**
 * Reads what pictures say of their scale in a thread of its own, so that whoever asks goes on meanwhile. A header that
 * takes too long or too much memory ends the thread and nothing else; those that wait behind it are asked of a new one.
 */
export class HeaderThread {
  private readonly file: string;
  private readonly bounds: HeaderBounds;
  /** In the order in which they were asked; the thread is given one at a time, so that it is known which one ended it. */
  private readonly waiting: QueuedHeader[] = [];
  private thread: Worker | null = null;
  private timer: NodeJS.Timeout | undefined;
  private last = 0;

  /** @param file the bundle of header.thread.ts */
  constructor(file: string, bounds: HeaderBounds = usual) {
    this.file = file;
    this.bounds = bounds;
  }

  /** Never rejects. */
  storedScale(path: string, roots: readonly string[], name: string): Promise<Looked<ScaleFound>> {
    return new Promise((resolve) => {
      this.last += 1;
      this.waiting.push({ id: this.last, path, roots, name, resolve });
      if (this.waiting.length === 1) this.ask();
    });
  }

  end(): void {
    clearTimeout(this.timer);
    void this.thread?.terminate();
    this.thread = null;
  }

  private ask(): void {
    clearTimeout(this.timer);
    const [first] = this.waiting;
    if (!first) {
      this.timer = setTimeout(() => this.end(), this.bounds.idle).unref();
      return;
    }
    this.timer = setTimeout(() => this.giveUp(), this.bounds.patience);
    const { id, path, roots, name } = first;
    const question: HeaderQuestion = { id, path, roots, name, words: wordsInUse() };
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
    this.running().postMessage(question);
  }

  private running(): Worker {
    if (this.thread) return this.thread;
    const thread = new Worker(this.file, { resourceLimits: { maxOldGenerationSizeMb: this.bounds.megabytes } });
    // The process may end while nobody waits.
    thread.unref();
    thread.on('message', ({ id, scale }: HeaderAnswer) => {
      if (thread === this.thread && this.waiting[0]?.id === id) this.answer(scale);
    });
    for (const way of ['error', 'exit'] as const)
      thread.on(way, () => {
        if (thread === this.thread) this.giveUp();
      });
    this.thread = thread;
    return thread;
  }

  private giveUp(): void {
    this.end();
    if (this.waiting.length > 0) this.answer({ refused: 'never ready' });
  }

  private answer(scale: Looked<ScaleFound>): void {
    this.waiting.shift()?.resolve(scale);
    this.ask();
  }
}
