import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Location, Range, TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { smallCase, type CaseFolder } from './case-folder.ts';
import { LanguageClient } from './language-client.ts';
import { applied, positionAt, textIn } from './text-positions.ts';
import { changed, clientIn, folderOf } from './workspace-client.ts';

const crlf = (text: string): string => text.replace(/\n/g, '\r\n');

/** What the tests ask from; it is always open. */
const asked = smallCase({
  name: 'Asked',
  code: 'EX01',
  readers: ['Ann', 'Ben'],
  more: '    expect palmar-angle 5 deg\n',
});
const files = {
  'a.hoof': asked,
  // An astral character before a name on its line, and CR LF ends.
  'b 🐴.hoof': crlf(
    smallCase({ name: '🐴', code: 'EX02', readers: ['Ann', '🐴 Cleo'], more: 'limits\n  palmar-angle <= 8 deg\n' }),
  ),
  'sub/c.hoof': smallCase({ name: 'C', code: 'EX03', readers: ['Cleo'] }),
};

const placeOf = (text: string, piece: string) => positionAt(text, text.indexOf(piece) + 1);
const nameIn = (folder: CaseFolder, uri: string): string => fileURLToPath(uri).slice(folder.path.length + 1);

async function open(folder: CaseFolder, more = {}): Promise<{ client: LanguageClient; uri: string }> {
  const client = await clientIn([folder], more);
  const uri = folder.uriOf('a.hoof');
  client.open(uri, asked);
  return { client, uri };
}

describe('references across files', () => {
  async function references(folder: CaseFolder, piece: string, includeDeclaration = true): Promise<string[]> {
    const { client, uri } = await open(folder);
    const found = await client.about<Location[]>('references', uri, {
      position: placeOf(asked, piece),
      context: { includeDeclaration },
    });
    return found.map((one) => {
      const text = readFileSync(fileURLToPath(one.uri), 'utf8');
      return `${nameIn(folder, one.uri)}:${one.range.start.line + 1} ${textIn(text, one.range)}`;
    });
  }

  it('of a reader are in every file, at the right place behind any sign', async () => {
    expect(await references(folderOf(files), '"Ann"')).toEqual(['a.hoof:7 "Ann"', 'b 🐴.hoof:7 "Ann"']);
    expect(await references(folderOf(files), '"Ann"', false)).toEqual(['b 🐴.hoof:7 "Ann"']);
  });

  it('of a measure are in limits and stated values, whichever file they are in', async () => {
    expect(await references(folderOf(files), 'palmar')).toEqual([
      'a.hoof:11 palmar-angle',
      'b 🐴.hoof:12 palmar-angle',
    ]);
  });

  it('of a landmark stay within the file', async () => {
    expect(await references(folderOf(files), 'p3.tip')).toEqual([
      'a.hoof:6 p3.tip',
      'a.hoof:8 p3.tip',
      'a.hoof:10 p3.tip',
    ]);
  });

  it('of the study code are in a second file that has it', async () => {
    const folder = folderOf({ ...files, 'twin.hoof': smallCase({ code: 'EX01' }) });
    expect(await references(folder, 'EX01')).toEqual(['a.hoof:3 EX01', 'twin.hoof:3 EX01']);
  });

  it('are those of the unsaved text of another document', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder);
    const other = folder.uriOf('sub/c.hoof');
    client.open(other, smallCase({ name: 'C', readers: ['Dora', 'Ann'] }));
    const context = { includeDeclaration: false };
    const more = { position: placeOf(asked, '"Ann"'), context };
    const found = async () =>
      (await client.about<Location[]>('references', uri, more)).map((one) => nameIn(folder, one.uri));
    expect(await found()).toEqual(['b 🐴.hoof', 'sub/c.hoof']);
    client.close(other);
    expect(await found()).toEqual(['b 🐴.hoof']);
  });
});

