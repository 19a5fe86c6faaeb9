// The built page of the preview with a host that is none: its answers come from the same functions that the server has.
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import type { Page } from 'playwright-core';
import { inspect } from '../../shared/findings/inspect.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { Wants } from '../../src/messages/course-messages.ts';
import type { WordTable } from '../../shared/language/words.ts';
import { readPageMessage, type HostMessage } from '../../src/messages/messages.ts';
import { previewHtml } from '../../src/extension/preview-html.ts';
import { lookOf, readingsMessage, sheetsMessage } from '../told-page.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const URI = 'file:///case.hoof';

/** What VS Code gives a page, with its state kept over a reload. */
const api = (nonce: string): string => `<script nonce="${nonce}">
  globalThis.acquireVsCodeApi = () => ({
    postMessage: (message) => void globalThis.hostHears(JSON.stringify(message)),
    getState: () => JSON.parse(sessionStorage.getItem('state') ?? 'null') ?? undefined,
    setState: (state) => sessionStorage.setItem('state', JSON.stringify(state)),
  });
</script>`;

const themes = {
  light: { kind: 'vscode-light', style: '--vscode-editor-background:#fff;--vscode-editor-foreground:#222' },
  dark: {
    kind: 'vscode-dark',
    style:
      '--vscode-editor-background:#1e1e1e;--vscode-editor-foreground:#d4d4d4;--vscode-descriptionForeground:#9d9d9d;color-scheme:dark',
  },
} as const;

export class MockPane {
  text: string;
  readonly #server: Server;
  #version = 1;
  #undo: string[] = [];
  #redo: string[] = [];
  #page: Page | null = null;
  #wants: Pick<Wants, 'film' | 'over' | 'shown' | 'agreement'> = { film: null, over: null };
  /** Text of the file that a lesson is held against. */
  readonly #key: string | null;

  private constructor(text: string, server: Server, key: string | null) {
    this.text = text;
    this.#key = key;
    this.#server = server;
  }

  /** `key`: text of the file that a lesson is held against; `words`: what the page says, in another language. */
  static async start(
    text: string,
    theme: keyof typeof themes = 'light',
    { key = null, words }: { readonly key?: string | null; readonly words?: WordTable } = {},
  ): Promise<MockPane> {
    const types: Record<string, string> = { '.js': 'text/javascript', '.css': 'text/css', '.png': 'image/png' };
    const server = createServer(({ url = '/' }, answer) => {
      if (url === '/') {
        const nonce = 'n0';
        const html = previewHtml({
          script: 'dist/preview.js',
          style: 'dist/preview.css',
          cspSource: "'self'",
          nonce,
          ...(words && { words, language: words['en'] ?? 'en' }),
        });
        const { kind, style } = themes[theme];
        answer.setHeader('Content-Type', 'text/html');
        answer.end(
          html
            .replace("style-src 'self'", "style-src 'self' 'unsafe-inline'")
            // As in the editor, whose own style comes first.
            .replace('<link', '<style>img, video { max-width: 100%; max-height: 100% }</style><link')
            .replace('<html', `<html style="${style}"`)
            .replace('<body>', `<body class="${kind}">${api(nonce)}`),
        );
        return;
      }
      const path = normalize(join(ROOT, decodeURIComponent(url)));
      try {
        const bytes = readFileSync(path);
        answer.setHeader('Content-Type', types[extname(path)] ?? 'application/octet-stream');
        answer.end(bytes);
      } catch {
        answer.statusCode = 404;
        answer.end();
      }
    });
    await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
    return new MockPane(text, server, key);
  }

  async open(page: Page): Promise<void> {
    this.#page = page;
    await page.exposeFunction('hostHears', (message: string) => this.#heard(JSON.parse(message)));
    await page.goto(`http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/`);
    await page.locator('.plate svg, .placing').first().waitFor();
  }

  async stop(): Promise<void> {
    await new Promise((done) => this.#server.close(done));
  }

  async #heard(data: unknown): Promise<void> {
    const message = readPageMessage(data);
    if (message?.type === 'ready' || message?.type === 'wants') {
      this.#wants = message.wants;
      await this.#tell();
    }
    if (message?.type === 'place') {
      const made = placeOnFilm(inspect(this.text).tree, message.film, message.placements);
      const says = 'refused' in made ? made.refused : null;
      if ('edits' in made) {
        this.#undo.push(this.text);
        this.#redo = [];
        for (const edit of [...made.edits].reverse())
          this.text = this.text.slice(0, edit.start) + edit.text + this.text.slice(edit.end);
        this.#version++;
      }
      await this.#post({ type: 'placed', id: message.id, uri: URI, version: this.#version, says });
      await this.#tell();
    }
    if (message?.type === 'history') {
      const [from, to] = message.how === 'undo' ? [this.#undo, this.#redo] : [this.#redo, this.#undo];
      const text = from.pop();
      if (text === undefined) return;
      to.push(this.text);
      this.text = text;
      this.#version++;
      await this.#tell();
    }
  }

  async #tell(): Promise<void> {
    const inspection = inspect(this.text);
    const { films } = sheetsMessage(inspection);
    const pictures = Object.fromEntries(
      films.map(({ picture }) => [picture, { kind: 'found', href: `/examples/${picture}` } as const]),
    );
    const rest = { uri: URI, caseName: 'Juniper', version: this.#version, pictures };
    const key = this.#key === null ? { inspection } : { inspection: inspect(this.#key) };
    await this.#post(sheetsMessage(inspection, rest, lookOf(this.#wants), key));
    if (this.#wants.agreement !== undefined) await this.#post({ ...readingsMessage(inspection), uri: URI });
  }

  async #post(message: HostMessage): Promise<void> {
    await this.#page?.evaluate((told) => dispatchEvent(new MessageEvent('message', { data: told })), message);
  }
}
