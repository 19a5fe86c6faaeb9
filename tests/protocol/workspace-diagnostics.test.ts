import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Diagnostic, WorkspaceDiagnosticReport, WorkspaceDocumentDiagnosticReport } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { picturesFor } from '../../src/cli/picture-files.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { calibratedPicture, dicomCase, type CaseFolder, smallCase } from './case-folder.ts';
import { LanguageClient } from './language-client.ts';
import { changed, clientIn, folderOf, pulled } from './workspace-client.ts';

type Full = Extract<WorkspaceDocumentDiagnosticReport, { kind: 'full' }>;

/** The codes of each file, by the end of its path; files without any left out. */
function codesIn(items: readonly WorkspaceDocumentDiagnosticReport[], folder: CaseFolder): Record<string, unknown[]> {
  const full = items.filter((item): item is Full => item.kind === 'full' && item.items.length > 0);
  return Object.fromEntries(
    full.map(({ uri, items: found }) => [
      fileURLToPath(uri).slice(folder.path.length + 1),
      found.map(({ code }) => code),
    ]),
  );
}

const fault = 'hoof 1\nvisit 2026-03-04\n  weight 512\n';
const sound = fault.replace('512', '512 kg');

describe('findings of the workspace', () => {
  it('are those of the whole pipeline, file by file, with the scale that a DICOM film states', async () => {
    const examples = join(import.meta.dirname, '..', '..', 'examples');
    const fixtures = join(import.meta.dirname, 'fixtures');
    const texts = Object.fromEntries(
      [examples, fixtures].flatMap((from) =>
        readdirSync(from)
          .filter((name) => name.endsWith('.hoof'))
          .map((name) => [`${from === examples ? 'examples' : 'fixtures'}/${name}`, readFileSync(join(from, name))]),
      ),
    );
    const folder = folderOf({
      ...texts,
      'pictures/none.hoof': dicomCase('none.dcm'),
      'pictures/stated.hoof': dicomCase('stated.dcm'),
      'pictures/stated.dcm': calibratedPicture('0.14'),
      'node_modules/x/left-out.hoof': fault,
      '.hidden/left-out.hoof': fault,
      '._left-out.hoof': Buffer.from([0, 5, 22, 7, 0xff]),
      'left-out.txt': fault,
    });
    const client = await clientIn([folder]);
    const items = (await pulled(client)) as Full[];
    expect(items.map(({ uri }) => fileURLToPath(uri).slice(folder.path.length + 1)).sort()).toEqual(
      [...Object.keys(texts), 'pictures/none.hoof', 'pictures/stated.hoof'].sort(),
    );
    let found = 0;
    for (const { uri, items: told, version } of items) {
      const path = fileURLToPath(uri);
      const text = readFileSync(path, 'utf8');
      const document = TextDocument.create(uri, 'hoof', 0, text);
      const { scales, isMissing } = await picturesFor({ name: path, text }, [], new BlockMemory());
      const { findings } = inspect(text, undefined, undefined, scales, isMissing);
      expect(told.map(({ range, code, message }) => ({ range, code, message }))).toEqual(
        findings.map(({ at, code, message }) => ({
          range: { start: document.positionAt(at.start), end: document.positionAt(at.end) },
          code,
          message,
        })),
      );
      expect(version).toBeNull();
      found += told.length;
    }
    expect(found).toBeGreaterThan(60);
    const codes = codesIn(items, folder);
    expect(codes['pictures/none.hoof']).toContain('frame/no-scale');
    expect(codes['pictures/stated.hoof'] ?? []).not.toContain('frame/no-scale');
    // The picture is replaced by one that states nothing.
    folder.write('pictures/stated.dcm', 'no picture');
    changed(client, [folder.uriOf('pictures/stated.dcm'), 2]);
    expect(codesIn(await pulled(client), folder)['pictures/stated.hoof']).toContain('frame/no-scale');
  });

  it('are not sent again while they are the same', async () => {
    const folder = folderOf({ 'a.hoof': fault, 'b.hoof': sound });
    const client = await clientIn([folder]);
    const first = (await pulled(client)) as Full[];
    const ids = first.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' }));
    expect(new Set(ids.map(({ value }) => value)).size).toBe(2);
    expect((await pulled(client, ids)).map(({ kind, resultId }) => ({ kind, value: resultId }))).toEqual(
      ids.map(({ value }) => ({ kind: 'unchanged', value })),
    );
    folder.write('a.hoof', sound);
    changed(client, [folder.uriOf('a.hoof'), 2]);
    const again = await pulled(client, ids);
    expect(again.map(({ uri, kind }) => [uri.split('/').at(-1), kind])).toEqual(
      [
        ['b.hoof', 'unchanged'],
        ['a.hoof', 'full'],
      ].sort(),
    );
    expect(codesIn(again, folder)).toEqual({});
  });

  it('follow files that come, go and move, and folders that go with all that is in them', async () => {
    const folder = folderOf({ 'a.hoof': fault, 'deep/b.hoof': fault, 'deep/er/c.hoof': fault });
    const client = await clientIn([folder]);
    const first = await pulled(client);
    expect(codesIn(first, folder)).toEqual({
      'a.hoof': ['notation/missing-unit'],
      'deep/b.hoof': ['notation/missing-unit'],
      'deep/er/c.hoof': ['notation/missing-unit'],
    });
    folder.write('new.hoof', fault);
    folder.move('a.hoof', 'moved.hoof');
    folder.remove('deep');
    changed(
      client,
      [folder.uriOf('new.hoof'), 1],
      [folder.uriOf('a.hoof'), 3],
      [folder.uriOf('moved.hoof'), 1],
      [folder.uriOf('deep'), 3],
    );
    const ids = first.map(({ uri, resultId }) => ({ uri, value: resultId ?? '' }));
    const next = await pulled(client, ids);
    expect(codesIn(next, folder)).toEqual({
      'moved.hoof': ['notation/missing-unit'],
      'new.hoof': ['notation/missing-unit'],
    });
    // What has gone is told to be without findings, or it would stay in the list for ever.
    const emptied = next.filter((item): item is Full => item.kind === 'full' && item.items.length === 0);
    expect(emptied.map(({ uri }) => fileURLToPath(uri).slice(folder.path.length + 1)).sort()).toEqual([
      'a.hoof',
      'deep/b.hoof',
      'deep/er/c.hoof',
    ]);
  });

  it('follow a folder that the editor renames, without being told of each file', async () => {
    const folder = folderOf({ 'old/a.hoof': fault, 'old/sub/b.hoof': fault });
    const client = await clientIn([folder]);
    expect(Object.keys(codesIn(await pulled(client), folder)).sort()).toEqual(['old/a.hoof', 'old/sub/b.hoof']);
    folder.move('old', 'new');
    client.notify('workspace/didRenameFiles', {
      files: [{ oldUri: folder.uriOf('old'), newUri: folder.uriOf('new') }],
    });
    expect(Object.keys(codesIn(await pulled(client), folder)).sort()).toEqual(['new/a.hoof', 'new/sub/b.hoof']);
    folder.remove('new');
    client.notify('workspace/didDeleteFiles', { files: [{ uri: folder.uriOf('new') }] });
    expect(await pulled(client)).toEqual([]);
  });

  it('count what is typed and not saved, and the file again once it is closed', async () => {
    const folder = folderOf({ 'a.hoof': sound });
    const client = await clientIn([folder]);
    const uri = folder.uriOf('a.hoof');
    expect(codesIn(await pulled(client), folder)).toEqual({});
    client.open(uri, fault, 4);
    const open = await pulled(client);
    expect(codesIn(open, folder)).toEqual({ 'a.hoof': ['notation/missing-unit'] });
    expect(open[0]?.version).toBe(4);
    // The file is saved by somebody else: what is open counts all the same.
    folder.write('a.hoof', 'hoof 1\nrubbish\n');
    changed(client, [uri, 2]);
    expect(codesIn(await pulled(client), folder)).toEqual({ 'a.hoof': ['notation/missing-unit'] });
    client.close(uri);
    expect(codesIn(await pulled(client), folder)).toEqual({ 'a.hoof': ['notation/unknown-word'] });
    // One that was never saved is gone when it is closed.
    const fresh = folder.uriOf('fresh.hoof');
    client.open(fresh, fault);
    expect(Object.keys(codesIn(await pulled(client), folder)).sort()).toEqual(['a.hoof', 'fresh.hoof']);
    client.close(fresh);
    expect(Object.keys(codesIn(await pulled(client), folder))).toEqual(['a.hoof']);
  });

  it('are those of all folders that are open, and go with a folder that is closed', async () => {
    const [one, two, three] = [
      folderOf({ 'a.hoof': fault }),
      folderOf({ 'b.hoof': fault }),
      folderOf({ 'c.hoof': fault }),
    ];
    const client = await clientIn([one, two]);
    const names = async () => (await pulled(client)).map(({ uri }) => uri.split('/').at(-1)).sort();
    expect(await names()).toEqual(['a.hoof', 'b.hoof']);
    const folder = ({ uri }: CaseFolder) => ({ uri, name: 'x' });
    client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [folder(three)], removed: [folder(one)] } });
    expect(await names()).toEqual(['b.hoof', 'c.hoof']);
    // A file of a folder that is no longer open is no case of the workspace.
    changed(client, [one.uriOf('a.hoof'), 2]);
    expect(await names()).toEqual(['b.hoof', 'c.hoof']);
  });

  it('come in portions where the client takes them so, the last answer holding none', async () => {
    const files = Object.fromEntries(Array.from({ length: 450 }, (_, number) => [`${number}.hoof`, fault]));
    const folder = folderOf(files);
    const client = await clientIn([folder]);
    const last = await client.request<WorkspaceDiagnosticReport>('workspace/diagnostic', {
      previousResultIds: [],
      partialResultToken: 'portions',
    });
    expect(last.items).toEqual([]);
    const portions = client.progress.filter(({ token }) => token === 'portions');
    expect(portions.length).toBeGreaterThan(1);
    const items = portions.flatMap(({ value }) => (value as WorkspaceDiagnosticReport).items);
    expect(Object.keys(codesIn(items, folder)).sort()).toEqual(Object.keys(files).sort());
  });

  it('are others after a setting has changed', async () => {
    const folder = folderOf({ 'film.hoof': caseText(`${filmText()}\n\n  plan LF\n    heel down 1 mm`) });
    const client = await clientIn([folder]);
    const codes = async () => codesIn(await pulled(client), folder)['film.hoof'] ?? [];
    expect(await codes()).not.toContain('trim/heel-per-visit');
    const refreshed = client.askedFor.length;
    client.notify('workspace/didChangeConfiguration', { settings: { ungula: { trim: { heelPerVisit: 0.5 } } } });
    expect(await codes()).toContain('trim/heel-per-visit');
    const asked = () => client.askedFor.slice(refreshed).map(({ method }) => method);
    // It may come after the answer: several changes are told once.
    await client.until(() => (asked().length > 0 ? true : undefined));
    expect(asked()).toEqual(['workspace/diagnostic/refresh']);
  });
});

