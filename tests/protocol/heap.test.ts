import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Position } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { announcedRequests, type Draw } from './announced.ts';
import { LanguageClient } from './language-client.ts';
import { randomChange, seeded } from './random-edits.ts';
import { serverBundle } from './server-bundle.ts';

const uri = 'file:///long-day.hoof';
const text = readFileSync(join(import.meta.dirname, 'fixtures', 'film.hoof'), 'utf8');

/**
 * After garbage is collected the heap still differs by a seventh from one look to the next, on a busy machine by a third. A tree or a record that is kept for each
 * edit or document, 10 to 30 kB, would multiply it.
 */
const most = 1.45;

/** The heap of the server as it ships, asked from outside over Node's inspector, once all garbage is collected. */
class Inspector {
  readonly #socket: WebSocket;
  readonly #answers = new Map<number, (result: unknown) => void>();
  #id = 0;

  private constructor(socket: WebSocket) {
    this.#socket = socket;
    socket.addEventListener('message', ({ data }) => {
      const { id, result } = JSON.parse(String(data)) as { id?: number; result?: unknown };
      if (id !== undefined) this.#answers.get(id)?.(result);
    });
  }

  static async on(client: LanguageClient): Promise<Inspector> {
    const address = /ws:\/\/\S+/.exec(client.log.join(''))?.[0];
    if (address === undefined) throw new Error(`the server told no address to inspect it at: ${client.log.join('')}`);
    const socket = new WebSocket(address);
    await new Promise((resolve, reject) => {
      socket.addEventListener('open', resolve);
      socket.addEventListener('error', () => reject(new Error(`nobody answers at ${address}`)));
    });
    return new Inspector(socket);
  }

  #ask(method: string, params: object = {}): Promise<unknown> {
    const id = ++this.#id;
    this.#socket.send(JSON.stringify({ id, method, params }));
    return new Promise((resolve) => this.#answers.set(id, resolve));
  }

  async heap(): Promise<number> {
    // Twice: what a finaliser lets go of in the first round is collected in the second.
    for (let round = 0; round < 2; round++) await this.#ask('HeapProfiler.collectGarbage');
    const { usedSize } = (await this.#ask('Runtime.getHeapUsage')) as { usedSize: number };
    return usedSize;
  }

  close(): void {
    this.#socket.close();
  }
}

it('10,000 edits of one document, and 1,000 documents, leave the heap where a tenth of them left it', async () => {
  const client = await LanguageClient.start({
    command: ['--inspect=127.0.0.1:0', await serverBundle(), '--stdio'],
  });
  const inspector = await Inspector.on(client);
  const random = seeded(7);
  client.open(uri, text);
  const requests = announcedRequests(client.initialized.capabilities);
  const position = (): Position => ({ line: random(40), character: random(20) });
  const draw: Draw = {
    uri,
    below: random,
    position,
    range: () => ({ start: position(), end: position() }),
    earlier: () => null,
    earlierId: () => '',
  };
  let version = 1;
  let states = 0;

  /** Each edit is undone by the next, so that the text is the same whenever the heap is measured; no two are alike. */
  async function edit(count: number): Promise<number> {
    for (let done = 0; done < count; done += 2) {
      const { change } = randomChange(text, random);
      const put = `${change.text}${(states += 1)}`;
      const changed = 'range' in change ? { ...change, text: put } : { text: put };
      client.change(uri, ++version, [changed]);
      // Waited for, since of several changes at once only the last is looked at.
      await client.diagnostics(uri, version);
      client.change(uri, ++version, [{ text }]);
      await client.diagnostics(uri, version);
      if (done % 100 === 0) {
        // Everything that the server can be asked, so that what a feature keeps of the document is kept here too.
        const asked = requests.map(({ method, params }) => client.request(method, params(draw)).catch(() => null));
        await Promise.all(asked);
      }
    }
    return inspector.heap();
  }

  /** Cases that are opened, edited, asked about and closed again, each under a name and with a picture of its own. */
  async function openAndClose(count: number): Promise<number> {
    for (let done = 0; done < count; done++) {
      states += 1;
      const other = `file:///patient-${states}.hoof`;
      const put = text.replace('"a.png"', `"film-${states}.dcm"`).replace(/scale 0\.1.*/, 'scale dicom');
      client.open(other, put);
      await client.diagnostics(other);
      client.change(other, 2, [{ text: `${put}# ${states}\n` }]);
      await client.diagnostics(other, 2);
      const asked = requests.map(({ method, params }) =>
        client.request(method, params({ ...draw, uri: other })).catch(() => null),
      );
      await Promise.all(asked);
      // All that is open is told anew with other settings, and with none.
      if (done % 20 === 0) {
        const trim = { heelPerVisit: 1 + (states % 20) };
        client.notify('workspace/didChangeConfiguration', { settings: { ungula: { trim } } });
        client.notify('workspace/didChangeConfiguration', { settings: { ungula: {} } });
      }
      client.close(other);
      await client.diagnostics(other, null);
    }
    return inspector.heap();
  }

  const early = await edit(1000);
  const late = await edit(9000);
  expect(version).toBe(10_001);
  expect(early).toBeGreaterThan(1_000_000);
  expect(late / early).toBeLessThan(most);
  const few = await openAndClose(100);
  const many = await openAndClose(900);
  expect(many / few).toBeLessThan(most);
  inspector.close();
  expect(await client.stop()).toBe(0);
}, 600_000);
