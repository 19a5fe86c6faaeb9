// From a keystroke to painted numbers: the built server as a process, the built page in a browser, and what lies between
// them done as the extension does it. Prints; nothing fails on a time. painted.ts [--before CHECKOUT] [--json] measures
// another built checkout beside this one, keystroke by keystroke in turn.
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import type { FilmLook } from '../../shared/views/film-choice.ts';
import type { PageState } from '../../src/messages/messages.ts';
import { LanguageClient } from '../protocol/language-client.ts';
import { positionAt } from '../protocol/text-positions.ts';
import { fullCase } from './full-case.ts';
import { mockedPage, type MockedPage } from './mocked-page.ts';
import { usualCase } from './usual-case.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const cases = { usual: usualCase, full: fullCase } as const;
export type PaintedCase = keyof typeof cases;

/** Milliseconds, one for each keystroke. */
interface Times {
  /** From the change to the answer of the server, as its client sees it. */
  readonly server: number[];
  /** Reading, checking and drawing in the page, the layout included. */
  readonly page: number[];
  /** From the change to the frame that bears the numbers. */
  readonly painted: number[];
}

type PaintedTimes = readonly [minimum: number, median: number, high: number];

export interface Painted {
  /** This checkout, or the one that it is measured beside. */
  readonly which: 'now' | 'before';
  readonly kind: PaintedCase;
  readonly visits: number;
  readonly keystrokes: number;
  /** UTF-8, of the message to the page. */
  readonly bytes: number;
  /** Minimum, median and 95th percentile, ms; `own`: server and page without waiting for the frame. */
  readonly server: PaintedTimes;
  readonly page: PaintedTimes;
  readonly own: PaintedTimes;
  readonly painted: PaintedTimes;
}

const uri = 'file:///case.hoof';
const kept: PageState = {
  uri,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
};
const picture = 'films/juniper-lf-2026-03-03.png';

/** A checkout with a case open in its server and on its page. */
class Subject {
  readonly times: Times = { server: [], page: [], painted: [] };
  bytes = 0;
  #version = 1;
  #isHigh = false;
  readonly #client: LanguageClient;
  readonly #pane: MockedPage;
  readonly #text: string;

  private constructor(client: LanguageClient, pane: MockedPage, text: string) {
    this.#client = client;
    this.#pane = pane;
    this.#text = text;
  }

  static async start(checkout: string, text: string): Promise<Subject> {
    const client = await LanguageClient.start({ command: [join(checkout, 'dist', 'cli.js'), 'serve', '--stdio'] });
    client.open(uri, text, 1);
    const pane = await mockedPage(join(ROOT, 'examples'), kept, { extension: checkout });
    return new Subject(client, pane, text);
  }

