import { describe, expect, it } from 'vitest';
import { base64Of } from '../../src/extension/base64.ts';
import type { Address } from '../../src/extension/editor-files.ts';
import { readableFrom } from '../../src/extension/may-read.ts';

const at = (path: string, authority = 'stable', scheme = 'vscode-vfs'): Address => ({ scheme, authority, path });
const folders = [at('/cases')];
const mayRead = (...asked: Parameters<typeof readableFrom>): boolean => readableFrom(...asked).length > 0;

describe('what the server may have read for it', () => {
  it.each(['/cases', '/cases/a.hoof', '/cases/films/a film.dcm'])('%s, in an open folder', (path) => {
    expect(mayRead(at(path), folders, [])).toBe(true);
  });

  it.each([
    [at('/other/a.dcm')],
    [at('/cases-of-others/a.dcm')],
    [at('/cases/../other/a.dcm')],
    [at('/cases/./a.dcm')],
    [at('/')],
    [at('/cases/a.dcm', 'elsewhere')],
    [at('/cases/a.dcm', 'stable', 'https')],
  ])('not $path of $scheme $authority', (asked) => {
    expect(mayRead(asked, folders, [])).toBe(false);
  });

  it('what lies beside an open case file, and below', () => {
    const open = [at('/loose/a.hoof')];
    expect(mayRead(at('/loose/films/a.dcm'), [], open)).toBe(true);
    expect(mayRead(at('/loose'), [], open)).toBe(true);
    expect(mayRead(at('/a.dcm'), [], open)).toBe(false);
    expect(mayRead(at('/a.dcm'), [], [at('/b.hoof')])).toBe(true);
  });

  it('nothing beside a case file that was never saved', () => {
    expect(mayRead(at('a.dcm', '', 'untitled'), [], [at('Untitled-1', '', 'untitled')])).toBe(false);
  });
});

it.each([0, 1, 2, 3, 24_575, 24_576, 24_577, 100_000])('%i bytes in base64 are as Node writes them', (length) => {
  const bytes = Uint8Array.from({ length }, (_, at) => (at * 7 + (at >> 8)) & 255);
  expect(base64Of(bytes)).toBe(Buffer.from(bytes).toString('base64'));
});