describe('findings of a document', () => {
  const ask = (client: LanguageClient, uri: string, previousResultId?: string) =>
    client.about<{ kind: string; resultId: string; items: Diagnostic[] }>('diagnostic', uri, { previousResultId });

  it('are given to a client that asks, and not told to it as well', async () => {
    const client = await clientIn([]);
    const uri = 'file:///asked.hoof';
    client.open(uri, fault);
    const first = await ask(client, uri);
    expect(first.items.map(({ code }) => code)).toEqual(['notation/missing-unit']);
    expect(await ask(client, uri, first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });
    client.change(uri, 2, [{ text: sound }]);
    expect(await ask(client, uri, first.resultId)).toMatchObject({ kind: 'full', items: [] });
    client.close(uri);
    expect(await ask(client, uri)).toEqual({ kind: 'full', items: [] });
    expect(client.timesTold(uri)).toBe(0);
  });

  it('of a file that is not open are those of what stands on the disk now', async () => {
    const folder = folderOf({ 'a.hoof': sound });
    const client = await clientIn([folder]);
    const uri = folder.uriOf('a.hoof');
    client.open(uri, sound);
    folder.write('a.hoof', fault);
    client.close(uri);
    expect((await ask(client, uri)).items.map(({ code }) => code)).toEqual(['notation/missing-unit']);
  });

  it('are told to a client that does not ask, of what is open only', async () => {
    const folder = folderOf({ 'a.hoof': fault, 'b.hoof': fault });
    const client = await LanguageClient.start({ folder: folder.uri });
    client.open(folder.uriOf('a.hoof'), fault);
    expect((await client.diagnostics(folder.uriOf('a.hoof'))).map(({ code }) => code)).toEqual([
      'notation/missing-unit',
    ]);
    await client.request('workspace/symbol', { query: '' });
    expect(client.timesTold(folder.uriOf('b.hoof'))).toBe(0);
    expect(await client.stop()).toBe(0);
  });
});

