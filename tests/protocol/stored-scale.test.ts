import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { sheetsRequest, type SheetsResult } from '../../shared/protocol/sheets.ts';
import { calibratedPicture as dicom, dicomCase as caseOf } from './case-folder.ts';
import { LanguageClient } from './language-client.ts';

let folder = '';
let client: LanguageClient;

const uriOf = (name: string): string => pathToFileURL(join(folder, name)).href;

async function eventually<T>(look: () => Promise<T | undefined>): Promise<T> {
  for (let tries = 0; tries < 100; tries++) {
    const found = await look();
    if (found !== undefined) return found;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  throw new Error('it did not come within 3 s');
}

const scaleOf = (uri: string) => async (): Promise<number | undefined> => {
  const { sheets } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
  return sheets[0]?.scale ?? undefined;
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ungula stored scale-'));
  client = await LanguageClient.start();
});

afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true, force: true });
});

it('the scale that a DICOM picture states counts once it has been looked at', async () => {
  writeFileSync(join(folder, 'a film.dcm'), dicom('0.14'));
  const uri = uriOf('a.hoof');
  client.open(uri, caseOf('a film.dcm'));
  expect(await eventually(scaleOf(uri))).toBe(0.14);
  const { sheets } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
  // Sole depth at the tip: 150 pixels.
  expect(sheets[0]?.rows.find(({ measure }) => measure === 'sole-depth.tip')?.value).toBeCloseTo(150 * 0.14, 9);
});

it('a picture that was replaced is looked at again', async () => {
  writeFileSync(join(folder, 'b.dcm'), dicom('0.14'));
  const uri = uriOf('b.hoof');
  client.open(uri, caseOf('b.dcm'));
  expect(await eventually(scaleOf(uri))).toBe(0.14);
  writeFileSync(join(folder, 'b.dcm'), dicom('0.12'));
  client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: uriOf('b.dcm'), type: 2 }] });
  expect(await eventually(async () => ((await scaleOf(uri)()) === 0.12 ? 0.12 : undefined))).toBe(0.12);
});

it.each([
  ['gone.dcm', 'is not there'],
  ['../../../up.dcm', 'leads out of the folders'],
  ['https://example.org/x.dcm', 'Pictures are never fetched'],
])('%s gives a sentence and no scale', async (path, words) => {
  const uri = uriOf(`${words.length}${path.length}.hoof`);
  client.open(uri, caseOf(path));
  const finding = await eventually(async () => {
    const { sheets } = await client.request<SheetsResult>(sheetsRequest, { textDocument: { uri } });
    return sheets[0]?.notes.find(({ code, message }) => code === 'frame/no-scale' && message.includes(words));
  });
  expect(finding.severity).toBe('warning');
  expect(await scaleOf(uri)()).toBeUndefined();
});
