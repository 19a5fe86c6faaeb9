import { resolve } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { LanguageClient, wholeWorkspace } from './language-client.ts';

const filesAndFolders = {
  filters: [{ pattern: { glob: '**/*.hoof', matches: 'file' } }, { pattern: { glob: '**/*', matches: 'folder' } }],
};

it('says what it can', async () => {
  const client = await LanguageClient.start();
  expect(client.initialized.serverInfo).toEqual({ name: 'ungula' });
  expect(client.initialized.capabilities).toEqual({
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: 2, save: true },
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '.', '"', '/'] },
    signatureHelpProvider: { triggerCharacters: [' '] },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    documentSymbolProvider: { label: 'Ungula' },
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: { resolveProvider: false },
    codeLensProvider: { resolveProvider: false },
    inlayHintProvider: true,
    semanticTokensProvider: {
      legend: {
        tokenTypes: [
          'keyword',
          'property',
          'type',
          'variable',
          'enumMember',
          'operator',
          'number',
          'string',
          'comment',
        ],
        tokenModifiers: [],
      },
      full: { delta: true },
      range: true,
    },
    codeActionProvider: {
      codeActionKinds: ['quickfix', 'refactor.rewrite', 'source.fixAll.ungula'],
      resolveProvider: true,
    },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: { rangesSupport: true },
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
    workspaceSymbolProvider: true,
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { didCreate: filesAndFolders, didRename: filesAndFolders, didDelete: filesAndFolders },
    },
  });
  expect(await client.stop()).toBe(0);
});

it('offers findings to be asked for to a client that asks, and to no other', async () => {
  const client = await LanguageClient.start({ capabilities: wholeWorkspace });
  expect(client.initialized.capabilities.diagnosticProvider).toEqual({
    identifier: 'ungula',
    interFileDependencies: true,
    workspaceDiagnostics: true,
  });
  expect(await client.stop()).toBe(0);
});

it('does not speak of asking before a rename to a client that never asks', async () => {
  const client = await LanguageClient.start({ capabilities: {} });
  expect(client.initialized.capabilities.renameProvider).toBe(true);
  expect(await client.stop()).toBe(0);
});

it('does not speak of formatting several ranges to a client that never asks', async () => {
  const client = await LanguageClient.start({ capabilities: {} });
  expect(client.initialized.capabilities.documentRangeFormattingProvider).toBe(true);
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