describe('two files with one study code', () => {
  const twins = () =>
    folderOf({ 'a.hoof': smallCase({ code: 'EX07' }), 'b.hoof': smallCase({ name: 'B', code: 'EX07' }) });

  it('are told in both, at the code, each with the way to the other', async () => {
    const folder = twins();
    folder.write('c.hoof', smallCase({ code: 'EX08' }));
    const client = await clientIn([folder], { options: { docs: 'file:///docs/' } });
    const items = (await pulled(client)) as Full[];
    for (const [name, other] of [
      ['a.hoof', 'b.hoof'],
      ['b.hoof', 'a.hoof'],
    ] as const) {
      const told = items.find(({ uri }) => uri.endsWith(name))?.items.find(({ code }) => code === 'case/same-code');
      expect(told).toMatchObject({
        severity: 2,
        range: { start: { line: 2, character: 7 }, end: { line: 2, character: 11 } },
        codeDescription: { href: 'file:///docs/case-same-code.md' },
        message: expect.stringContaining(`the study code of ${other} too`),
      });
      expect(told?.relatedInformation?.map(({ location }) => [location.uri.split('/').at(-1), location.range])).toEqual(
        [[other, told?.range]],
      );
    }
    expect(items.find(({ uri }) => uri.endsWith('c.hoof'))?.items).toEqual(
      expect.not.arrayContaining([expect.objectContaining({ code: 'case/same-code' })]),
    );
    expect(existsSync(join(import.meta.dirname, '..', '..', 'docs', 'codes', 'case-same-code.md'))).toBe(true);
  });

  it('are told while one is typed, and no more once it has another: to a client that is told', async () => {
    const folder = twins();
    const client = await LanguageClient.start({ folder: folder.uri });
    const [a, b] = [folder.uriOf('a.hoof'), folder.uriOf('b.hoof')];
    const twin = (all: Diagnostic[]) => all.some(({ code }) => code === 'case/same-code');
    client.open(a, smallCase({ code: 'EX07' }));
    await client.diagnosticsWith(a, twin);
    client.open(b, smallCase({ name: 'B', code: 'EX09' }));
    await client.diagnosticsWith(a, (all) => !twin(all));
    client.change(b, 2, [{ text: smallCase({ name: 'B', code: 'EX07' }) }]);
    await client.diagnosticsWith(a, twin);
    await client.diagnosticsWith(b, twin);
    folder.write('b.hoof', smallCase({ name: 'B', code: 'EX10' }));
    client.close(b);
    await client.diagnosticsWith(a, (all) => !twin(all));
    expect(await client.stop()).toBe(0);
  });

  it('have a client that asks for findings asked to ask again', async () => {
    const folder = twins();
    const client = await clientIn([folder]);
    const a = folder.uriOf('a.hoof');
    client.open(a, smallCase({ code: 'EX07' }));
    const refreshes = () => client.askedFor.filter(({ method }) => method === 'workspace/diagnostic/refresh').length;
    await client.until(() => (refreshes() > 0 ? true : undefined));
    const before = refreshes();
    folder.write('b.hoof', smallCase({ name: 'B', code: 'EX09' }));
    changed(client, [folder.uriOf('b.hoof'), 2]);
    await client.until(() => (refreshes() > before ? true : undefined));
    // A picture that was looked for may have it asked once before.
    const codes = async () =>
      (await client.about<{ items: Diagnostic[] }>('diagnostic', a)).items.map(({ code }) => code);
    await expect.poll(codes, { timeout: 120_000 }).not.toContain('case/same-code');
  });
});

