import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import type { WorkDoneProgressBegin, WorkDoneProgressEnd, WorkDoneProgressReport } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { fullCase } from '../bench/full-case.ts';
import { smallCase } from './case-folder.ts';
import type { LanguageClient } from './language-client.ts';
import { changed, clientIn, folderOf, pulled } from './workspace-client.ts';

/** About 11 KB: a case of a few visits with whole films. */
const usual = fullCase(3);
const many = (count: number, text = usual): Record<string, string> =>
  Object.fromEntries(Array.from({ length: count }, (_, number) => [`${number % 10}/${number}.hoof`, text]));

type Work = WorkDoneProgressBegin | WorkDoneProgressReport | WorkDoneProgressEnd;
const workIn = (client: LanguageClient): Work[] => client.progress.map(({ value }) => value as Work);
const begun = (client: LanguageClient) =>
  client.until(() => (workIn(client).some(({ kind }) => kind === 'begin') ? true : undefined));
const ended = (client: LanguageClient) =>
  client.until(() => (workIn(client).some(({ kind }) => kind === 'end') ? true : undefined));

const watched = (client: LanguageClient): unknown[] =>
  client.askedFor
    .filter(({ method }) => method === 'client/registerCapability')
    .flatMap(
      ({ params }) => (params as { registrations: { registerOptions?: { watchers?: unknown[] } }[] }).registrations,
    )
    .flatMap(({ registerOptions }) => registerOptions?.watchers ?? []);

