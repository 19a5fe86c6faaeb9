import { ErrorCodes } from 'vscode-languageserver';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { LanguageClient } from './language-client.ts';
import { seeded } from './random-edits.ts';

let client: LanguageClient;
beforeEach(async () => {
  client = await LanguageClient.start();
});
afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

const good = 'hoof 1\nvisit 2026-03-04\n  weight 512\n';

let tried = 0;

/** That the server still serves is shown on a document that has nothing to do with what went before. */
async function expectServed(uri = `file:///good-${(tried += 1)}.hoof`): Promise<void> {
  client.open(uri, good);
  expect((await client.diagnostics(uri)).map(({ code }) => code)).toEqual(['notation/missing-unit']);
  expect((await client.hover(uri, { line: 2, character: 3 }))?.contents).toMatchObject({ kind: 'markdown' });
  expect((await client.completion(uri, { line: 2, character: 2 })).length).toBeGreaterThan(0);
}

function binary(length: number): string {
  const random = seeded(11);
  return Array.from({ length }, () => String.fromCharCode(random(0x10000))).join('');
}

type Place = { line: number; character: number };

/** Every feature that answers about a place, a range or a whole file, and never refuses. */
function everyFeature(position: Place): [method: string, more: object][] {
  const range = { start: { line: 0, character: 0 }, end: position };
  return [
    ['signatureHelp', { position }],
    ['definition', { position }],
    ['references', { position, context: { includeDeclaration: true } }],
    ['documentHighlight', { position }],
    ['foldingRange', {}],
    ['selectionRange', { positions: [position] }],
    ['documentLink', {}],
    ['codeLens', {}],
    ['inlayHint', { range }],
    ['semanticTokens/full', {}],
    ['semanticTokens/full/delta', { previousResultId: '1' }],
    ['semanticTokens/range', { range }],
    ['codeAction', { range, context: { diagnostics: [], only: ['source.fixAll'] } }],
  ];
}

describe('whatever is opened', () => {
  it.each<[string, string]>([
    ['binary text', binary(200_000)],
    [
      'control characters',
      Array.from({ length: 0x20 }, (_, code) => String.fromCharCode(code))
        .join('')
        .repeat(500),
    ],
    ['1 MB of one word', 'a'.repeat(1_000_000)],
    ['1 MB of words in one line', 'hoof 1\nvisit 2026-03-04\n  sign ' + 'fever '.repeat(170_000)],
    ['1 MB of feet in one line', 'hoof 1\nvisit 2026-03-04\n  pulse ' + 'LF '.repeat(330_000)],
    ['1 MB of numbers in one line', 'hoof 1\nvisit 2026-03-04\n  weight ' + '1 '.repeat(500_000)],
    ['1 MB of one text that never ends', `hoof 1\nvisit 2026-03-04\n  feed "${'\\"a'.repeat(330_000)}`],
    ['1 MB of quotes', 'hoof 1\nvisit 2026-03-04\n  feed ' + '"'.repeat(1_000_001)],
    ['a quote open on every line', 'hoof 1\n' + 'feed "hay\n'.repeat(3_000)],
    ['blanks and nothing else', ' '.repeat(1_000_000)],
    ['a header on every line', 'hoof 1\n' + 'visit 2026-03-04\n'.repeat(5_000)],
    [
      'one landmark over and over',
      'hoof 1\nvisit 2026-03-04\nfilm LF lateral "a"\n' + 'p3.tip @ 1, 2\n'.repeat(20_000),
    ],
    ['half characters', '\ud83d\n\ude00 \ud83d"\ude00\nvisit \ud83d\n'],
    [
      'numbers without end',
      `hoof 1\nvisit 2026-03-04\nfilm LF lateral "a"\nscale 0.1 mm/px\nground 0, 0 .. ${'9'.repeat(400)}, 1\np3.tip @ ${'9'.repeat(400)}, 1\np3.wing @ 1, 1e5\n`,
    ],
  ])('%s does not keep the server from serving another file', async (name, text) => {
    const uri = `file:///${encodeURIComponent(name)}.hoof`;
    client.open(uri, text);
    const told = await client.diagnostics(uri);
    const end = { line: text.split(/\r\n|\r|\n/).length - 1, character: 5 };
    await Promise.all([
      client.hover(uri, end),
      client.completion(uri, end),
      client.symbols(uri),
      client.formatting(uri),
      client.codeActions(uri, { start: { line: 0, character: 0 }, end }),
      ...everyFeature(end).map(([method, more]) => client.about(method, uri, more)),
    ]);
    await expectServed();
    expect(JSON.stringify(told).length).toBeLessThan(1_000_000);
    for (const { message } of told) expect(typeof message === 'string' ? message.length : Infinity).toBeLessThan(2_100);
    expect(client.log.filter((line) => line.includes('failed'))).toEqual([]);
  });

  it('two files, one broken: each gets its own', async () => {
    client.open('file:///broken.hoof', '"""|@#\u0000\n'.repeat(50));
    client.open('file:///whole.hoof', good);
    expect((await client.diagnostics('file:///whole.hoof')).map(({ code }) => code)).toEqual(['notation/missing-unit']);
    expect((await client.diagnostics('file:///broken.hoof')).length).toBeGreaterThan(1);
    client.change('file:///broken.hoof', 2, [{ text: 'hoof 1\n' }]);
    client.change('file:///whole.hoof', 2, [{ text: good.replace('512', '512 kg') }]);
    expect(await client.diagnostics('file:///broken.hoof', 2)).toEqual([]);
    expect(await client.diagnostics('file:///whole.hoof', 2)).toEqual([]);
  });
});

