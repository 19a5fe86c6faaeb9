import { createServer } from 'node:http';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AddressInfo } from 'node:net';
import { chromium, type Browser, type Page } from 'playwright-core';
import { ensureChromium } from '../host/chromium.ts';
import { previewHtml } from '../../src/extension/preview-html.ts';

const ROOT = join(import.meta.dirname, '..', '..');

export interface MockedPage {
  readonly page: Page;
  /** Where files of `folder` are served from. */
  readonly address: string;
  /** The page loaded anew, with what it had kept. */
  open(kept: unknown): Promise<void>;
  close(): Promise<void>;
}

interface Options {
  readonly size?: { readonly width: number; readonly height: number };
  /** The built extension. */
  readonly extension?: string;
  /** The words of the page in another language. */
  readonly words?: Readonly<Record<string, string>>;
}

/** What the editor puts before the page's own style. */
const editorStyle = `body { background-color: transparent; color: var(--vscode-editor-foreground); margin: 0; padding: 0 20px; }
img, video { max-width: 100%; max-height: 100%; }
a:focus, input:focus, select:focus, textarea:focus { outline: 1px solid -webkit-focus-ring-color; outline-offset: -1px; }`;

/** The built page of the preview pane in a browser, its host a list that keeps what it is told. `folder` holds the pictures. */
export async function mockedPage(
  folder: string,
  kept: unknown,
  { size = { width: 1000, height: 900 }, extension = ROOT, words }: Options = {},
): Promise<MockedPage> {
  let keeping = kept;
  const kinds: Readonly<Record<string, string>> = {
    js: 'text/javascript',
    css: 'text/css',
    html: 'text/html',
    png: 'image/png',
    jpg: 'image/jpeg',
  };
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    if (path === '/') {
      const nonce = 'mocked';
      const page = previewHtml({
        script: '/dist/preview.js',
        style: '/dist/preview.css',
        cspSource: "'self'",
        nonce,
        ...(words && { words, language: words['en'] ?? 'en' }),
      });
      const state = JSON.stringify(keeping ?? null).replaceAll('<', '\\u003c');
      const host = `window.told=[];window.kept=${state};window.acquireVsCodeApi=()=>({postMessage:(m)=>told.push(m),getState:()=>kept,setState:(s)=>{kept=s}});`;
      response.setHeader('content-type', 'text/html; charset=utf-8');
      response.end(
        page
          .replace('<script ', `<script nonce="${nonce}">${host}</script><script `)
          .replace('<link ', '<link rel="stylesheet" href="/editor.css"><link '),
      );
      return;
    }
    try {
      const own = path.startsWith('/dist/') ? join(extension, path) : join(folder, path);
      const bytes =
        path === '/editor.css' ? Buffer.from(editorStyle) : path === '/favicon.ico' ? '' : readFileSync(own);
      response.setHeader('content-type', kinds[own.slice(own.lastIndexOf('.') + 1)] ?? 'application/octet-stream');
      response.end(bytes);
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  let browser: Browser | undefined;
  try {
    browser = await chromium.launch({ executablePath: await ensureChromium(), args: ['--no-sandbox'] });
    const page = await browser.newPage({ viewport: size });
    // A machine that runs other tests beside this draws its frames late: waits are long, and count no frames.
    page.setDefaultTimeout(110_000);
    /** A page hears nothing before it has said that it is ready: it is loaded in parts. */
    const load = async (): Promise<void> => {
      await page.goto(address);
      await page.waitForFunction(() => (globalThis as unknown as { told: unknown[] }).told.length > 0, null, {
        polling: 100,
      });
    };
    await load();
    const opened = browser;
    return {
      page,
      address,
      async open(next) {
        keeping = next;
        await load();
      },
      async close() {
        await opened.close();
        server.close();
      },
    };
  } catch (error) {
    await browser?.close();
    server.close();
    throw error;
  }
}