  /** Another height of the tip in the newest film, which is the one that is shown. */
  async keystroke(isCounted: boolean): Promise<void> {
    const last = [...this.#text.matchAll(/^ +p3\.tip +@ +[\d.]+, +([\d.]+)/gm)].at(-1);
    const [all = '', height = ''] = last ?? [];
    const at = (last?.index ?? 0) + all.length - height.length;
    const now = String(Number(height) + (this.#isHigh ? 20 : 0));
    this.#isHigh = !this.#isHigh;
    const next = String(Number(height) + (this.#isHigh ? 20 : 0));
    const start = positionAt(this.#text, at);
    const range = { start, end: { line: start.line, character: start.character + now.length } };
    // The first time what stands there is as it was written.
    if (this.#version === 1) range.end.character = start.character + height.length;
    const began = performance.now();
    this.#client.change(uri, ++this.#version, [{ range, text: next }]);
    const message = await this.#message(start.line);
    const text = JSON.stringify(message);
    const answered = performance.now() - began;
    const { drawn, painted } = await this.#shown(text);
    if (!isCounted) return;
    this.bytes = Buffer.byteLength(text);
    this.times.server.push(answered);
    this.times.page.push(drawn);
    this.times.painted.push(answered + painted);
  }

  async #message(line: number): Promise<object> {
    const look: FilmLook = { film: null, line, moved: true, over: null };
    const answer = await this.#client.request<SheetsResult>(sheetsRequest, { textDocument: { uri }, look });
    // A server of before the list sends every sheet, and its page takes them all.
    const isSlim = 'films' in answer;
    const { sheets, ...told } = answer;
    const names = [...new Set((isSlim ? answer.films : sheets).map((film) => film.picture))];
    const href = `${this.#pane.address}/${picture}?of=`;
    const pictures = Object.fromEntries(names.map((name) => [name, { kind: 'found', href: `${href}${name}` }]));
    if (isSlim && answer.sheet === null) throw new Error('no film is shown');
    return { ...told, ...(!isSlim && { sheets }), type: 'sheets', uri, fileName: 'case.hoof', pictures, cursor: line };
  }

  /** In the page: from the text of a message to its numbers. Reading it stands for what the editor does to hand it over. */
  async #shown(text: string): Promise<{ drawn: number; painted: number }> {
    return this.#pane.page.evaluate(async (all) => {
      const numbers = (): string => document.querySelector('tr[data-measure="palmar-angle"] .value')?.textContent ?? '';
      const before = numbers();
      const start = performance.now();
      dispatchEvent(new MessageEvent('message', { data: JSON.parse(all) as unknown }));
      document.body.getBoundingClientRect();
      const drawn = performance.now() - start;
      await new Promise((frame) => requestAnimationFrame(() => setTimeout(frame)));
      const painted = performance.now() - start;
      if (numbers() === before || numbers() === '') throw new Error(`the number stays ${before}`);
      return { drawn, painted };
    }, text);
  }

  async begin(): Promise<void> {
    // The picture is read once, before anything is measured.
    await this.keystroke(false);
    await this.#pane.page.locator('.plate svg image').first().waitFor();
  }

  async stop(): Promise<void> {
    await this.#pane.close();
    await this.#client.stop();
  }
}

function at(times: readonly number[], share: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.ceil(share * (sorted.length - 1))] ?? Number.NaN;
}

function summary(which: Painted['which'], kind: PaintedCase, visits: number, { times, bytes }: Subject): Painted {
  const three = (all: readonly number[]): PaintedTimes => [at(all, 0), at(all, 0.5), at(all, 0.95)];
  return {
    which,
    kind,
    visits,
    keystrokes: times.server.length,
    bytes,
    server: three(times.server),
    page: three(times.page),
    own: three(times.server.map((server, index) => server + (times.page[index] ?? Number.NaN))),
    painted: three(times.painted),
  };
}

/** This checkout, and the one before where one is given; each keystroke in one and then in the other. */
async function painted(kind: PaintedCase, visits: number, keystrokes: number, before?: string): Promise<Painted[]> {
  const text = cases[kind](visits);
  const subjects: Subject[] = [];
  try {
    for (const checkout of before === undefined ? [ROOT] : [ROOT, before])
      subjects.push(await Subject.start(checkout, text));
    for (const subject of subjects) await subject.begin();
    for (let step = -10; step < keystrokes; step++) for (const subject of subjects) await subject.keystroke(step >= 0);
    return subjects.map((subject, index) => summary(index === 0 ? 'now' : 'before', kind, visits, subject));
  } finally {
    for (const subject of subjects) await subject.stop();
  }
}

const { values } = parseArgs({
  options: { before: { type: 'string' }, json: { type: 'boolean', default: false }, keystrokes: { type: 'string' } },
});
const all: Painted[] = [];
for (const kind of ['usual', 'full'] as const)
  all.push(...(await painted(kind, 40, Number(values.keystrokes ?? 100), values.before)));
if (values.json) console.log(JSON.stringify(all));
else
  for (const one of all) {
    const said = (all: PaintedTimes): string => `${all.map((one) => one.toFixed(1)).join(' / ')} ms`;
    console.log(
      `${one.visits} ${one.kind} visits, ${one.which}: ${(one.bytes / 1000).toFixed(1)} KB a keystroke; minimum / median / 95th percentile of ${one.keystrokes}:` +
        ` server ${said(one.server)}, page ${said(one.page)}, own work ${said(one.own)}, painted ${said(one.painted)}`,
    );
  }