describe('malformed requests', () => {
  const uri = 'file:///asked.hoof';
  const textDocument = { uri };
  it.each<[string, string, unknown]>([
    ['a hover without a document', 'textDocument/hover', { position: { line: 0, character: 0 } }],
    ['a hover without a position', 'textDocument/hover', { textDocument }],
    ['a hover before the first line', 'textDocument/hover', { textDocument, position: { line: -1, character: 0 } }],
    ['a hover at half a character', 'textDocument/hover', { textDocument, position: { line: 0, character: 0.5 } }],
    ['a hover with a word for a line', 'textDocument/hover', { textDocument, position: { line: 'one', character: 0 } }],
    [
      'a completion with a number for a document',
      'textDocument/completion',
      { textDocument: { uri: 7 }, position: { line: 0, character: 0 } },
    ],
    ['code actions without a range', 'textDocument/codeAction', { textDocument, context: { diagnostics: [] } }],
    [
      'code actions with half a range',
      'textDocument/codeAction',
      { textDocument, range: { start: { line: 0, character: 0 } }, context: { diagnostics: [] } },
    ],
    ['symbols of nothing', 'textDocument/documentSymbol', {}],
    ['formatting of nothing', 'textDocument/formatting', { textDocument: null }],
    ['sheets of nothing', 'ungula/sheets', {}],
    ['folding of nothing', 'textDocument/foldingRange', {}],
    ['links of nothing', 'textDocument/documentLink', { textDocument: 7 }],
    ['lenses of nothing', 'textDocument/codeLens', null],
    ['tokens of nothing', 'textDocument/semanticTokens/full', {}],
    ['a difference of tokens of nothing', 'textDocument/semanticTokens/full/delta', { previousResultId: '1' }],
    ['tokens without a range', 'textDocument/semanticTokens/range', { textDocument }],
    ['inlay hints without a range', 'textDocument/inlayHint', { textDocument }],
    ['selections without positions', 'textDocument/selectionRange', { textDocument }],
    ['selections of half a place', 'textDocument/selectionRange', { textDocument, positions: [{ line: 0 }] }],
    ['a definition without a position', 'textDocument/definition', { textDocument }],
    ['references before the first line', 'textDocument/references', { textDocument, position: { line: -1 } }],
    ['highlights without a position', 'textDocument/documentHighlight', { textDocument }],
    ['signatures without a position', 'textDocument/signatureHelp', { textDocument }],
    ['a rename without a position', 'textDocument/rename', { textDocument, newName: 'x' }],
    ['findings of nothing', 'textDocument/diagnostic', {}],
    ['symbols of the workspace without a query', 'workspace/symbol', {}],
    ['a rename asked about without a document', 'textDocument/prepareRename', { position: { line: 0, character: 0 } }],
  ])('%s is answered by an error that names what is wrong', async (_, method, params) => {
    client.open(uri, good);
    await expect(client.request(method, params)).rejects.toMatchObject({
      code: ErrorCodes.InvalidParams,
      message: expect.stringMatching(/uri|position|range|query/),
    });
    await expectServed();
  });

  it('a request that no server knows is answered by an error', async () => {
    await expect(client.request('ungula/nothing', {})).rejects.toMatchObject({ code: ErrorCodes.MethodNotFound });
    await expectServed();
  });

  it('kinds of action that are none are passed over', async () => {
    client.open(uri, good);
    const range = { start: { line: 2, character: 9 }, end: { line: 2, character: 9 } };
    for (const [context, count] of [
      [null, 2],
      [{ only: 'quickfix' }, 2],
      [{ only: [7, 'quickfix'] }, 2],
      [{ only: [{}] }, 0],
    ] as const)
      expect(await client.about('codeAction', uri, { range, context }), JSON.stringify(context)).toHaveLength(count);
    expect(client.log).toEqual([]);
  });

  it('places beyond the text count as its end', async () => {
    client.open(uri, good);
    const beyond = { line: 99_999, character: 99_999 };
    expect(await client.hover(uri, beyond)).toBeNull();
    expect(await client.codeActions(uri, { start: beyond, end: beyond })).toEqual([]);
    expect((await client.completion(uri, beyond)).length).toBeGreaterThan(0);
  });

  it('a document that is not open has nothing', async () => {
    expect(await client.hover('file:///closed.hoof', { line: 0, character: 0 })).toBeNull();
    expect(await client.symbols('file:///closed.hoof')).toBeNull();
    client.open(uri, good);
    client.close(uri);
    const position = { line: 1, character: 2 };
    const asked = [...everyFeature(position), ['prepareRename', { position }], ['rename', { position, newName: 'x' }]];
    for (const [method, more] of asked as [string, object][])
      expect(await client.about(method, uri, more), method).toBeNull();
  });

  it.each<[string, (client: LanguageClient) => void]>([
    ['a change of a file that was never opened', (to) => to.change('file:///never.hoof', 2, [{ text: 'x' }])],
    [
      'a change without a version',
      (to) => to.notify('textDocument/didChange', { textDocument, contentChanges: [{ text: 'x' }] }),
    ],
    [
      'a change of an unknown kind',
      (to) =>
        to.notify('textDocument/didChange', { textDocument: { uri, version: 2 }, contentChanges: [{ put: 'x' }] }),
    ],
    [
      'a document without a text',
      (to) =>
        to.notify('textDocument/didOpen', {
          textDocument: { uri: 'file:///bare.hoof', languageId: 'hoof', version: 1 },
        }),
    ],
    ['a document without anything', (to) => to.notify('textDocument/didOpen', {})],
    ['a closing of nothing', (to) => to.notify('textDocument/didClose', {})],
    ['settings of nothing', (to) => to.notify('workspace/didChangeConfiguration', null)],
    ['a message that is no JSON', (to) => to.raw('Content-Length: 9\r\n\r\n{"jsonrpc')],
    ['a message that is no request', (to) => to.raw('Content-Length: 4\r\n\r\ntrue')],
  ])('%s does not stop the server', async (_, send) => {
    client.open(uri, good);
    send(client);
    await expectServed();
  });
});