describe('rename across files', () => {
  const renameIn = (client: LanguageClient, uri: string, piece: string, newName: string) =>
    client.about<WorkspaceEdit>('rename', uri, { position: placeOf(asked, piece), newName });

  /** Each changed file as it then is, with the version that the edit is for. */
  function made(folder: CaseFolder, { documentChanges }: WorkspaceEdit): Record<string, [number | null, string]> {
    return Object.fromEntries(
      (documentChanges as TextDocumentEdit[]).map(({ textDocument: { uri, version }, edits }) => {
        const text = readFileSync(fileURLToPath(uri), 'utf8');
        return [nameIn(folder, uri), [version, applied(text, edits as { range: Range; newText: string }[])]];
      }),
    );
  }

  it('of a reader changes every file that has the name, and nothing else in it', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder);
    const edit = await renameIn(client, uri, '"Ann"', 'Anna "🐴" B.');
    const written = '"Anna \\"🐴\\" B."';
    expect(made(folder, edit)).toEqual({
      'a.hoof': [1, asked.replace('"Ann"', written)],
      'b 🐴.hoof': [null, files['b 🐴.hoof'].replace('"Ann"', written)],
    });
  });

  it('of the study code changes every file that has it', async () => {
    const folder = folderOf({ ...files, 'twin.hoof': crlf(smallCase({ code: 'EX01' })) });
    const { client, uri } = await open(folder);
    expect(Object.keys(made(folder, await renameIn(client, uri, 'EX01', 'EX09')))).toEqual(['a.hoof', 'twin.hoof']);
  });

  it('counts the places in what is open, with its version, and not in its file', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder);
    const other = folder.uriOf('sub/c.hoof');
    const text = `# one line more\n${smallCase({ name: 'C', readers: ['Ann'] })}`;
    client.open(other, text, 7);
    const edit = await renameIn(client, uri, '"Ann"', 'Anna');
    const change = (edit.documentChanges as TextDocumentEdit[]).find(({ textDocument }) => textDocument.uri === other);
    expect(change?.textDocument.version).toBe(7);
    expect(applied(text, (change?.edits ?? []) as { range: Range; newText: string }[])).toBe(
      text.replace('"Ann"', '"Anna"'),
    );
  });

  it('reads a file that has changed since it was indexed once more', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder);
    await client.request('workspace/symbol', { query: '' });
    // Nobody has told the server.
    const longer = `# a line that was not there\n${files['b 🐴.hoof']}`;
    folder.write('b 🐴.hoof', longer);
    expect(made(folder, await renameIn(client, uri, '"Ann"', 'Anna'))['b 🐴.hoof']).toEqual([
      null,
      longer.replace('"Ann"', '"Anna"'),
    ]);
  });

  it('looks through every file for a client that tells of no changes', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder, { capabilities: {} });
    await client.request('workspace/symbol', { query: '' });
    folder.write('sub/c.hoof', smallCase({ readers: ['Ann'] }));
    const { changes } = await renameIn(client, uri, '"Ann"', 'Anna');
    expect(Object.keys(changes ?? {}).map((one) => nameIn(folder, one))).toEqual(['a.hoof', 'b 🐴.hoof', 'sub/c.hoof']);
  });

  it.each([
    ['"Ann"', '🐴 Cleo', 'There is a reader «🐴 Cleo» already in b 🐴.hoof'],
    ['"Ann"', 'Cleo', 'There is a reader «Cleo» already in sub/c.hoof'],
    ['"Ann"', 'Ben', 'There is a reader «Ben» already:'],
    ['EX01', 'EX03', 'There is the study code «EX03» already in sub/c.hoof'],
  ])('of %s to %s is refused', async (piece, newName, why) => {
    const { client, uri } = await open(folderOf(files));
    await expect(renameIn(client, uri, piece, newName)).rejects.toMatchObject({
      code: -32803,
      message: expect.stringContaining(why),
    });
  });

  it('is refused where a file would be damaged by it', async () => {
    const latin = Buffer.from(smallCase({ name: 'Bär', readers: ['Ann'] }), 'latin1');
    const { client, uri } = await open(folderOf({ ...files, 'old.hoof': latin }));
    await expect(renameIn(client, uri, '"Ann"', 'Anna')).rejects.toThrow(/«Ann» stands in old\.hoof too.*UTF-8/);
    await expect(renameIn(client, uri, '"Ben"', 'Benno')).resolves.toBeDefined();
  });

  it('leaves a document that lies in no open folder to itself', async () => {
    const folder = folderOf(files);
    const client = await clientIn([folder]);
    const uri = 'file:///elsewhere/a.hoof';
    client.open(uri, asked);
    const edit = await renameIn(client, uri, '"Ann"', 'Cleo');
    expect((edit.documentChanges as TextDocumentEdit[]).map(({ textDocument }) => textDocument.uri)).toEqual([uri]);
  });

  it('follows a folder that has come in', async () => {
    const folder = folderOf(files);
    const { client, uri } = await open(folder);
    folder.write('new/d.hoof', smallCase({ readers: ['Ann'] }));
    changed(client, [folder.uriOf('new/d.hoof'), 1]);
    expect(Object.keys(made(folder, await renameIn(client, uri, '"Ann"', 'Anna')))).toEqual([
      'a.hoof',
      'b 🐴.hoof',
      'new/d.hoof',
    ]);
  });
});
