import { spawnSync } from 'node:child_process';
import { symlinkSync } from 'node:fs';
import { join, relative } from 'node:path';
import { constants, deflateRawSync } from 'node:zlib';
import type { Diagnostic, DocumentLink } from 'vscode-languageserver';
import { afterEach, expect, it } from 'vitest';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { calibratedPicture, CaseFolder, dicomCase } from './case-folder.ts';
import { LanguageClient, wholeWorkspace } from './language-client.ts';

/** A deflated DICOM file of less than 300 KB whose one sequence has 24 million empty items (PS3.5, 7.5 and A.5). */
function manyEmptyItems(): Uint8Array {
  const begun = pictureFile(syntaxes.deflated, { width: 4, height: 4 }, new Uint8Array(32));
  const meta = begun.subarray(0, 144 + new DataView(begun.buffer, begun.byteOffset).getUint32(140, true));
  const sequence = Buffer.from('0800401153510000ffffffff', 'hex');
  const items = Buffer.from('feff00e000000000'.repeat(2 ** 17), 'hex');
  const flush = { finishFlush: constants.Z_FULL_FLUSH };
  const block = deflateRawSync(items, flush);
  const blocks = Array.from({ length: 183 }, () => block);
  const file = Buffer.concat([meta, deflateRawSync(sequence, flush), ...blocks, deflateRawSync(Buffer.alloc(0))]);
  expect(file.length).toBeLessThan(300_000);
  return file;
}

let client: LanguageClient;
let folder: CaseFolder;
afterEach(async () => {
  // Nothing that was looked at keeps the server from ending.
  expect(await client.stop()).toBe(0);
  folder.remove();
});

const scaleFinding = (all: Diagnostic[]): string | undefined =>
  all.find(({ code }) => code === 'frame/no-scale')?.message as string | undefined;

const said = async (uri: string, words: string): Promise<Diagnostic[]> =>
  client.diagnosticsWith(uri, (all) => scaleFinding(all)?.includes(words) === true);

const scale = async (uri: string): Promise<number | null> => {
  const { sheets } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
  return sheets[0]?.scale ?? null;
};

it('pipes and devices are told in words, and the server answers meanwhile and ends when it is told to', async () => {
  folder = new CaseFolder({ 'near.dcm': calibratedPicture('0.14') });
  const pipes = [1, 2, 3, 4, 5, 6].map((number) => `pipe-${number}.dcm`);
  expect(spawnSync('mkfifo', pipes, { cwd: folder.path }).status).toBe(0);
  symlinkSync('/dev/zero', join(folder.path, 'zero.dcm'));
  client = await LanguageClient.start();
  for (const pipe of pipes) client.open(folder.uriOf(`${pipe}.hoof`), dicomCase(pipe));
  client.open(folder.uriOf('zero.hoof'), dicomCase('zero.dcm'));
  const far = relative(folder.path, '/dev/zero');
  client.open(folder.uriOf('far.hoof'), dicomCase(far));
  client.open(folder.uriOf('near.hoof'), dicomCase('near.dcm'));
  await expect.poll(() => scale(folder.uriOf('near.hoof')), { timeout: 120_000 }).toBe(0.14);
  for (const pipe of pipes) await said(folder.uriOf(`${pipe}.hoof`), `${pipe} is no file but a device or a pipe`);
  await said(folder.uriOf('zero.hoof'), 'zero.dcm goes through a link that leads out');
  await said(folder.uriOf('far.hoof'), `${far} leads out of the folders`);
});

it('cases beside films go together in a folder that is open, and links out of it are not followed', async () => {
  folder = new CaseFolder({
    'clinic/films/a.dcm': calibratedPicture('0.14'),
    'clinic/cases/keep.txt': '',
    'secret/s.dcm': calibratedPicture('0.3'),
  });
  symlinkSync('../../secret', join(folder.path, 'clinic', 'cases', 'way-out'));
  symlinkSync('../films', join(folder.path, 'clinic', 'cases', 'way-round'));
  client = await LanguageClient.start({ folder: folder.uriOf('clinic') });
  const open = (name: string, picture: string): string => {
    const uri = folder.uriOf(`clinic/cases/${name}.hoof`);
    client.open(uri, dicomCase(picture));
    return uri;
  };
  await expect.poll(() => scale(open('a', '../films/a.dcm')), { timeout: 120_000 }).toBe(0.14);
  await expect.poll(() => scale(open('b', 'way-round/a.dcm')), { timeout: 120_000 }).toBe(0.14);
  await said(open('c', 'way-out/s.dcm'), 'goes through a link that leads out');
  await said(open('d', '../../secret/s.dcm'), 'leads out of the folders');
});

