import { describe, expect, it, vi } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Files } from '../../server/serving/files.ts';
import { StoredScaleBook } from '../../server/serving/stored-scales.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import type { Looked } from '../../shared/picture/picture-files.ts';

const document = TextDocument.create('file:///case/a.hoof', 'hoof', 1, '');
const picture = 'file:///case/x.dcm';
const stated = (mmPerPx: number): Looked<StoredScale> => ({ found: { mmPerPx, words: '' } });

/** A book on a disk whose looks end when the test says so. */
function book(folders: readonly string[] = []) {
  const looks: { readonly uri: string; readonly roots: readonly string[]; end(scale: Looked<StoredScale>): void }[] =
    [];
  const disk = { stamp: '1' };
  const told = { news: 0, changed: [] as string[] };
  const files: Files = {
    readBytes: () => Promise.resolve(null),
    listFolder: () => Promise.resolve(null),
    isThere: () => Promise.resolve(null),
    storedScale: (uri, roots) => new Promise((end) => looks.push({ uri, roots, end })),
    stampOf: () => Promise.resolve(disk.stamp),
  };
  const scales = new StoredScaleBook(
    () => files,
    () => folders,
    {
      news: () => void (told.news += 1),
      changed: (uris) => void told.changed.push(...uris),
    },
  );
  const asked = (path = 'x.dcm') => scales.of(document)(path);
  const begun = (count: number) => expect.poll(() => looks.length).toBe(count);
  return { scales, asked, looks, begun, disk, told };
}

const aTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

it('a picture that changes while it is looked at counts as it is afterwards, whichever look ends last', async () => {
  const { scales, asked, looks, begun, told } = book();
  expect(asked()).toBeNull();
  await begun(1);
  scales.forget([picture]);
  expect(told.news).toBe(1);
  expect(asked()).toBeNull();
  await begun(2);
  looks[1]?.end(stated(0.2));
  await expect.poll(() => told.news).toBe(2);
  looks[0]?.end(stated(0.1));
  await aTurn();
  expect(asked()).toMatchObject({ mmPerPx: 0.2 });
  expect(told.news).toBe(2);
  expect(looks).toHaveLength(2);
});

it('of a file that is not open too: what was read before the picture changed is not believed', async () => {
  const { scales, looks, begun } = book();
  const learnt = scales.learn(document, 'x.dcm');
  await begun(1);
  scales.forget([picture]);
  looks[0]?.end(stated(0.1));
  // It is looked at once more, and only that counts.
  await begun(2);
  looks[1]?.end(stated(0.2));
  await learnt;
  expect(scales.of(document, { look: false })('x.dcm')).toMatchObject({ mmPerPx: 0.2 });
  expect(looks).toHaveLength(2);
});

it('one look serves all that ask meanwhile, and tells an open document that came later', async () => {
  const { scales, asked, looks, begun, told } = book();
  const learnt = scales.learn(document, 'x.dcm');
  expect(asked()).toBeNull();
  await begun(1);
  looks[0]?.end(stated(0.1));
  await learnt;
  expect([asked(), told.news, looks.length]).toEqual([{ mmPerPx: 0.1, words: '' }, 1, 1]);
});

it('a picture is forgotten with the folder that it lies in, however the client writes it', async () => {
  const { scales, asked, looks, begun } = book();
  asked('films (1)/x.dcm');
  await begun(1);
  scales.forget(['file:///case/films%20%281%29']);
  asked('films (1)/x.dcm');
  await begun(2);
  expect(looks[1]?.uri).toBe('file:///case/films%20(1)/x.dcm');
});

it('what the policy refuses is looked at by nobody, and is the same object each time', async () => {
  const { asked, looks } = book();
  const refused = asked('../../../dev/zero');
  expect(refused).toEqual({ lack: expect.stringMatching(/^\.\.\/\.\.\/\.\.\/dev\/zero leads out of the folders/) });
  // A film whose scale is the same object is not measured anew.
  expect(asked('../../../dev/zero')).toBe(refused);
  await aTurn();
  expect(looks).toEqual([]);
});

it('looks within the folder that is open, and anew when another one is', async () => {
  const open = ['file:///case'];
  const { scales, asked, looks, begun, told } = book(open);
  asked();
  await begun(1);
  expect(looks[0]).toMatchObject({ uri: picture, roots: open });
  open[0] = 'file:///';
  scales.forgetAll();
  expect(told.changed).toEqual([picture]);
  asked();
  await begun(2);
  expect(looks[1]).toMatchObject({ uri: picture, roots: ['file:///'] });
});

describe('where nobody tells of pictures that change', () => {
  it('they are looked at again a moment after the text was, and only if they are others', async () => {
    vi.useFakeTimers();
    try {
      const { scales, asked, looks, disk, told } = book();
      asked();
      await vi.advanceTimersByTimeAsync(0);
      looks[0]?.end(stated(0.1));
      await vi.advanceTimersByTimeAsync(0);
      for (let times = 0; times < 3; times++) scales.lookAgainSoon(document);
      await vi.advanceTimersByTimeAsync(2000);
      expect([asked(), looks.length]).toEqual([{ mmPerPx: 0.1, words: '' }, 1]);
      disk.stamp = '2';
      scales.lookAgainSoon(document);
      await vi.advanceTimersByTimeAsync(2000);
      expect(told.changed).toEqual([picture]);
      asked();
      await vi.advanceTimersByTimeAsync(0);
      looks[1]?.end(stated(0.2));
      await vi.advanceTimersByTimeAsync(0);
      expect(asked()).toMatchObject({ mmPerPx: 0.2 });
      expect(vi.getTimerCount()).toBe(0);
    } finally {
      vi.useRealTimers();
    }
  });
});
