import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { nodeThread } from '../../src/extension/node-thread.ts';
import {
  WorkerDecoder,
  type DecoderAnswer,
  type DecoderQuestion,
  type DecoderWorker,
} from '../../src/extension/worker-decoder.ts';

/** A worker as far as the decoder uses one; it answers when the test says so. */
class Stand {
  readonly asked: DecoderQuestion[] = [];
  ended = false;
  readonly #listeners = new Map<string, (event: unknown) => void>();

  postMessage(question: DecoderQuestion): void {
    this.asked.push(question);
  }
  addEventListener(kind: string, listener: (event: unknown) => void): void {
    this.#listeners.set(kind, listener);
  }
  terminate(): void {
    this.ended = true;
  }
  tell(kind: 'message' | 'error', data?: DecoderAnswer, outOfMemory = false): void {
    this.#listeners.get(kind)?.({ data, outOfMemory });
  }
}

function decoderWithStands(): { decoder: WorkerDecoder; stands: Stand[] } {
  const stands: Stand[] = [];
  const decoder = new WorkerDecoder(() => {
    stands.push(new Stand());
    return stands.at(-1) as unknown as DecoderWorker;
  });
  return { decoder, stands };
}

afterEach(() => void vi.useRealTimers());

const png = (width: number) => ({ mime: 'image/png', bytes: new Uint8Array(1), width, height: 1 });

it('each picture gets its own answer, one after the other, and the idle worker is ended', async () => {
  const { decoder, stands } = decoderWithStands();
  const [first, second] = [decoder.showable(new Uint8Array(1)), decoder.showable(new Uint8Array(2))];
  const [stand] = stands;
  expect(stand?.asked.map(({ bytes }) => bytes.length)).toEqual([1]);
  stand?.tell('message', { id: stand.asked[0]?.id ?? 0, shown: png(1) });
  expect(stand?.asked.map(({ bytes }) => bytes.length)).toEqual([1, 2]);
  expect(stand?.ended).toBe(false);
  stand?.tell('message', { id: stand.asked[1]?.id ?? 0, shown: png(2) });
  expect([await first, await second]).toEqual([png(1), png(2)]);
  expect(stand?.ended).toBe(true);
  void decoder.showable(new Uint8Array(3));
  expect(stands).toHaveLength(2);
});

it('a worker that fails is told in words, and the next picture gets a new one', async () => {
  const { decoder, stands } = decoderWithStands();
  const lost = decoder.showable(new Uint8Array(1));
  stands[0]?.tell('error');
  expect(await lost).toEqual({ problem: expect.stringMatching(/^The part that decodes/) });
  const next = decoder.showable(new Uint8Array(1));
  stands[1]?.tell('message', { id: stands[1].asked[0]?.id ?? 0, shown: png(5) });
  expect(await next).toEqual(png(5));
});

it('a host that lets no worker start is told in words too', async () => {
  const decoder = new WorkerDecoder(() => {
    throw new Error('blocked');
  });
  expect(await decoder.showable(new Uint8Array(1))).toHaveProperty('problem');
});

it('a picture that takes too long is given up in words, and those behind it are asked of a new worker', async () => {
  vi.useFakeTimers();
  const { decoder, stands } = decoderWithStands();
  const [slow, next] = [decoder.showable(new Uint8Array(1)), decoder.showable(new Uint8Array(2))];
  await vi.advanceTimersByTimeAsync(60_000);
  expect(await slow).toEqual({ problem: expect.stringMatching(/Save it as PNG/) });
  expect(stands.map(({ ended }) => ended)).toEqual([true, false]);
  expect(stands[1]?.asked.map(({ bytes }) => bytes.length)).toEqual([2]);
  // What the worker that was ended still says is not believed.
  stands[0]?.tell('message', { id: stands[1]?.asked[0]?.id ?? 0, shown: png(9) });
  stands[1]?.tell('message', { id: stands[1].asked[0]?.id ?? 0, shown: png(2) });
  expect(await next).toEqual(png(2));
  expect(vi.getTimerCount()).toBe(0);
});

it('a picture that takes too much memory is told in words, and those behind it are asked of a new worker', async () => {
  const { decoder, stands } = decoderWithStands();
  const [large, next] = [decoder.showable(new Uint8Array(1)), decoder.showable(new Uint8Array(2))];
  stands[0]?.tell('error', undefined, true);
  expect(await large).toEqual({ problem: expect.stringMatching(/^It takes more memory than any film/) });
  expect(stands[1]?.asked.map(({ bytes }) => bytes.length)).toEqual([2]);
  stands[1]?.tell('message', { id: stands[1].asked[0]?.id ?? 0, shown: png(2) });
  expect(await next).toEqual(png(2));
});

describe('a thread of Node’s', () => {
  const folder = mkdtempSync(join(tmpdir(), 'ungula-thread-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const script = (name: string, says: string): string => {
    const file = join(folder, name);
    writeFileSync(file, `const { parentPort } = require('node:worker_threads');\nparentPort.on('message', ${says});\n`);
    return file;
  };

  it('that takes more memory than it may ends alone: the picture is told in words, and the next one is shown', async () => {
    // A picture of one byte stands for one whose decoder fills the memory.
    const file = script(
      'greedy.cjs',
      `({ id, bytes }) => {
        const held = [];
        while (bytes.length === 1) held.push(new Array(10_000).fill({}).map((_, at) => ({ at })));
        parentPort.postMessage({ id, shown: { problem: 'no picture' } });
      }`,
    );
    const decoder = new WorkerDecoder(() => nodeThread(file, { maxOldGenerationSizeMb: 32 }));
    const [large, next] = [decoder.showable(new Uint8Array(1)), decoder.showable(new Uint8Array(2))];
    expect(await large).toEqual({ problem: expect.stringMatching(/^It takes more memory than any film/) });
    expect(await next).toEqual({ problem: 'no picture' });
  });

  it('has a bound of its own where none is named', async () => {
    const file = script(
      'told.cjs',
      `({ id }) => parentPort.postMessage({ id, shown: { problem: String(require('node:worker_threads').resourceLimits.maxOldGenerationSizeMb) } })`,
    );
    expect(await new WorkerDecoder(() => nodeThread(file)).showable(new Uint8Array(1))).toEqual({ problem: '1024' });
  });
});