it('what may be read follows the folders that are open', async () => {
  folder = new CaseFolder({ 'clinic/films/a.dcm': calibratedPicture('0.14'), 'clinic/cases/keep.txt': '' });
  client = await LanguageClient.start({ folder: folder.uriOf('clinic/cases'), capabilities: wholeWorkspace });
  const uri = folder.uriOf('clinic/cases/a.hoof');
  client.open(uri, dicomCase('../films/a.dcm'));
  expect(await scale(uri)).toBeNull();
  const clinic = { uri: folder.uriOf('clinic'), name: 'clinic' };
  client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [clinic], removed: [] } });
  await expect.poll(() => scale(uri), { timeout: 120_000 }).toBe(0.14);
  client.notify('workspace/didChangeWorkspaceFolders', { event: { added: [], removed: [clinic] } });
  await expect.poll(() => scale(uri), { timeout: 120_000 }).toBeNull();
});

it('a client that tells nothing of files: a picture that was replaced counts once the case is saved or changed', async () => {
  folder = new CaseFolder({ 'a.dcm': calibratedPicture('0.14') });
  client = await LanguageClient.start();
  const uri = folder.uriOf('a.hoof');
  client.open(uri, dicomCase('a.dcm'));
  await expect.poll(() => scale(uri), { timeout: 120_000 }).toBe(0.14);
  folder.write('a.dcm', calibratedPicture('0.12'));
  client.notify('textDocument/didSave', { textDocument: { uri } });
  await expect.poll(() => scale(uri), { timeout: 120_000 }).toBe(0.12);
  folder.remove('a.dcm');
  client.change(uri, 2, [{ range: { start: { line: 0, character: 6 }, end: { line: 0, character: 6 } }, text: ' ' }]);
  await said(uri, 'a.dcm is not there');
  folder.write('a.dcm', calibratedPicture('0.1'));
  client.close(uri);
  client.open(uri, dicomCase('a.dcm'));
  await expect.poll(() => scale(uri), { timeout: 120_000 }).toBe(0.1);
});

it('of a client that watches files for the server it asks for the pictures too', async () => {
  folder = new CaseFolder();
  client = await LanguageClient.start({ folder: folder.uri, capabilities: wholeWorkspace });
  const registered = await client.until(() => {
    const all = JSON.stringify(client.askedFor.filter(({ method }) => method === 'client/registerCapability'));
    return all.includes('dcm') ? all : undefined;
  });
  expect(registered).toContain('**/*.{dcm,DCM,dicom,DICOM}');
});

it('sets of reference values are read through the same door', async () => {
  const set = JSON.stringify({ 'ungula-reference': 1, name: 'Secret', source: { cite: 'x' }, bands: [] });
  folder = new CaseFolder({ 'secret/s.json': set, 'open/keep.txt': '' });
  const name = (one: string): string => `${one}.hoof-reference.json`;
  symlinkSync('../secret/s.json', join(folder.path, 'open', name('link')));
  symlinkSync('/dev/zero', join(folder.path, 'open', name('zero')));
  expect(spawnSync('mkfifo', [name('pipe')], { cwd: join(folder.path, 'open') }).status).toBe(0);
  const files = ['link', 'zero', 'pipe'].map(name);
  client = await LanguageClient.start({ folder: folder.uriOf('open'), options: { reference: { files } } });
  const shown = await client.messages(files.length);
  for (const file of files) expect(shown.join('\n')).toContain(`${file}: this set of reference values cannot be read`);
});

it('links lead to pictures of the case and nowhere else', async () => {
  folder = new CaseFolder();
  client = await LanguageClient.start({ folder: folder.uri });
  const uri = folder.uriOf('cases/a.hoof');
  const paths = ['../films/a.png', relative(join(folder.path, 'cases'), '/etc/passwd'), 'con.dcm', '../notes.txt'];
  client.open(uri, `hoof 1\nvisit 2026-03-04\n${paths.map((path) => `  film LF lateral "${path}"\n`).join('')}`);
  const links = await client.about<DocumentLink[]>('documentLink', uri);
  expect(links.map(({ target }) => target)).toEqual([folder.uriOf('films/a.png')]);
});

it('a small picture that swells is given up in words, and the server answers all the while', async () => {
  folder = new CaseFolder({ 'swells.dcm': manyEmptyItems() });
  client = await LanguageClient.start();
  const uri = folder.uriOf('a.hoof');
  client.open(uri, dicomCase('swells.dcm'));
  let slowest = 0;
  const told = said(uri, 'swells.dcm');
  const ended = told.then(() => true);
  while (!(await Promise.race([ended, Promise.resolve(false)]))) {
    const begun = performance.now();
    await client.hover(uri, { line: 0, character: 0 });
    slowest = Math.max(slowest, performance.now() - begun);
  }
  // A second is generous: while it was read in the server's own thread, the answer took half a minute.
  expect(slowest).toBeLessThan(1000);
});
