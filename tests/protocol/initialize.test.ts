import { resolve } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { LanguageClient } from './language-client.ts';

it('says what it can', async () => {
  const client = await LanguageClient.start();
  expect(client.initialized.serverInfo).toEqual({ name: 'ungula' });
  expect(client.initialized.capabilities).toEqual({
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: 2 },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '.'] },
    documentSymbolProvider: { label: 'Ungula' },
    codeActionProvider: { codeActionKinds: ['quickfix', 'refactor.rewrite'], resolveProvider: true },
    documentFormattingProvider: true,
  });
  expect(await client.stop()).toBe(0);
});

it('ends with status 1 where the client goes without shutting it down', async () => {
  const client = await LanguageClient.start();
  client.notify('exit', undefined);
  expect(await client.ended()).toBe(1);
});

it('stands on nothing of Node’s but in its Node entry, so that a browser worker can run it', async () => {
  const { outputFiles } = await build({
    absWorkingDir: resolve(import.meta.dirname, '..', '..'),
    entryPoints: ['server/start.ts'],
    bundle: true,
    platform: 'browser',
    format: 'esm',
    write: false,
    logLevel: 'silent',
  });
  expect(outputFiles[0]?.text).toContain('ungula/sheets');
});
