import { createContext, runInContext } from 'node:vm';
import { resolve } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import { expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { inspect } from '../../shared/findings/inspect.ts';
import { isPageQuestion, type ThreadAnswer } from '../../shared/protocol/page-thread.ts';
import { handedPage, pageReaders } from '../../shared/report/pages/handed-page.ts';
import { usualStudy } from '../../shared/trim/study.ts';

const root = resolve(import.meta.dirname, '..', '..');

interface Message {
  id?: number;
  method?: string;
  params?: unknown;
  result?: unknown;
  error?: unknown;
}

/** What a web worker has and the server may use; nothing of Node's, and no code made from text. */
function workerWith(bundle: string, send: (message: Message) => void): (message: Message) => void {
  const scope: Record<string, unknown> = {
    postMessage: (message: Message) => send(structuredClone(message)),
    addEventListener: () => {},
    onmessage: null,
    setTimeout,
    clearTimeout,
    setInterval,
    clearInterval,
    queueMicrotask,
    TextDecoder,
    TextEncoder,
    URL,
    performance,
    console,
  };
  scope['self'] = scope;
  runInContext(bundle, createContext(scope, { codeGeneration: { strings: false, wasm: false } }));
  return (message) => {
    const listen = scope['onmessage'] as ((event: { data: Message }) => void) | null;
    if (!listen) throw new Error('the worker listens to no message');
    listen({ data: structuredClone(message) });
  };
}

class WorkerClient {
  readonly #send: (message: Message) => void;
  readonly #received: Message[] = [];
  #look = (): void => {};
  #id = 0;

  constructor(bundle: string) {
    this.#send = workerWith(bundle, (message) => {
      this.#received.push(message);
      this.#look();
    });
  }

  notify(method: string, params: unknown): void {
    this.#send({ jsonrpc: '2.0', method, params } as Message);
  }

  async request(method: string, params: unknown): Promise<Message> {
    const id = ++this.#id;
    this.#send({ jsonrpc: '2.0', id, method, params } as Message);
    return this.first((message) => message.id === id && message.method === undefined);
  }

  first(fits: (message: Message) => boolean): Promise<Message> {
    return new Promise((found, late) => {
      const limit = setTimeout(() => late(new Error(`no such message in ${JSON.stringify(this.#received)}`)), 180_000);
      this.#look = () => {
        const message = this.#received.find(fits);
        if (!message) return;
        clearTimeout(limit);
        found(message);
      };
      this.#look();
    });
  }
}

const bundled = async (): Promise<string> => {
  const { outfile: _, ...options } = outputs.worker;
  const built = await build({ ...options, absWorkingDir: root, write: false } as BuildOptions);
  return built.outputFiles?.[0]?.text ?? '';
};

it('a second worker of the same bundle makes pages, and never mistakes a message of the server for a question', async () => {
  const text = 'hoof 1\n\ncase "Clover"\n  animal horse mare\n\nvisit 2026-03-04\n  weight 512 kg\n';
  const grounds = { text, settings: usualStudy, levels: [], scales: [], missing: [] };
  const answers: ThreadAnswer[] = [];
  const ask = workerWith(await bundled(), (message) => answers.push(message as unknown as ThreadAnswer));
  for (const [id, reader] of pageReaders.entries()) {
    const wish = { page: { grounds, reader, date: '2026-03-05', names: false, pictures: [] } };
    ask({ id, wish, words: undefined, language: 'en' } as unknown as Message);
  }
  const inspection = inspect(text);
  const pages = pageReaders.map((reader) =>
    handedPage(reader, { inspection, pictures: new Map(), date: '2026-03-05', names: false }),
  );
  expect(answers).toEqual(pages.map((html, id) => ({ id, made: { html } })));
  for (const wish of [null, { page: null }, { print: {} }, { report: {} }])
    ask({ id: 9, wish, words: undefined, language: 'en' } as unknown as Message);
  expect(answers.slice(3)).toEqual(Array.from({ length: 4 }, () => ({ id: 9, made: { problem: expect.any(String) } })));
  expect(isPageQuestion({ jsonrpc: '2.0', id: 1, method: 'x', wish: {} })).toBe(false);
});

it('the server runs as a web worker: no Node, no code made from text', async () => {
  // With these options a Node built-in that anything imports would stop the build.
  expect(outputs.worker).toMatchObject({ platform: 'browser', format: 'iife', outfile: 'dist/server.worker.js' });
  expect(outputs.worker.external).toBeUndefined();
  const { outfile: _, ...options } = outputs.worker;
  const built = await build({ ...options, absWorkingDir: root, write: false, metafile: true } as BuildOptions);
  expect(Object.values(built.metafile?.outputs ?? {}).flatMap(({ imports }) => imports)).toEqual([]);

  const client = new WorkerClient(built.outputFiles?.[0]?.text ?? '');
  const initialized = await client.request('initialize', { processId: null, rootUri: null, capabilities: {} });
  expect(initialized.result).toMatchObject({ serverInfo: { name: 'ungula' } });
  client.notify('initialized', {});

  const uri = 'vscode-vfs://case/a.hoof';
  const text = `hoof 1
visit 2026-03-04
  weight 512
  film LF lateral "a.dcm"
    scale dicom
    ground 1000, 1000 .. 100, 1000
    p3.tip @ 400, 900
    p3.wing @ 800, 880
`;
  client.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'hoof', version: 1, text } });
  const told = await client.first(({ method }) => method === 'textDocument/publishDiagnostics');
  const { diagnostics } = told.params as { diagnostics: { code: string; message: string }[] };
  expect(diagnostics.map(({ code }) => code)).toContain('notation/missing-unit');
  // It has not looked, so it must not say that the picture is not there.
  const scale = diagnostics.find(({ code }) => code === 'frame/no-scale');
  expect(scale?.message).toMatch(/^The picture a\.dcm cannot be looked at from here\./);

  const hover = await client.request('textDocument/hover', {
    textDocument: { uri },
    position: { line: 2, character: 3 },
  });
  expect(hover.result).toMatchObject({ contents: { kind: expect.any(String) } });
  expect((await client.request('shutdown', null)).error).toBeUndefined();
});