describe('messages out of their order', () => {
  it('what is asked and told before the server is initialised does not keep it from starting', async () => {
    const answers: Promise<unknown>[] = [];
    const uri = 'file:///early.hoof';
    const early = await LanguageClient.start({
      early(to) {
        to.open(uri, good);
        to.change(uri, 2, [{ text: good.replace('512', '512 kg') }]);
        const answer = to.about('hover', uri, { position: { line: 2, character: 3 } });
        answers.push(answer.catch((error: unknown) => error));
        to.notify('initialized', {});
      },
    });
    expect(await Promise.all(answers)).toEqual([expect.objectContaining({ code: ErrorCodes.ServerNotInitialized })]);
    // What was told of the file then counts for nothing, as the protocol says.
    expect(await early.symbols(uri)).toBeNull();
    early.open('file:///late.hoof', good);
    const told = await early.diagnostics('file:///late.hoof');
    expect(told.map(({ code }) => code)).toEqual(['notation/missing-unit']);
    expect(await early.stop()).toBe(0);
  });

  it('initialising twice changes nothing of what is open', async () => {
    const uri = 'file:///twice.hoof';
    client.open(uri, good);
    await client.diagnostics(uri);
    const again = { processId: process.pid, rootUri: null, capabilities: {} };
    await expect(client.request('initialize', again)).rejects.toMatchObject({ code: ErrorCodes.InvalidRequest });
    client.notify('initialized', {});
    expect(await client.hover(uri, { line: 2, character: 3 })).not.toBeNull();
    await expectServed();
  });

  it('a file that is opened twice, and closed twice, counts as it was said last', async () => {
    const uri = 'file:///again.hoof';
    client.open(uri, good);
    client.open(uri, good.replace('512', '512 kg'), 2);
    expect(await client.diagnostics(uri, 2)).toEqual([]);
    client.close(uri);
    client.close(uri);
    expect(await client.hover(uri, { line: 2, character: 3 })).toBeNull();
    client.open(uri, good, 3);
    expect((await client.diagnostics(uri, 3)).map(({ code }) => code)).toEqual(['notation/missing-unit']);
  });

  it('of two texts under one version the later one counts, and of versions that go back too', async () => {
    const uri = 'file:///numbers.hoof';
    const position = { line: 1, character: 8 };
    const symbols = async (): Promise<string[]> => (await client.symbols(uri)).map(({ name }) => name);
    client.open(uri, good, 5);
    const first = await symbols();
    client.change(uri, 5, [{ text: good.replace('03-04', '05-06') }]);
    const second = await symbols();
    expect(second).not.toEqual(first);
    expect(second.join(' ')).toContain('2026-05-06');
    client.change(uri, 1, [{ text: good.replace('03-04', '07-08') }]);
    expect((await symbols()).join(' ')).toContain('2026-07-08');
    expect(await client.hover(uri, position)).not.toBeNull();
  });

  it('requests after the shutdown are refused, and the server still ends when it is told to', async () => {
    const ending = await LanguageClient.start();
    const uri = 'file:///ending.hoof';
    ending.open(uri, good);
    await ending.request('shutdown');
    await expect(ending.hover(uri, { line: 2, character: 3 })).rejects.toMatchObject({
      code: ErrorCodes.InvalidRequest,
    });
    await expect(ending.request('shutdown')).rejects.toMatchObject({ code: ErrorCodes.InvalidRequest });
    await expect(ending.request('initialize', {})).rejects.toMatchObject({ code: ErrorCodes.InvalidRequest });
    ending.notify('exit', undefined);
    expect(await ending.ended()).toBe(0);
  });

  it('told to exit without a shutdown the server ends with 1, initialised or not', async () => {
    const open = await LanguageClient.start();
    open.notify('exit', undefined);
    expect(await open.ended()).toBe(1);
    let fresh: LanguageClient | undefined;
    const never = LanguageClient.start({
      early(to) {
        fresh = to;
        to.notify('exit', undefined);
      },
    });
    void never.catch(() => undefined);
    await vi.waitUntil(() => fresh);
    expect(await fresh?.ended()).toBe(1);
  });

  it('a shutdown before the start is refused, and the server can still be started', async () => {
    const answers: Promise<unknown>[] = [];
    const started = await LanguageClient.start({
      early: (to) => answers.push(to.request('shutdown').catch((error: unknown) => error)),
    });
    expect(await answers[0]).toMatchObject({ code: ErrorCodes.ServerNotInitialized });
    started.open('file:///a.hoof', good);
    expect(await started.diagnostics('file:///a.hoof')).toHaveLength(1);
    expect(await started.stop()).toBe(0);
  });

  it('nobody can ask for a refusal by its own name', async () => {
    await expect(client.request('ungula/refused', { code: 1, message: 'x' })).rejects.toMatchObject({
      code: ErrorCodes.MethodNotFound,
    });
    await expectServed();
  });
});
