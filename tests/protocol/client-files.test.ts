import type { Diagnostic } from 'vscode-languageserver';
import { afterEach, expect, it } from 'vitest';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { caseText, filmText } from '../unit/plain-foot.ts';
import { LanguageClient, wholeWorkspace, type ClientOptions } from './language-client.ts';

const folder = 'vscode-vfs://stable/cases%20of%20ours';
const uri = `${folder}/a.hoof`;
const film = filmText({}, { header: 'film LF lateral "films/a film.dcm"', scale: 'scale dicom' });
const text = `hoof 1\ncase "X"\nvisit 2026-03-04\n${film}\n`;
const picture = `${folder}/films/a%20film.dcm`;

/** A picture of 4 by 4 pixels whose spacing is calibrated in the plane of the foot. */
const dicom = pictureFile(
  syntaxes.explicit,
  {
    width: 4,
    height: 4,
    more: [
      { tag: '00280030', vr: 'DS', value: '0.14\\0.14' },
      { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
    ],
  },
  new Uint8Array(32),
);
const set = new TextEncoder().encode(
  JSON.stringify({
    'ungula-reference': 1,
    name: 'Our clinic',
    source: { cite: 'our films' },
    bands: [{ measure: 'sole-depth.tip', low: 99 }],
  }),
);

let client: LanguageClient;
const start = async (options: ClientOptions): Promise<void> => {
  client = await LanguageClient.start({ folder, ...options });
};
afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

const scaleFinding = (all: Diagnostic[]): string | undefined =>
  all.find(({ code }) => code === 'frame/no-scale')?.message as string | undefined;

it('a picture on another file system is asked of the client, and its scale counts', async () => {
  await start({ files: { [picture]: dicom } });
  client.open(uri, text);
  await client.diagnosticsWith(uri, (all) => scaleFinding(all) === undefined);
  expect(client.asked).toContain(picture);
});

it('one that the client does not find is told as not there', async () => {
  await start({ files: {} });
  client.open(uri, text);
  const told = await client.diagnosticsWith(uri, (all) => scaleFinding(all)?.includes('is not there') === true);
  expect(scaleFinding(told)).toContain('films/a film.dcm');
});

it('a client that does not answer is asked nothing, and nothing is said to be missing', async () => {
  await start({});
  client.open(uri, text);
  expect(scaleFinding(await client.diagnostics(uri))).toMatch(
    /^The picture films\/a film\.dcm cannot be looked at from/,
  );
  // A second look, after whatever might have been asked.
  await client.hover(uri, { line: 0, character: 0 });
  expect(scaleFinding(await client.diagnostics(uri))).toMatch(/cannot be looked at from here/);
  expect(client.asked).toEqual([]);
});

it('what the server reaches itself it does not ask for', async () => {
  await start({ files: { [picture]: dicom } });
  const near = 'file:///no/such/folder/a.hoof';
  client.open(near, text);
  await client.diagnosticsWith(near, (all) => scaleFinding(all)?.includes('is not there') === true);
  expect(client.asked.filter((asked) => asked.startsWith('file:'))).toEqual([]);
});

it('a set of reference values on another file system counts, and is asked for after the greeting', async () => {
  const name = 'ours.hoof-reference.json';
  await start({
    files: { [`${folder}/${name}`]: set },
    options: { reference: { files: [name] } },
  });
  client.open(uri, caseText(filmText()));
  await client.diagnosticsWith(uri, (all) => all.some(({ message }) => String(message).includes('Our clinic')));
  expect(client.asked).toContain(`${folder}/${name}`);
});

it('the other case files of a folder on another file system are known too', async () => {
  const other = `${folder}/sub/b.hoof`;
  const texts = new TextEncoder();
  await start({
    capabilities: wholeWorkspace,
    files: {
      [folder]: [{ name: 'sub', kind: 'folder', size: null }],
      [`${folder}/sub`]: [{ name: 'b.hoof', kind: 'file', size: null }],
      [other]: texts.encode('hoof 1\n\ncase "Willow"\n  animal horse mare\n'),
    },
  });
  let found: { name: string; location: { uri: string } }[] | null = null;
  for (let tries = 0; tries < 100 && !found?.length; tries++) {
    found = await client.request('workspace/symbol', { query: 'Willow' });
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  expect(found?.map(({ location }) => location.uri)).toContain(other);
});
