import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ErrorCodes, type SymbolInformation } from 'vscode-languageserver';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { foldersOf, urisOf } from '../../server/serving/client-folders.ts';
import { LanguageClient, wholeWorkspace } from './language-client.ts';
import { seeded } from './random-edits.ts';

/** Clients that say of themselves what no client should. */

const good = 'hoof 1\nvisit 2026-03-04\n  weight 512\n';
let root = '';
let folder = '';

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'ungula-odd-'));
  mkdirSync(join(root, 'open'));
  writeFileSync(join(root, 'open', 'birch.hoof'), 'hoof 1\n\ncase "Birch"\n  animal horse mare\n');
  folder = pathToFileURL(join(root, 'open')).href;
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

async function expectServed(client: LanguageClient): Promise<void> {
  client.open('file:///good.hoof', good);
  expect((await client.symbols('file:///good.hoof')).length).toBeGreaterThan(0);
  expect(client.running).toBe(true);
}

/** The cases of the open folders, once they have been read. */
async function found(client: LanguageClient): Promise<string[]> {
  for (let left = 100; ; left--) {
    const symbols = await client.request<SymbolInformation[] | null>('workspace/symbol', { query: 'Birch' });
    if ((symbols ?? []).length > 0 || left === 0) return (symbols ?? []).map(({ name }) => name);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

describe('folders that are none', () => {
  it.each<[string, unknown, number]>([
    ['a folder without a URI', { workspaceFolders: [{}] }, 1],
    ['folders of every kind', { workspaceFolders: [null, 7, 'x', [], { uri: 7 }, { uri: null }, { uri: '' }] }, 7],
    ['folders that are no list', { workspaceFolders: { uri: 'file:///a' } }, 1],
    ['a root that is a number', { workspaceFolders: null, rootUri: 7 }, 1],
    ['a root that is an object', { rootUri: { uri: 'file:///a' } }, 1],
    ['none', { workspaceFolders: null, rootUri: null }, 0],
    ['nothing said', {}, 0],
  ])('%s: passed over, each with a line in the log', async (_, params, lines) => {
    const log: string[] = [];
    expect(foldersOf(params, (line) => log.push(line))).toEqual([]);
    expect(log).toHaveLength(lines);
    const client = await LanguageClient.start({
      initialize: { processId: process.pid, capabilities: wholeWorkspace, ...(params as object) },
    });
    await expectServed(client);
    expect(client.log.filter((line) => /passed over/.test(line))).toHaveLength(lines);
    expect(client.log.filter((line) => /failed/.test(line))).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('keep none of the others from being read, from the start or later', async () => {
    expect(urisOf([null, { uri: folder }, {}], () => undefined)).toEqual([folder]);
    expect(foldersOf({ workspaceFolders: [{}], rootUri: folder }, () => undefined)).toEqual([folder]);
    const initialize = {
      processId: process.pid,
      capabilities: wholeWorkspace,
      workspaceFolders: [{}, { uri: folder, name: 'open' }, null],
    };
    const first = await LanguageClient.start({ initialize });
    expect(await found(first)).toEqual(['Birch']);
    await first.stop();

    const later = await LanguageClient.start({ capabilities: wholeWorkspace });
    const change = (event: unknown): void => later.notify('workspace/didChangeWorkspaceFolders', { event });
    for (const event of [
      null,
      7,
      {},
      { added: null, removed: null },
      { added: [null, {}, { uri: 7 }], removed: [null, {}, 7] },
      { added: [{ uri: folder, name: 'open' }] },
    ])
      change(event);
    expect(await found(later)).toEqual(['Birch']);
    expect(later.log.filter((line) => /failed/.test(line))).toEqual([]);
    expect(await later.stop()).toBe(0);
  });
});

describe('parameters of initialize that are none', () => {
  it.each<[string, unknown]>([
    ['null', null],
    ['a list', [[]]],
  ])('%s are refused, and the server can still be started', async (_, params) => {
    let asked: Promise<unknown> | undefined;
    const client = await LanguageClient.start({
      early: (to) => {
        asked = to.request('initialize', params).catch((error: unknown) => error);
      },
    });
    expect(await asked).toMatchObject({ code: ErrorCodes.InvalidParams });
    await expectServed(client);
    expect(await client.stop()).toBe(0);
  });

  it.each<[string, object]>([
    ['nothing at all', {}],
    ['capabilities of null', { capabilities: null }],
    ['capabilities of text', { capabilities: 'all' }],
    ['a process that is no number of one', { processId: 0.5, capabilities: {} }],
    ['a process beyond all numbers', { processId: 1e300, capabilities: {} }],
    ['a trace that is none', { capabilities: {}, trace: 'loud' }],
    [
      'capabilities that hold null',
      { capabilities: { textDocument: null, workspace: null, window: null, general: null } },
    ],
  ])('%s: the server starts', async (_, initialize) => {
    const client = await LanguageClient.start({ initialize });
    expect(client.initialized.serverInfo).toEqual({ name: 'ungula' });
    await expectServed(client);
    // Whoever gives the number of a process is looked after every three seconds.
    if ('processId' in initialize) await new Promise((resolve) => setTimeout(resolve, 3500));
    await expectServed(client);
    expect(await client.stop()).toBe(0);
  });

  /** What a field may hold that should hold something else. */
  const strange: readonly unknown[] = [null, true, 0, -1, 1e308, '', 'markdown', [], [null], {}, { uri: 7 }, ['x', 7]];
  const paths = [
    'capabilities.textDocument.hover.contentFormat',
    'capabilities.textDocument.completion.completionItem.documentationFormat',
    'capabilities.textDocument.completion.completionItem',
    'capabilities.textDocument.signatureHelp.signatureInformation',
    'capabilities.textDocument.diagnostic',
    'capabilities.textDocument.rename',
    'capabilities.textDocument',
    'capabilities.workspace.workspaceFolders',
    'capabilities.workspace.didChangeWatchedFiles',
    'capabilities.workspace.workspaceEdit',
    'capabilities.workspace',
    'capabilities.window',
    'capabilities.general.positionEncodings',
    'capabilities.notebookDocument',
    'initializationOptions',
    'initializationOptions.placing',
    'initializationOptions.placing.spreadMm',
    'initializationOptions.trim',
    'initializationOptions.severity',
    'initializationOptions.reference.files',
    'initializationOptions.docs',
    'initializationOptions.suggestAgain',
    'workspaceFolders',
    'rootUri',
    'rootPath',
    'locale',
    'clientInfo',
    'workDoneToken',
    'trace',
  ];

  function put(into: Record<string, unknown>, path: readonly string[], value: unknown): void {
    const [name = '', ...rest] = path;
    if (rest.length === 0) into[name] = value;
    else {
      const inner = into[name];
      const next = typeof inner === 'object' && inner !== null ? { ...inner } : {};
      into[name] = next;
      put(next as Record<string, unknown>, rest, value);
    }
  }

  const random = seeded(Number(process.env['UNGULA_SEED'] ?? 20_261_125));
  const made = (): Record<string, unknown> => {
    const params: Record<string, unknown> = { processId: null, capabilities: structuredClone(wholeWorkspace) };
    for (let count = 1 + random(5); count > 0; count--)
      put(params, (paths[random(paths.length)] as string).split('.'), strange[random(strange.length)]);
    return params;
  };

  it('of whatever make: what the client can is told from it without a throw', () => {
    for (let count = 0; count < 2000; count++) {
      const { capabilities, initializationOptions } = made();
      const abilities = clientAbilities(capabilities as never, initializationOptions);
      expect(['markdown', 'plaintext']).toContain(abilities.hoverFormat);
    }
  });

  it('of whatever make: the server starts and serves', { timeout: 600_000 }, async () => {
    for (let count = 0; count < 16; count++) {
      const initialize = made();
      const client = await LanguageClient.start({ initialize });
      try {
        await expectServed(client);
        expect(await client.stop()).toBe(0);
      } catch (error) {
        throw new Error(`with ${JSON.stringify(initialize)}; it logged ${client.log.join('\n')}`, { cause: error });
      }
    }
  });
});

describe('notifications that are none', () => {
  it('stop nothing, whatever they hold', { timeout: 600_000 }, async () => {
    const client = await LanguageClient.start({ capabilities: wholeWorkspace, folder });
    for (const method of [
      'textDocument/didOpen',
      'textDocument/didChange',
      'textDocument/didClose',
      'textDocument/didSave',
      'textDocument/willSave',
      'workspace/didChangeConfiguration',
      'workspace/didChangeWatchedFiles',
      'workspace/didChangeWorkspaceFolders',
      'workspace/didCreateFiles',
      'workspace/didRenameFiles',
      'workspace/didDeleteFiles',
      'window/workDoneProgress/cancel',
      '$/setTrace',
      '$/progress',
      '$/cancelRequest',
      '$/unknown',
    ])
      for (const params of [
        null,
        {},
        [],
        { changes: null },
        { changes: [null, 7, { uri: 7 }] },
        { files: [null, { uri: 7 }, { oldUri: 1 }] },
        { textDocument: null },
        { textDocument: { uri: 7, version: 'x', text: 5 }, contentChanges: [null] },
        {
          textDocument: { uri: 'file:///good.hoof', version: 9 },
          contentChanges: [{ range: { start: null }, text: 1 }],
        },
        { event: null },
        { token: {}, value: null },
        { id: {} },
        { settings: { ungula: [] } },
      ])
        client.notify(method, params);
    await expectServed(client);
    expect(await client.stop()).toBe(0);
  });
});
