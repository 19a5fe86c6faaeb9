import { expect } from 'vitest';
import { LanguageClient } from './language-client.ts';

/** What a server said when it was asked, and what it knew of the document at that time. */
export interface Answered {
  readonly method: string;
  readonly params: unknown;
  /** The document that it is about, where it is about one. */
  readonly uri: string | null;
  /** The text of the document; null where it was not open. */
  readonly text: string | null;
  /** Some answers are for one version only. */
  readonly version: number;
  readonly answer: { readonly result: unknown } | { readonly code: unknown };
}

/** Cancelled, or overtaken by a change: the protocol lets a server answer so, and a fresh one has no reason to. */
const letOff = new Set<unknown>([-32_800, -32_801]);

/** Rests on what was asked before, not on the text alone. */
const restsOnEarlier = new Set(['textDocument/semanticTokens/full/delta']);

/** A server that is begun anew every so often and is only ever given whole texts: what it says is what is right. */
export class Judge {
  private client: LanguageClient | undefined;
  private asked = 0;
  private open: { readonly uri: string; readonly text: string; readonly version: number } | null = null;

  /** Fails where the answers differ; false where there is nothing to hold against one another. */
  async agrees({ method, params, uri, text, version, answer }: Answered): Promise<boolean> {
    if (restsOnEarlier.has(method) || ('code' in answer && letOff.has(answer.code))) return false;
    const client = await this.server();
    const here = await this.opened(client, text, version);
    const said = params === undefined ? '' : JSON.stringify(params);
    const mine: unknown = said === '' ? undefined : JSON.parse(uri === null ? said : said.replaceAll(uri, here));
    const right = await client.request<unknown>(method, mine).then(
      (result) => ({ result }),
      ({ code }: { code?: unknown }) => ({ code }),
    );
    expect(plain(answer, uri), `${method} ${said}\n${JSON.stringify(text)}`).toEqual(plain(right, here));
    return true;
  }

  /** What is told of a text that is opened for the first time. */
  async diagnostics(text: string): Promise<unknown> {
    const client = await this.server();
    const here = await this.opened(client, text, 1);
    return plain(await client.diagnostics(here), here);
  }

  async stop(): Promise<void> {
    await this.client?.stop();
    this.client = undefined;
    this.open = null;
  }

  private async server(): Promise<LanguageClient> {
    if (this.asked++ % 500 === 0) await this.stop();
    this.client ??= await LanguageClient.start();
    return this.client;
  }

  /** The name under which the text is open, or one that is not open where there is no text. */
  private async opened(client: LanguageClient, text: string | null, version: number): Promise<string> {
    if (text !== null && this.open?.text === text && this.open.version === version) return this.open.uri;
    if (this.open) client.close(this.open.uri);
    this.open = null;
    const uri = `file:///judged-${this.asked}.hoof`;
    if (text !== null) {
      client.open(uri, text, version);
      this.open = { uri, text, version };
    }
    return uri;
  }
}

/** Without the name and version of the document and without the name of the answer, which differ. */
function plain(answer: unknown, uri: string | null): unknown {
  const said = JSON.stringify(answer, (key, value: unknown) =>
    key === 'version' || key === 'resultId' ? undefined : value,
  );
  return JSON.parse(uri === null ? said : said.replaceAll(uri, 'here')) as unknown;
}
