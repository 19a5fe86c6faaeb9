import { fileURLToPath } from 'node:url';
import { SymbolKind, type SymbolInformation } from 'vscode-languageserver';
import { expect, it } from 'vitest';
import { smallCase, type CaseFolder } from './case-folder.ts';
import type { LanguageClient } from './language-client.ts';
import { clientIn, folderOf, pulled } from './workspace-client.ts';

const files = {
  'juniper.hoof': `hoof 1\r\ncase "Juniper"\r\n  code EX02\r\nvisit 2026-03-04 "first"\r\n  film LF lateral "juniper-lf.png"\r\nvisit 2026-04-01\r\n  film RF lateral "juniper-rf.png"\r\n  photo LF solar "sole.jpg"\r\n`,
  'sub/bramble.hoof': smallCase({ name: 'Bramble', code: 'EX01' }),
  'nameless.hoof': 'hoof 1\nvisit 2026-03-04\n',
};

async function search(client: LanguageClient, folder: CaseFolder, query: string): Promise<string[]> {
  const found = await client.request<SymbolInformation[]>('workspace/symbol', { query });
  return found.map(({ name, containerName, location: { uri, range } }) => {
    const file = fileURLToPath(uri).slice(folder.path.length + 1);
    return `${name} | ${containerName} | ${file}:${range.start.line + 1}:${range.start.character + 1}`;
  });
}

async function indexed(): Promise<{ client: LanguageClient; folder: CaseFolder }> {
  const folder = folderOf(files);
  const client = await clientIn([folder]);
  await pulled(client);
  return { client, folder };
}

it('everything that can be gone to is found without a query: cases, codes, visits from the newest, films', async () => {
  const { client, folder } = await indexed();
  expect(await search(client, folder, '')).toEqual([
    'Bramble | sub/bramble.hoof | sub/bramble.hoof:2:1',
    'Juniper | juniper.hoof | juniper.hoof:2:1',
    'EX01 | Bramble | sub/bramble.hoof:3:8',
    'EX02 | Juniper | juniper.hoof:3:8',
    '2026-04-01 | Juniper | juniper.hoof:6:7',
    '2026-03-04 | nameless.hoof | nameless.hoof:2:7',
    '2026-03-04 first | Bramble | sub/bramble.hoof:4:7',
    '2026-03-04 first | Juniper | juniper.hoof:4:7',
    'film RF lateral juniper-rf.png | Juniper, 2026-04-01 | juniper.hoof:7:3',
    'photo LF solar sole.jpg | Juniper, 2026-04-01 | juniper.hoof:8:3',
    'film LF lateral bramble.png | Bramble, 2026-03-04 | sub/bramble.hoof:5:3',
    'film LF lateral juniper-lf.png | Juniper, 2026-03-04 | juniper.hoof:5:3',
  ]);
  const kinds = (await client.request<SymbolInformation[]>('workspace/symbol', { query: '' })).map(({ kind }) => kind);
  expect(new Set(kinds)).toEqual(new Set([SymbolKind.Class, SymbolKind.Key, SymbolKind.Event, SymbolKind.Object]));
});

it('what is meant comes first: the whole name, then its beginning, then letters of it', async () => {
  const { client, folder } = await indexed();
  expect((await search(client, folder, 'juniper'))[0]).toBe('Juniper | juniper.hoof | juniper.hoof:2:1');
  expect((await search(client, folder, 'jnp'))[0]).toBe('Juniper | juniper.hoof | juniper.hoof:2:1');
  expect(await search(client, folder, 'ex01')).toEqual(['EX01 | Bramble | sub/bramble.hoof:3:8']);
  expect((await search(client, folder, '2026-04'))[0]).toBe('2026-04-01 | Juniper | juniper.hoof:6:7');
  expect(await search(client, folder, 'xyzzy')).toEqual([]);
});

it('several words narrow it down, by what a thing lies in too', async () => {
  const { client, folder } = await indexed();
  expect(await search(client, folder, 'film bramble')).toEqual([
    'film LF lateral bramble.png | Bramble, 2026-03-04 | sub/bramble.hoof:5:3',
  ]);
  expect((await search(client, folder, 'rf 2026-04'))[0]).toBe(
    'film RF lateral juniper-rf.png | Juniper, 2026-04-01 | juniper.hoof:7:3',
  );
});

it('an unsaved text counts in place of its file', async () => {
  const { client, folder } = await indexed();
  client.open(folder.uriOf('sub/bramble.hoof'), smallCase({ name: 'Bracken' }));
  expect(await search(client, folder, 'Bracken')).toContain('Bracken | sub/bramble.hoof | sub/bramble.hoof:2:1');
  expect(await search(client, folder, 'EX01')).toEqual([]);
});

it('of a great many the first five hundred are given', async () => {
  const visits = Array.from({ length: 700 }, (_, day) => `visit ${new Date(day * 864e5).toISOString().slice(0, 10)}\n`);
  const folder = folderOf({ 'long.hoof': `hoof 1\ncase "Long"\n${visits.join('')}` });
  const client = await clientIn([folder]);
  await pulled(client);
  expect(await client.request<SymbolInformation[]>('workspace/symbol', { query: '' })).toHaveLength(500);
});
