import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathFrom, picturePath } from '../../src/extension/picture-path.ts';

const folder = '/home/kim/cases/juniper';
const roots = ['/home/kim/cases'];
const said = (written: string): string => {
  const answer = picturePath(written, folder, roots);
  return 'refused' in answer ? answer.refused : `shown: ${answer.path}`;
};

describe('where a film’s picture is looked for', () => {
  it.each([
    ['films/a.png', '/home/kim/cases/juniper/films/a.png'],
    ['./films//a.JPG', '/home/kim/cases/juniper/films/a.JPG'],
    ['films\\a.webp', '/home/kim/cases/juniper/films/a.webp'],
    ['../shared films/ä %2e.gif', '/home/kim/cases/shared films/ä %2e.gif'],
  ])('%s is in the open folder', (written, path) => {
    expect(picturePath(written, folder, roots)).toEqual({ path, shown: 'as it is' });
  });

  it.each(['films/a.dcm', 'films/a.TIF', 'films/IM0001'])('%s is decoded before it is shown', (written) => {
    expect(picturePath(written, folder, roots)).toMatchObject({ shown: 'decoded' });
  });

  it.each([
    ['../../../etc/secret.png', 'leads out of the open folder'],
    ['films/../../../other/a.png', 'leads out of the open folder'],
    ['../../../../../../../a.png', 'leads out of the open folder'],
    ['../../cases-of-others/a.png', 'leads out of the open folder'],
    ['..\\..\\..\\a.png', 'leads out of the open folder'],
    ['https://example.org/a.png', 'Pictures are never fetched'],
    ['//example.org/share/a.png', 'Pictures are never fetched'],
    ['\\\\server\\share\\a.png', 'Pictures are never fetched'],
    ['data:image/png;base64,AAAA', 'Pictures are never fetched'],
    ['file:///home/kim/cases/a.png', 'Pictures are never fetched'],
    ['command:x.png', 'Pictures are never fetched'],
    ['/home/kim/cases/a.png', 'a path of one computer only'],
    ['C:\\films\\a.png', 'a path of one computer only'],
    ['films/a.svg', 'Save it as png, jpg or DICOM'],
    ['films/a.exe', 'Save it as png, jpg or DICOM'],
    ['films/a.png\u0000.txt', 'no path can hold'],
    ['  ', 'names no picture'],
  ])('%s is refused in words', (written, words) => {
    expect(said(written)).toContain(words);
  });

  it('shows nothing where no folder is allowed', () => {
    expect('refused' in picturePath('a.png', folder, [])).toBe(true);
  });

  it('never leaves the roots, whatever is written', () => {
    const part = fc.constantFrom('..', '.', '', 'a', 'cases', '...', '%2e%2e', '.. ', '..\\');
    fc.assert(
      fc.property(fc.array(part, { maxLength: 12 }), (parts) => {
        const answer = picturePath(`${parts.join('/')}/a.png`, folder, roots);
        if ('path' in answer) {
          expect(answer.path.startsWith('/home/kim/cases/')).toBe(true);
          expect(answer.path.split('/')).not.toContain('..');
        }
      }),
    );
  });
});

describe('the path that a film writes for a picture', () => {
  it.each([
    ['/home/kim/cases/juniper/films/a b.png', 'films/a b.png'],
    ['/home/kim/cases/juniper/a.png', 'a.png'],
    ['/home/kim/cases/films/a.png', '../films/a.png'],
    ['/home/kim/cases/juniper-films/a.png', '../juniper-films/a.png'],
    ['/home/kim/elsewhere/a.png', null],
    ['/home/kim/cases-of-others/a.png', null],
    ['/home/kim/cases/juniper/a\\b.png', null],
  ])('%s is %s', (picture, path) => {
    expect(pathFrom(folder, picture, roots)).toBe(path);
    if (path !== null) expect(picturePath(path, folder, roots)).toMatchObject({ path: picture });
  });
});
