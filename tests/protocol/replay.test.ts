import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Position } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { announcedRequests, type Draw } from './announced.ts';
import { LanguageClient } from './language-client.ts';
import { randomChange, seeded } from './random-edits.ts';
import { Judge, type Answered } from './judge.ts';
import { linesOf } from './text-positions.ts';

const COUNT = 2000;
const SEED = 20260304;

const film = readFileSync(join(import.meta.dirname, 'fixtures', 'film.hoof'), 'utf8');
const whole = film + readFileSync(join(import.meta.dirname, 'fixtures', 'words.hoof'), 'utf8');
const starts = [whole, whole.replace(/\n/g, '\r\n').replace(/cob/g, '🐴🐴'), film];

interface Paper {
  readonly uri: string;
  text: string;
  version: number;
  open: boolean;
}

/** Well-formed parameters of a request, broken in one way. */
function broken(params: unknown, random: (below: number) => number): unknown {
  const odd = [undefined, null, -1, 0.5, 'one', [], {}, { line: -1, character: 0 }, { uri: 7 }, 2 ** 40];
  const whatever = () => odd[random(odd.length)];
  if (typeof params !== 'object' || params === null || random(6) === 0) return whatever() ?? null;
  const keys = Object.keys(params);
  const key = keys[random(keys.length)];
  if (key === undefined) return null;
  const inner = (params as Record<string, unknown>)[key];
  return { ...params, [key]: random(2) === 0 && typeof inner === 'object' ? broken(inner, random) : whatever() };
}

function failures(client: LanguageClient): string[] {
  return client.log.filter((line) => /^[\w /]+ failed: |^diagnostics of .* failed: /.test(line));
}

