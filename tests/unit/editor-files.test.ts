import { describe, expect, it } from 'vitest';
import { largestPicture, type OpenPicture } from '../../shared/picture/picture-files.ts';
import { editorFiles, isPlainWay, type Movable } from '../../src/extension/editor-files.ts';

/** An address as the editor has them. */
class At implements Movable<At> {
  readonly scheme = 'vscode-vfs';
  readonly authority: string;
  readonly path: string;
  constructor(path: string, authority = 'stable') {
    this.path = path;
    this.authority = authority;
  }
  with({ path }: { path: string }): At {
    return new At(path, this.authority);
  }
}

const [FILE, FOLDER, LINK] = [1, 2, 64];

function diskWith(kinds: Readonly<Record<string, number>>, size = 3) {
  const read: string[] = [];
  const fs = {
    stat: async ({ path }: At) => {
      const type = kinds[path];
      if (type === undefined) throw Object.assign(new Error('gone'), { code: 'FileNotFound' });
      if (type < 0) throw Object.assign(new Error('locked'), { code: 'NoPermissions' });
      return { type, size, mtime: 7 };
    },
    readFile: async ({ path }: At) => {
      read.push(path);
      return Uint8Array.of(1, 2, 3);
    },
  };
  const whole = ({ read: piece, size: all }: OpenPicture): Promise<Uint8Array> => piece(0, all);
  const look = (path: string, roots = ['/cases'], use: (picture: OpenPicture) => Promise<unknown> = whole) =>
    editorFiles<At>(fs)(
      new At(path),
      roots.map((root) => new At(root)),
      use,
    );
  return { fs, look, read };
}

const kinds = {
  '/cases': FOLDER,
  '/cases/films': FOLDER,
  '/cases/films/a.png': FILE,
  '/cases/link.png': FILE | LINK,
  '/cases/way': FOLDER | LINK,
  '/cases/way/a.png': FILE,
  '/cases/pipe.png': 0,
  '/cases/locked.png': -1,
  '/other/a.png': FILE,
};

describe('the reader through the editor’s file systems', () => {
  it.each([
    ['/cases/link.png', 'leads out'],
    ['/cases/way/a.png', 'leads out'],
    ['/other/a.png', 'leads out'],
    ['/cases', 'a folder'],
    ['/cases/films', 'a folder'],
    ['/cases/pipe.png', 'not plain'],
    ['/cases/gone.png', 'not there'],
    ['/cases/locked.png', 'unreadable'],
  ])('does not open %s: %s', async (path, refused) => {
    const { look, read } = diskWith(kinds);
    expect(await look(path)).toEqual({ refused });
    expect(read).toEqual([]);
  });

  it('opens a plain file, reads it once for all pieces, and not at all where only its size is asked for', async () => {
    const { look, read } = diskWith(kinds);
    const pieces = await look('/cases/films/a.png', ['/cases'], async (picture) => [
      picture.size,
      picture.stamp,
      await picture.read(1, 1),
      await picture.read(2, 9),
    ]);
    expect(pieces).toEqual({ found: [3, '7 3', Uint8Array.of(2), Uint8Array.of(3)] });
    expect(read).toEqual(['/cases/films/a.png']);
    await look('/cases/films/a.png', ['/cases'], async ({ size }) => size);
    expect(read).toHaveLength(1);
  });

  it('opens nothing that is too large', async () => {
    const { look, read } = diskWith(kinds, largestPicture + 1);
    expect(await look('/cases/films/a.png')).toEqual({ refused: 'too large' });
    expect(read).toEqual([]);
  });

  it('takes a folder of the same path on another machine for another one', async () => {
    const { fs } = diskWith(kinds);
    expect(await isPlainWay(fs, new At('/cases/films/a.png'), [new At('/cases', 'elsewhere')])).toBe(false);
    expect(await isPlainWay(fs, new At('/cases/films/a.png'), [new At('/')])).toBe(true);
    expect(await isPlainWay(fs, new At('/cases'), [new At('/cases/')])).toBe(true);
  });

  it('reads from a file system that knows no folders', async () => {
    expect(await diskWith({ '/cases/films/a.png': FILE }).look('/cases/films/a.png')).toHaveProperty('found');
  });

  it('takes the folder that is open as it is, a link or not', async () => {
    const { look } = diskWith(kinds);
    expect(await look('/cases/way/a.png', ['/cases/way'])).toHaveProperty('found');
  });
});
