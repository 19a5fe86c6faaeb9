import { expect, it } from 'vitest';
import type { Uri } from 'vscode';
import type { OpenPicture } from '../../shared/picture/picture-files.ts';
import { DecodedPictures, type PictureFolder } from '../../src/extension/decoded-pictures.ts';

const DAY = 24 * 60 * 60 * 1000;
const uri = (text: string): Uri => ({ toString: () => text }) as Uri;

/** The folder that all windows share, and how often something was decoded. */
function windows() {
  const files = new Map<string, number>();
  const counts = { decoded: 0 };
  const now = { at: 0 };
  const folder: PictureFolder = {
    uriOf: uri,
    has: async (name) => files.has(name),
    write: async (name) => void files.set(name, now.at),
    list: async () => [...files].map(([name, written]) => ({ name, written })),
    remove: async (name) => void files.delete(name),
  };
  const decoder = {
    showable: async (bytes: Uint8Array) => {
      counts.decoded += 1;
      if (bytes.length === 0) return { problem: 'The file is empty.' };
      return { mime: 'image/png', bytes, width: 1, height: 1 };
    },
    dispose: () => {},
  };
  return { files, counts, now, open: () => new DecodedPictures(folder, decoder) };
}

const picture = (stamp: string, size = 1): OpenPicture => ({
  size,
  stamp,
  read: async () => new Uint8Array(size),
});

it('a window that opens leaves alone what another one shows, and shows it without decoding', async () => {
  const { files, counts, now, open } = windows();
  const shown = await open().of(uri('a.dcm'), picture('1'));
  const second = open();
  now.at = DAY;
  await second.sweep(now.at);
  expect([...files.keys()]).toEqual([String(shown)]);
  expect(String(await second.of(uri('a.dcm'), picture('1')))).toBe(String(shown));
  expect(counts.decoded).toBe(1);
});

it('what is old goes, whoever made it, and is made again where it is still shown', async () => {
  const { files, counts, now, open } = windows();
  const first = open();
  const shown = String(await first.of(uri('a.dcm'), picture('1')));
  files.set('left.half', 0);
  now.at = 8 * DAY;
  await first.of(uri('b.dcm'), picture('1'));
  await open().sweep(now.at);
  expect(files.has(shown) || files.has('left.half')).toBe(false);
  expect(files.size).toBe(1);
  expect(String(await first.of(uri('a.dcm'), picture('1')))).toBe(shown);
  expect(files.has(shown)).toBe(true);
  expect(counts.decoded).toBe(3);
});

it('each state of a picture is decoded once, however many ask', async () => {
  const { files, counts, open } = windows();
  const one = open();
  await Promise.all([1, 2, 3].map(() => one.of(uri('a.dcm'), picture('1'))));
  await one.of(uri('a.dcm'), picture('2'));
  expect([counts.decoded, files.size]).toEqual([2, 2]);
});

it('what cannot be decoded is told each time, and tried once', async () => {
  const { counts, open } = windows();
  const one = open();
  for (let times = 0; times < 2; times++)
    expect(await one.of(uri('a.dcm'), picture('1', 0))).toEqual({ problem: 'The file is empty.' });
  expect(counts.decoded).toBe(1);
});

it('a disk that gives out is told, and tried again', async () => {
  const { counts, open } = windows();
  const one = open();
  const gone: OpenPicture = { size: 1, stamp: '1', read: () => Promise.reject(new Error('the disk gave out')) };
  expect(await one.of(uri('a.dcm'), gone)).toEqual({ problem: 'the disk gave out' });
  expect(await one.of(uri('a.dcm'), picture('1'))).not.toHaveProperty('problem');
  expect(counts.decoded).toBe(1);
});
