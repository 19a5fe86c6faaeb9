import type { CodeAction, CompletionList, DocumentSymbol } from 'vscode-languageserver';
import { LineMap } from '../../shared/notation/line-map.ts';
import { LanguageClient, wholeWorkspace } from '../protocol/language-client.ts';
import { watched, type Time } from './time.ts';

const uri = 'file:///growth/case.hoof';

interface Position {
  readonly line: number;
  readonly character: number;
}

/** What is asked about each of the places; each is asked of every one of them, the slowest counts. */
const atPlaces = [
  'hover',
  'completion',
  'signatureHelp',
  'definition',
  'references',
  'documentHighlight',
  'prepareRename',
  'selectionRange',
  'onTypeFormatting',
  'newFilms',
] as const;

/**
 * Opens a text in a server of its own and asks it everything that a client may ask, one after the other; seconds each. Where an answer
 * takes longer than `patience` seconds, it is told as that long and the rest goes to a new server.
 */
export async function serverTimes(text: string, patience: number): Promise<Time[]> {
  const asking = new Asking(text, patience);
  await asking.everything();
  return asking.times;
}

class Asking {
  readonly times: Time[] = [];
  readonly #text: string;
  readonly #patience: number;
  readonly #map: LineMap;
  #client: LanguageClient | null = null;
  #ended: Promise<never> | null = null;
  #version = 1;

  constructor(text: string, patience: number) {
    this.#text = text;
    this.#patience = patience;
    this.#map = new LineMap(text);
  }