it(`answers ${COUNT} random requests as a fresh server answers them, whatever came before`, async () => {
  const client = await LanguageClient.start();
  const judge = new Judge();
  const random = seeded(Number(process.env['UNGULA_SEED'] ?? SEED));
  const requests = announcedRequests(client.initialized.capabilities);
  const papers: Paper[] = starts.map((text, index) => ({
    uri: `file:///replay-${index}.hoof`,
    text,
    version: 0,
    open: false,
  }));
  const earlier = new Map<string, unknown>();
  const ids = new Map<string, string>();
  const answered = new Map<string, { results: number; errors: number }>();
  const unanswered = new Set<string>();
  const toJudge: Answered[] = [];
  let unreadable = 0;

  const paperOf = (): Paper => papers[random(papers.length)] as Paper;
  const place = (text: string): Position => {
    if (random(20) === 0) return { line: random(10_000), character: random(10_000) };
    const lines = linesOf(text);
    const line = random(lines.length);
    return { line, character: random((lines[line]?.length ?? 0) + 2) };
  };
  const draw = ({ uri, text }: Paper): Draw => ({
    uri: random(25) === 0 ? `file:///never-${random(5)}.hoof` : uri,
    below: random,
    position: () => place(text),
    // Now and then the end stands before the start.
    range: () => ({ start: place(text), end: place(text) }),
    earlier: (method) => earlier.get(method),
    earlierId: (method) => (random(4) === 0 ? 'unknown' : (ids.get(method) ?? '')),
  });

  /** Something that changes what is open, mostly as the protocol has it. */
  function meddle(paper: Paper): void {
    const kind = random(16);
    if (!paper.open) {
      // Told of a file that is not open: nothing may come of it.
      if (kind === 0) client.change(paper.uri, paper.version + 1, [{ text: 'hoof 1\n' }]);
      else if (kind === 1) client.close(paper.uri);
      else {
        paper.open = true;
        client.open(paper.uri, paper.text, ++paper.version);
      }
    } else if (kind > 11) disorder(paper, kind);
    else if (kind === 0) {
      paper.open = false;
      client.close(paper.uri);
    } else if (kind === 1)
      client.notify('textDocument/didChange', { textDocument: { uri: paper.uri }, contentChanges: [] });
    else if (kind === 2) client.notify('$/cancelRequest', { id: random(COUNT) });
    else if (kind === 3) client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: paper.uri, type: 2 }] });
    else {
      const { change, text } = randomChange(paper.text, random);
      // Emptied by a long cut, there would be nothing left to ask about.
      paper.text = text.length < 200 ? (starts[0] ?? '') : text;
      client.change(paper.uri, ++paper.version, [paper.text === text ? change : { text: paper.text }]);
    }
  }

  /** What no client should send, and some do; the text is known again afterwards. */
  function disorder(paper: Paper, kind: number): void {
    const whole = (version: unknown, text: unknown): void =>
      client.notify('textDocument/didChange', {
        textDocument: { uri: paper.uri, version },
        contentChanges: [{ text }],
      });
    switch (kind) {
      case 12: {
        // Two texts under one version, and versions that go back.
        const version = Math.max(1, paper.version - random(3));
        whole(version, paper.text.slice(random(200)));
        paper.text = `${paper.text.slice(0, 2000)}\n# ${random(1000)}\n`;
        whole(version, paper.text);
        paper.version = version;
        break;
      }
      case 13:
        // Opened though it is open: what is said last counts.
        paper.text = starts[random(starts.length)] ?? '';
        client.open(paper.uri, paper.text, ++paper.version);
        break;
      case 14: {
        // Changes that name no place of the text, or none at all.
        const nowhere = { line: 5_000_000, character: 7 };
        const backwards = { start: place(paper.text), end: { line: 0, character: 0 } };
        const odd: unknown[] = [
          [{ range: { start: nowhere, end: nowhere }, text: 'x' }],
          [{ range: backwards, text: '' }],
          [{ range: { start: { line: -1, character: -1 }, end: place(paper.text) }, text: 'y' }],
          [{ put: 'x' }],
          [null],
          'all of it',
          null,
        ];
        const contentChanges = odd[random(odd.length)];
        unreadable += 1;
        client.notify('textDocument/didChange', {
          textDocument: { uri: paper.uri, version: ++paper.version },
          contentChanges,
        });
        // Wherever that led, the text is this one from here on.
        client.change(paper.uri, ++paper.version, [{ text: paper.text }]);
        break;
      }
      default:
        // An answer to what was never asked, and news that nobody knows.
        client.raw(frame({ jsonrpc: '2.0', id: 1_000_000 + random(1000), result: { changed: true } }));
        client.notify('ungula/nothing', [1, 2, 3]);
    }
  }

  async function ask(number: number, malformed: boolean): Promise<void> {
    const request = requests[random(requests.length)];
    if (!request) throw new Error('nothing is announced');
    const made = request.params(draw(paperOf()));
    const params = malformed ? broken(made, random) : made;
    const name = `${number} ${request.method} ${JSON.stringify(params)}`;
    const count = answered.get(request.method) ?? { results: 0, errors: 0 };
    answered.set(request.method, count);
    unanswered.add(name);
    const about = papers.find(({ uri }) => JSON.stringify(params)?.includes(uri));
    const asked = {
      method: request.method,
      params,
      uri: about?.uri ?? null,
      text: about?.open ? about.text : null,
      version: about?.version ?? 1,
    };
    try {
      const result = await client.request<unknown>(request.method, params);
      count.results += 1;
      const list: unknown = Array.isArray(result) ? result : (result as { items?: unknown } | null)?.items;
      if (Array.isArray(list) && list.length > 0) earlier.set(request.method, list[number % list.length]);
      const id: unknown = (result as { resultId?: unknown } | null)?.resultId;
      if (typeof id === 'string') ids.set(request.method, id);
      toJudge.push({ ...asked, answer: { result } });
    } catch (error) {
      // The protocol's own errors have a number; a connection that broke has none that is below -32000.
      const { code } = error as { code?: unknown };
      expect(code, name).toSatisfy((told: number) => told <= -32_600);
      count.errors += 1;
      toJudge.push({ ...asked, answer: { code } });
    }
    unanswered.delete(name);
  }

  for (let number = 0; number < COUNT;) {
    // Several are under way at once, with changes between them.
    const malformed = random(6) === 0;
    const failed = failures(client).length;
    const wave: Promise<void>[] = [];
    for (let left = 1 + random(40); left > 0 && number < COUNT; left--) {
      if (random(3) === 0) meddle(paperOf());
      wave.push(ask(number++, malformed));
    }
    const late = new Promise<never>((_, reject) => {
      setTimeout(
        () => reject(new Error(`not answered: ${[...unanswered].join('\n')}; log: ${client.log.join('\n')}`)),
        300_000,
      ).unref();
    });
    await Promise.race([Promise.all(wave), late]);
    // A feature that trips over malformed parameters is caught by the guard, which says so in the log; over others none may.
    if (!malformed) expect(failures(client).slice(failed)).toEqual([]);
  }

  expect(client.running).toBe(true);
  expect(failures(client).filter((line) => line.startsWith('diagnostics of'))).toEqual([]);
  // The library itself says of a change that it cannot read that it could not.
  const unread = /^Notification handler 'textDocument\/didChange' failed/;
  expect(client.log.filter((line) => !failures(client).includes(line) && !unread.test(line))).toEqual([]);
  expect(client.log.filter((line) => unread.test(line)).length).toBeLessThanOrEqual(unreadable);
  expect([...unanswered]).toEqual([]);
  const counts = [...answered.values()];
  expect(counts.reduce((sum, { results, errors }) => sum + results + errors, 0)).toBe(COUNT);
  for (const { method } of requests) expect(answered.get(method)?.results, method).toBeGreaterThan(0);
  expect(counts.reduce((sum, { errors }) => sum + errors, 0)).toBeGreaterThan(20);

  // Every single answer, held against that of a server that knows nothing but the text it was about.
  let judged = 0;
  for (const one of toJudge) if (await judge.agrees(one)) judged += 1;
  expect(judged).toBeGreaterThan(0.8 * COUNT);

  for (const paper of papers) {
    // Under a number that was never used, as some went back.
    paper.version = 1_000_000;
    if (paper.open) client.change(paper.uri, paper.version, [{ text: paper.text }]);
    else client.open(paper.uri, paper.text, paper.version);
    const wanted = await judge.diagnostics(paper.text);
    const told = await client.diagnostics(paper.uri, paper.version);
    expect(JSON.parse(JSON.stringify(told).replaceAll(paper.uri, 'here'))).toEqual(wanted);
    expect(wanted).not.toEqual([]);
  }
  await judge.stop();
  expect(await client.stop()).toBe(0);
});

function frame(message: object): string {
  const body = JSON.stringify(message);
  return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
}
