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
  close(): Promise<void>;
}

/** The built page of the preview pane in a browser, its host a list that keeps what it is told. `folder` holds the pictures. */
export async function mockedPage(
  folder: string,
  kept: unknown,
  size = { width: 1000, height: 900 },
): Promise<MockedPage> {
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    if (path === '/') {
      const nonce = 'mocked';
      const page = previewHtml({ script: '/dist/preview.js', style: '/dist/preview.css', cspSource: "'self'", nonce });
      const host = `window.told=[];window.kept=${JSON.stringify(kept ?? null)};window.acquireVsCodeApi=()=>({postMessage:(m)=>told.push(m),getState:()=>kept,setState:(s)=>{kept=s}});`;
      response.setHeader('content-type', 'text/html; charset=utf-8');
      response.end(page.replace('<script ', `<script nonce="${nonce}">${host}</script><script `));
      return;
    }
    try {
      const file = path.startsWith('/dist/') ? join(ROOT, path) : join(folder, path);
      const bytes = readFileSync(file);
      const kinds: Readonly<Record<string, string>> = { js: 'text/javascript', css: 'text/css', png: 'image/png' };
      response.setHeader('content-type', kinds[file.slice(file.lastIndexOf('.') + 1)] ?? 'application/octet-stream');
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
    await page.goto(address);
    const opened = browser;
    return {
      page,
      address,
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