  async everything(): Promise<void> {
    await this.#time('open, then symbols', (client) => client.symbols(uri));
    for (const method of [
      'documentSymbol',
      'foldingRange',
      'documentLink',
      'codeLens',
      'semanticTokens/full',
      'diagnostic',
    ])
      await this.#ask(method);
    await this.#ask('semanticTokens/full/delta', { previousResultId: '1' });
    const options = { tabSize: 2, insertSpaces: true };
    await this.#ask('formatting', { options });
    const whole = { start: this.#at(0), end: this.#at(this.#text.length) };
    await this.#ask('rangeFormatting', { range: whole, options });
    for (const method of ['semanticTokens/range', 'inlayHint']) await this.#ask(method, { range: whole });
    const context = { diagnostics: [] };
    await this.#ask('codeAction', { range: whole, context });
    await this.#ask(
      'codeAction',
      { range: whole, context: { ...context, only: ['source.fixAll'] } },
      'codeAction, fix all',
    );
    await this.#time('codeAction, then resolve', async (client) => {
      const actions = await client.codeActions(uri, whole);
      const lazy = actions?.filter(({ edit }) => !edit).slice(0, 3) ?? [];
      for (const action of lazy) await client.request<CodeAction>('codeAction/resolve', action);
    });
    for (const method of atPlaces) await this.#askAtPlaces(method);
    await this.#time('rename', async (client) => {
      for (const position of this.#places()) {
        await client.about('rename', uri, { position, newName: 'other' }).catch(() => null);
      }
    });
    await this.#time('selectionRange, 200 places', (client) => {
      const step = Math.max(1, Math.floor(this.#text.length / 200));
      const positions = Array.from({ length: 200 }, (_, number) => this.#at(number * step));
      return client.about('selectionRange', uri, { positions });
    });
    await this.#time('workspace/symbol', (client) => client.request('workspace/symbol', { query: 'a' }));
    await this.#time('workspace/diagnostic', (client) =>
      client.request('workspace/diagnostic', { previousResultIds: [] }),
    );
    await this.#own('course');
    const sheets = await this.#own('sheets');
    await this.#place(sheets);
    await this.#heel();
    await this.#time('a keystroke, then symbols', async (client) => {
      const position = this.#at(this.#text.length >> 1);
      client.change(uri, (this.#version += 1), [{ range: { start: position, end: position }, text: '5' }]);
      await client.request<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument: { uri } });
    });
    await this.#time('a keystroke at the end, then completion', async (client) => {
      const position = this.#at(this.#text.length);
      client.change(uri, (this.#version += 1), [{ range: { start: position, end: position }, text: 'a' }]);
      const end = { line: position.line, character: position.character + 1 };
      await client.request<CompletionList>('textDocument/completion', { textDocument: { uri }, position: end });
    });
    await this.#client?.stop();
  }

  async #ask(method: string, more: object = {}, what = method): Promise<void> {
    await this.#time(what, (client) => client.about(method, uri, more));
  }

  async #askAtPlaces(method: (typeof atPlaces)[number]): Promise<void> {
    const more: Record<string, object> = {
      references: { context: { includeDeclaration: true } },
      onTypeFormatting: { ch: '\n', options: { tabSize: 2, insertSpaces: true } },
      newFilms: { pictures: [{ name: 'new.png', path: null }], taken: [] },
    };
    await this.#time(method, async (client) => {
      for (const position of this.#places()) {
        const params = { textDocument: { uri }, ...more[method] };
        if (method === 'newFilms') await client.request('ungula/newFilms', { ...params, position });
        else if (method === 'selectionRange') await client.about(method, uri, { positions: [position] });
        else await client.about(method, uri, { ...more[method], position }).catch(() => null);
      }
    });
  }

  async #own<R>(name: string): Promise<R | null> {
    return this.#time(name, (client) => client.request<R>(`ungula/${name}`, { textDocument: { uri } }));
  }

  async #place(sheets: unknown): Promise<void> {
    interface Shown {
      line: number;
      picture: string;
      foot: string;
      view: string;
      reader: string | null;
    }
    const film = (sheets as { sheets?: Shown[] } | null)?.sheets?.at(-1);
    if (!film) return;
    const { line, picture, foot, view, reader } = film;
    await this.#time('place', (client) =>
      client.request('ungula/place', {
        textDocument: { uri, version: this.#version },
        film: { line, picture, foot, view, reader },
        placements: [{ kind: 'landmark', name: 'p3.tip', at: { x: 1, y: 2 } }],
      }),
    );
  }

  async #heel(): Promise<void> {
    const plan = this.#text.lastIndexOf('\n  plan ');
    if (plan < 0) return;
    const { line } = this.#at(plan + 1);
    await this.#time('heel', (client) =>
      client.request('ungula/heelInPlan', { textDocument: { uri, version: this.#version }, line, mm: 3 }),
    );
  }

  /** Near the start, in the middle, at the end, and in the middle and at the end of the longest line. */
  #places(): Position[] {
    let longest = { start: 0, end: 0 };
    for (let start = 0; start < this.#text.length;) {
      const found = this.#text.indexOf('\n', start);
      const end = found < 0 ? this.#text.length : found;
      if (end - start > longest.end - longest.start) longest = { start, end };
      start = end + 1;
    }
    const { length } = this.#text;
    const offsets = [20, length >> 1, length, (longest.start + longest.end) >> 1, longest.end];
    return [...new Set(offsets)].map((offset) => this.#at(offset));
  }

  #at(offset: number): Position {
    const { line, column } = this.#map.at(offset);
    return { line, character: column };
  }

  async #time<R>(what: string, ask: (client: LanguageClient) => Promise<R>): Promise<R | null> {
    this.#client ??= await this.#start();
    const client = this.#client;
    let gaveUp = false;
    const watch = watched(client.pid, this.#patience, () => {
      gaveUp = true;
      client.kill();
    });
    let says = '';
    const answer = await Promise.race([ask(client), ...(this.#ended ? [this.#ended] : [])]).catch((error: unknown) => {
      says = String(error).slice(0, 300);
      return null;
    });
    const { seconds, megabytes } = watch.end();
    this.times.push({ what, seconds: gaveUp ? Infinity : says ? NaN : seconds, megabytes, says });
    if (!client.running) this.#client = null;
    return answer;
  }

  /** A server that has read the text, which is a time of its own. */
  async #start(): Promise<LanguageClient> {
    const client = await LanguageClient.start({ capabilities: wholeWorkspace });
    this.#version = 1;
    client.open(uri, this.#text);
    // A server that is killed does not answer; that it ends is all that is heard of it.
    const ended = client.ended().then((): never => {
      throw new Error('the server has ended');
    });
    ended.catch(() => undefined);
    this.#ended = ended;
    return client;
  }
}
