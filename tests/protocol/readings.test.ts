import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { agreementOf } from '../../shared/agreement/agreement.ts';
import { readFrom } from '../../shared/agreement/told-readings.ts';
import { agreeDocument } from '../../shared/export/agreement-data.ts';
import { readingsRequest, type ReadingsOf, type ReadingsResult } from '../../shared/protocol/readings.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { readHostMessage } from '../../src/messages/messages.ts';
import { LanguageClient, wholeWorkspace } from './language-client.ts';

const text = readFileSync(new URL('../agreement/three-readers.hoof', import.meta.url), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'ungula-readings-'));
/** The films of one reader each in a file of their own, one of them further down, and one outside the folder. */
const ofReader = (reader: string): string => {
  const lines = text.split('\n');
  let stands = true;
  return lines
    .filter((line) => {
      if (/^(?:visit| {2}film| {4}(?:scale|ground))/.test(line) || !line.startsWith('    ')) stands = true;
      else if (line.startsWith('    read')) stands = line.includes(reader);
      else if (/^ {4}\S/.test(line)) stands = false;
      return stands;
    })
    .join('\n');
};
/** Ash has not read the last film, and does not name it. */
const ash = ofReader('Ash')
  .split(/(?=^visit )/m)
  .slice(0, -1)
  .join('');
const uriOf = (name: string): string => pathToFileURL(join(folder, name)).href;

let client: LanguageClient;
beforeAll(async () => {
  mkdirSync(join(folder, 'study', 'rowan'), { recursive: true });
  writeFileSync(join(folder, 'study', 'ash.hoof'), ash);
  writeFileSync(join(folder, 'study', 'rowan', 'rowan.hoof'), ofReader('Rowan').replaceAll('"alder', '"../alder'));
  writeFileSync(join(folder, 'elsewhere.hoof'), text);
  client = await LanguageClient.start({ folder: pathToFileURL(folder).href, capabilities: wholeWorkspace });
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true, force: true });
});

const ask = (name: string, of?: ReadingsOf): Promise<ReadingsResult> =>
  client.request(readingsRequest, { textDocument: { uri: uriOf(name) }, of });

async function onCommandLine(...names: string[]): Promise<unknown> {
  let out = '';
  await commandLine(['agree', ...names.map((name) => join(folder, name)), '--format', 'json'], {
    out: (said) => (out += said),
    err: () => undefined,
  });
  return JSON.parse(out);
}
const documentOf = (read: ReadingsResult): unknown =>
  JSON.parse(JSON.stringify(agreeDocument(agreementOf(readFrom(read)))));

it('a case is told as the command line reads it, and as the page takes it', async () => {
  client.open(uriOf('elsewhere.hoof'), text);
  const told = await ask('elsewhere.hoof');
  expect(told).toMatchObject({ of: 'case', files: 1, lack: null, copies: 0 });
  expect(documentOf(told)).toEqual(await onCommandLine('elsewhere.hoof'));
  const { version: _version, ...read } = told;
  const message = { type: 'readings', uri: uriOf('elsewhere.hoof'), ...read };
  expect(readHostMessage(message)).toEqual(message);
});

it('with its folder the files of other readers count, closed or open, by the picture that they name', async () => {
  client.open(uriOf('study/ash.hoof'), ash);
  const alone = await ask('study/ash.hoof', 'case');
  expect(alone.films.every(({ readings }) => new Set(readings.map(({ reader }) => reader)).size === 1)).toBe(true);
  const both = await ask('study/ash.hoof', 'folder');
  expect(both).toMatchObject({ of: 'folder', files: 2, lack: null });
  expect(both.films.map(({ file }) => file)).toEqual([null, null, null, null, null, 'rowan/rowan.hoof']);
  expect(documentOf(both)).toEqual(await onCommandLine('study'));
  // What is typed counts before it is saved.
  client.open(uriOf('study/rowan/rowan.hoof'), 'hoof 1\n');
  expect((await ask('study/ash.hoof', 'folder')).films).toHaveLength(5);
});

it('a file that is not open is told to have nothing, and whatever is asked for is no crash', async () => {
  expect(await ask('nowhere.hoof', 'folder')).toEqual({
    version: null,
    of: 'case',
    films: [],
    copies: 0,
    followed: 0,
    files: 0,
    lack: null,
  });
  const odd = await client.request<ReadingsResult>(readingsRequest, {
    textDocument: { uri: uriOf('elsewhere.hoof') },
    of: 7,
  });
  expect(odd.of).toBe('case');
});

it('of a case outside the open folders it is said that its folder is not known', async () => {
  const outside = 'file:///somewhere/else.hoof';
  client.open(outside, text);
  const told = await client.request<ReadingsResult>(readingsRequest, { textDocument: { uri: outside }, of: 'folder' });
  expect(told.lack).toContain('Open its folder');
  expect(told.films).toHaveLength(6);
});