describe('while the case files are read', () => {
  it('an open document is answered: a thousand files are read and none of many hovers waits for them', async () => {
    const folder = folderOf(many(1000));
    const client = await clientIn([folder]);
    const uri = 'file:///open.hoof';
    client.open(uri, usual);
    await begun(client);
    const position = { line: 0, character: 1 };
    const waits: number[] = [];
    while (!workIn(client).some(({ kind }) => kind === 'end')) {
      const since = performance.now();
      expect(await client.hover(uri, position)).not.toBeNull();
      waits.push(performance.now() - since);
    }
    // What the same costs with nothing else to do, to compare with on the same machine.
    const alone: number[] = [];
    for (let time = 0; time < 50; time++) {
      const since = performance.now();
      await client.hover(uri, position);
      alone.push(performance.now() - since);
    }
    const middle = (all: number[]): number => all.sort((a, b) => a - b)[all.length >> 1] ?? NaN;
    console.log(
      `hovers while reading: ${waits.length}, median ${middle(waits).toFixed(1)} ms, longest ${waits.at(-1)?.toFixed(1)} ms; alone ${middle(alone).toFixed(1)} ms`,
    );
    // Were they answered after the reading only, there would be one.
    expect(waits.length).toBeGreaterThan(50);
  });

  it('how far it has come is shown, and its end', async () => {
    const folder = folderOf(many(120));
    const client = await clientIn([folder]);
    await ended(client);
    const work = workIn(client);
    expect(work[0]).toMatchObject({ kind: 'begin', title: 'Ungula: reading the case files', cancellable: true });
    expect(work.at(-1)).toEqual({ kind: 'end' });
    const shares = work.flatMap((one) => (one.kind === 'report' ? [one.percentage ?? NaN] : []));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.every((share) => share >= 0 && share <= 100)).toBe(true);
    expect(await pulled(client)).toHaveLength(120);
  });

  it('few files are read without a word about it', async () => {
    const client = await clientIn([folderOf(many(5))]);
    expect(await pulled(client)).toHaveLength(5);
    expect(workIn(client)).toEqual([]);
    expect(client.askedFor.map(({ method }) => method)).not.toContain('window/workDoneProgress/create');
  });

  it('the client can stop it; a rename takes it up again, for it needs every file', async () => {
    const folder = folderOf({ ...many(600), 'zz/last.hoof': smallCase({ name: 'Last', readers: ['Ann'] }) });
    const client = await clientIn([folder]);
    await begun(client);
    const [{ token } = { token: '' }] = client.progress;
    client.notify('window/workDoneProgress/cancel', { token });
    await ended(client);
    const known = (await pulled(client)).length;
    expect(known).toBeLessThan(601);
    expect(client.log.join('\n')).toMatch(/reading the case files was stopped; \d+ that were found are not read/);
    const uri = folder.uriOf('asked.hoof');
    client.open(uri, smallCase({ readers: ['Ann'] }));
    const edit = await client.about<{ documentChanges: unknown[] }>('rename', uri, {
      position: { line: 5, character: 11 },
      newName: 'Anna',
    });
    expect(edit.documentChanges).toHaveLength(2);
    expect(await pulled(client)).toHaveLength(602);
  });

  it('a request that is taken back ends early, with the protocol’s own code', async () => {
    const folder = folderOf(many(600));
    const client = await clientIn([folder]);
    await begun(client);
    const all = client.begin('workspace/diagnostic', { previousResultIds: [] });
    all.cancel();
    await expect(all.answer).rejects.toMatchObject({ code: -32800 });
    expect(workIn(client).some(({ kind }) => kind === 'end')).toBe(false);
    const uri = folder.uriOf('asked.hoof');
    client.open(uri, smallCase({ code: 'EX01' }));
    const more = { textDocument: { uri }, position: { line: 2, character: 8 }, newName: 'EX09' };
    const rename = client.begin('textDocument/rename', more);
    rename.cancel();
    await expect(rename.answer).rejects.toMatchObject({ code: -32800 });
    // One that waits in the line behind others is not begun.
    const hover = client.begin('textDocument/hover', { textDocument: { uri }, position: { line: 0, character: 1 } });
    hover.cancel();
    await expect(hover.answer).rejects.toMatchObject({ code: -32800 });
    expect(workIn(client).some(({ kind }) => kind === 'end')).toBe(false);
    await ended(client);
    expect(await pulled(client)).toHaveLength(601);
  });

  it('files that change and a folder that is closed meanwhile are as they are in the end', async () => {
    const [one, two] = [folderOf(many(300)), folderOf(many(50))];
    const client = await clientIn([one, two]);
    await begun(client);
    for (let number = 0; number < 300; number += 7) {
      one.write(`${number % 10}/${number}.hoof`, 'hoof 1\nrubbish\n');
      changed(client, [one.uriOf(`${number % 10}/${number}.hoof`), 2]);
    }
    client.notify('workspace/didChangeWorkspaceFolders', {
      event: { added: [], removed: [{ uri: two.uri, name: 'two' }] },
    });
    const items = await pulled(client);
    expect(items).toHaveLength(300);
    const rubbish = items.filter(
      (one) => one.kind === 'full' && one.items.some(({ code }) => code === 'notation/unknown-word'),
    );
    expect(rubbish).toHaveLength(Math.ceil(300 / 7));
  });

  it('links are not followed, and a folder that goes round in a ring is walked once', async () => {
    const folder = folderOf({ 'real/a.hoof': smallCase() });
    symlinkSync(join(folder.path, 'real'), join(folder.path, 'ring'), 'dir');
    symlinkSync(folder.path, join(folder.path, 'real', 'back'), 'dir');
    symlinkSync(join(folder.path, 'real', 'a.hoof'), join(folder.path, 'link.hoof'));
    const client = await clientIn([folder]);
    expect((await pulled(client)).map(({ uri }) => uri)).toEqual([folder.uriOf('real/a.hoof')]);
    changed(client, [folder.uriOf('link.hoof'), 1]);
    expect(await pulled(client)).toHaveLength(1);
  });
});

it('the client is asked to watch case files, and whatever goes', async () => {
  const client = await clientIn([folderOf()]);
  await client.request('workspace/symbol', { query: '' });
  expect(watched(client)).toEqual(
    expect.arrayContaining([{ globPattern: '**/*.hoof' }, { globPattern: '**/*', kind: 4 }]),
  );
});

it('a folder that is not there is logged, and the rest is served', async () => {
  const [gone, there] = [folderOf(), folderOf({ 'a.hoof': smallCase() })];
  gone.remove();
  const client = await clientIn([gone, there]);
  expect(await pulled(client)).toHaveLength(1);
  expect(client.log.join('\n')).toContain('cannot be read, so its case files are not known');
});