describe('files that cannot be read as cases', () => {
  it('over 10 MB: told once at the first line, not looked into, and in nobody’s way', async () => {
    const start = smallCase({ name: 'Huge', code: 'EX07' });
    const folder = folderOf({
      'huge.hoof': start + '#'.repeat(10_000_001 - start.length),
      'nearly.hoof': `${fault}${'#'.repeat(10_000_000 - fault.length)}`,
      'a.hoof': smallCase({ code: 'EX07' }),
    });
    const client = await clientIn([folder]);
    const items = (await pulled(client)) as Full[];
    const huge = items.find(({ uri }) => uri.endsWith('huge.hoof'))?.items;
    expect(huge).toHaveLength(1);
    expect(huge?.[0]).toMatchObject({
      code: 'file/too-large',
      severity: 3,
      range: { start: { line: 0 } },
      message: expect.stringContaining('larger than 10 MB'),
    });
    expect(codesIn(items, folder)).toMatchObject({ 'nearly.hoof': ['notation/missing-unit'] });
    expect(codesIn(items, folder)['a.hoof']).not.toContain('case/same-code');
  });

  it('over 10 MB and open: one finding, no other answer, and the next file is served', async () => {
    const client = await LanguageClient.start();
    const uri = 'file:///huge.hoof';
    client.open(uri, `hoof 1\r\nrubbish\r\n${'#'.repeat(10_000_000)}`);
    expect(await client.diagnostics(uri)).toMatchObject([
      { code: 'file/too-large', range: { start: { line: 0, character: 0 }, end: { line: 0, character: 6 } } },
    ]);
    const position = { line: 1, character: 2 };
    expect(await client.hover(uri, position)).toBeNull();
    expect(await client.formatting(uri)).toBeNull();
    expect(await client.symbols(uri)).toBeNull();
    client.open('file:///small.hoof', fault);
    expect(await client.diagnostics('file:///small.hoof')).toHaveLength(1);
    // Cut down to size it is a case again.
    client.change(uri, 2, [{ text: fault }]);
    expect((await client.diagnostics(uri, 2)).map(({ code }) => code)).toEqual(['notation/missing-unit']);
    expect(await client.stop()).toBe(0);
  });

  it('of more than 400,000 lines: told once at the first line, and not looked into', async () => {
    const folder = folderOf({ 'many.hoof': 'x\n'.repeat(400_000), 'nearly.hoof': '\n'.repeat(399_999) });
    const items = (await pulled(await clientIn([folder]))) as Full[];
    const many = items.find(({ uri }) => uri.endsWith('many.hoof'))?.items;
    expect(many).toMatchObject([
      {
        code: 'file/too-large',
        range: { start: { line: 0 } },
        message: expect.stringContaining('has more than 400,000 lines'),
      },
    ]);
    expect(codesIn(items, folder)['nearly.hoof']).not.toContain('file/too-large');
  });

  it('of millions of lines and open: one finding, no layout of a part, and the next file is served', async () => {
    const client = await LanguageClient.start();
    const uri = 'file:///lines.hoof';
    client.open(uri, 'x\n'.repeat(2_000_000));
    expect(await client.diagnostics(uri)).toMatchObject([
      { code: 'file/too-large', range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } } },
    ]);
    const range = { start: { line: 0, character: 0 }, end: { line: 2_000_000, character: 0 } };
    const options = { tabSize: 2, insertSpaces: true };
    expect(await client.about('rangeFormatting', uri, { range, options })).toBeNull();
    client.open('file:///small.hoof', fault);
    expect(await client.diagnostics('file:///small.hoof')).toHaveLength(1);
    const most = { start: { line: 1, character: 0 }, end: range.end };
    client.change(uri, 2, [{ range: most, text: '' }]);
    expect((await client.diagnostics(uri, 2)).map(({ code }) => code)).not.toContain('file/too-large');
    expect(await client.stop()).toBe(0);
  });

  it('not UTF-8: told at the first letter that is none, and the rest is served', async () => {
    // «ä» as one byte, behind an astral character and with CR LF ends.
    const text = 'hoof 1\r\ncase "🐴 B\u00e4r"\r\n  code EX07\r\nvisit 2026-03-04\r\n  weight 512\r\n';
    const latin = Buffer.concat([...text].map((sign) => (sign === 'ä' ? Buffer.of(0xe4) : Buffer.from(sign))));
    const folder = folderOf({
      'latin.hoof': latin,
      'mark.hoof': Buffer.concat([Buffer.of(0xef, 0xbb, 0xbf), Buffer.from(sound)]),
      'wide.hoof': Buffer.concat([Buffer.of(0xff, 0xfe), Buffer.from(fault, 'utf16le')]),
    });
    const client = await clientIn([folder]);
    const items = (await pulled(client)) as Full[];
    expect(codesIn(items, folder)).toEqual({
      'latin.hoof': ['file/not-utf-8', 'notation/missing-unit'],
      'wide.hoof': ['file/not-utf-8', 'notation/missing-unit'],
    });
    const told = (name: string) => items.find(({ uri }) => uri.endsWith(name))?.items[0];
    expect(told('latin.hoof')?.range).toEqual({ start: { line: 1, character: 10 }, end: { line: 1, character: 11 } });
    expect(told('latin.hoof')?.message).toContain('line 2, column 11 (byte E4). Save the file as UTF-8');
    expect(told('wide.hoof')?.message).toContain('UTF-16');
    const symbols = await client.request<{ name: string }[]>('workspace/symbol', { query: 'EX07' });
    expect(symbols.map(({ name }) => name)).toContain('EX07');
  });
});
