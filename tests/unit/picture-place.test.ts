import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathFrom, picturePlace, pictureRoots } from '../../shared/picture/picture-place.ts';
import { pictureUri } from '../../shared/picture/picture-uri.ts';
import { refusalWords } from '../../shared/picture/refusal-words.ts';

const folder = '/home/kim/cases/juniper';
const roots = ['/home/kim/cases'];
const said = (written: string): string => {
  const answer = picturePlace(written, folder, roots);
  return 'refused' in answer ? refusalWords(answer.refused, written) : `shown: ${answer.path}`;
};

describe('where a film’s picture is looked for', () => {
  it.each([
    ['films/a.png', '/home/kim/cases/juniper/films/a.png'],
    ['./films//a.JPG', '/home/kim/cases/juniper/films/a.JPG'],
    ['../shared films/ä %2e.gif', '/home/kim/cases/shared films/ä %2e.gif'],
    ['films/a#b?c=d&e<f>"g\'.png', '/home/kim/cases/juniper/films/a#b?c=d&e<f>"g\'.png'],
    ['films/%2e%2e%2fa.png', '/home/kim/cases/juniper/films/%2e%2e%2fa.png'],
    ['films/console.png', '/home/kim/cases/juniper/films/console.png'],
    ['films/\u202egnp.a.png', '/home/kim/cases/juniper/films/\u202egnp.a.png'],
  ])('%s is in the open folder', (written, path) => {
    expect(picturePlace(written, folder, roots)).toEqual({ path, shown: 'as it is' });
  });

  it.each(['films/a.dcm', 'films/a.TIF', 'films/IM0001'])('%s is decoded before it is shown', (written) => {
    expect(picturePlace(written, folder, roots)).toMatchObject({ shown: 'decoded' });
  });

  it.each([
    ['../../../etc/secret.png', 'leads out of the folders'],
    ['films/../../../other/a.png', 'leads out of the folders'],
    ['../../../../../../../a.png', 'leads out of the folders'],
    ['../../cases-of-others/a.png', 'leads out of the folders'],
    ['..\\..\\..\\a.png', 'has a backslash'],
    ['films\\a.webp', 'has a backslash'],
    ['C:', 'a path of one computer only'],
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
    ['javascript:alert(1).png', 'Pictures are never fetched'],
    ['vscode-resource://a/b.png', 'Pictures are never fetched'],
    ['films/a\n.png', 'no path can hold'],
    ['films/a\u0085.png', 'no path can hold'],
    ['films/CON.png', 'Windows keeps for itself'],
    ['aux/a.png', 'Windows keeps for itself'],
    ['films/com1', 'Windows keeps for itself'],
    ['films/con.dcm', 'Windows keeps for itself'],
    ['films/a.png:hidden.png', 'Windows keeps for itself'],
    ['films/LPT9.old.png', 'Windows keeps for itself'],
    ['films/NUL', 'Windows keeps for itself'],
    ['.. /.. /a.png', 'Windows keeps for itself'],
    ['.../a.png', 'Windows keeps for itself'],
    ['films/a.png.', 'Windows keeps for itself'],
    ['\\\\.\\PHYSICALDRIVE0', 'Pictures are never fetched'],
    [`${'a/'.repeat(3000)}a.png`, 'longer than any path'],
  ])('%s is refused in words', (written, words) => {
    expect(said(written)).toContain(words);
  });

  it('tells a name that could deceive as what can be seen of it, and shortly', () => {
    expect(said('https://a/\u202e<b>\n.png')).toMatch(
      /^https:\/\/a\/\ufffd<b>\ufffd\.png is not a file|no path can hold/,
    );
    expect(said(`/${'a'.repeat(3000)}.png`).length).toBeLessThan(260);
  });

  it('shows nothing where no folder is allowed', () => {
    expect('refused' in picturePlace('a.png', folder, [])).toBe(true);
  });

  it('never leaves the roots, whatever is written', () => {
    const part = fc.constantFrom('..', '.', '', 'a', 'cases', '...', '%2e%2e', '.. ', '..\\');
    fc.assert(
      fc.property(fc.array(part, { maxLength: 12 }), (parts) => {
        const answer = picturePlace(`${parts.join('/')}/a.png`, folder, roots);
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
    ['/home/kim/cases/juniper/con.png', null],
    ['/home/kim/cases/juniper/notes.txt', null],
    // Written, the blank would be taken for none of the name.
    ['/home/kim/cases/juniper/ a.png', null],
  ])('%s is %s', (picture, path) => {
    expect(pathFrom(folder, picture, roots)).toBe(path);
    if (path !== null) expect(picturePlace(path, folder, roots)).toMatchObject({ path: picture });
  });
});

describe('the folders that pictures may be in', () => {
  it.each([
    ['/clinic/cases', ['/clinic'], ['/clinic']],
    ['/clinic/cases', ['/clinic/cases/'], ['/clinic/cases/']],
    ['/clinic/cases', ['/clinic/cases', '/films'], ['/clinic/cases', '/films']],
    // A case that came in from elsewhere does not reach into what happens to be open.
    ['/downloads', ['/clinic'], ['/downloads']],
    ['/clinic-of-others', ['/clinic'], ['/clinic-of-others']],
    ['/downloads', [], ['/downloads']],
    ['/anywhere', ['/'], ['/']],
  ])('of a case in %s with %j open: %j', (own, open, expected) => {
    expect(pictureRoots(own, open)).toEqual(expected);
  });
});

describe('the same by URIs', () => {
  const caseFile = 'file:///clinic/cases%20%26/a.hoof';

  it('cases beside films in one folder that is open', () => {
    expect(pictureUri('../films/ä 50%.png', caseFile, ['file:///clinic'])).toEqual({
      uri: 'file:///clinic/films/%C3%A4%2050%25.png',
      roots: ['file:///clinic'],
    });
    expect(pictureUri('../films/a.png', caseFile, [])).toEqual({ refused: 'outside' });
  });

  it('the folder stays as the client writes it', () => {
    const place = pictureUri('x.dcm', 'file:///c%3A/Horses%20(ours)/a.hoof', ['file:///C:/Horses%20%28ours%29']);
    expect(place).toEqual({
      uri: 'file:///c%3A/Horses%20(ours)/x.dcm',
      roots: ['file:///C:/Horses%20%28ours%29'],
    });
  });

  it.each([
    'untitled:Untitled-1',
    'untitled:/cases/a.hoof',
    'nonsense',
    '',
    'file:///a%2fb/c.hoof',
    'file:///a/%/c.hoof',
    'file:///a/../c.hoof',
  ])('a text at %j has no picture', (uri) => {
    expect(pictureUri('a.png', uri, ['file:///', 'untitled:///'])).toEqual({ refused: 'unsaved case' });
  });

  it('a file system without an authority, as editors write it', () => {
    expect(pictureUri('../films/a.png', 'memfs:/clinic/cases/a.hoof', ['memfs:/clinic'])).toEqual({
      uri: 'memfs:/clinic/films/a.png',
      roots: ['memfs:/clinic'],
    });
    expect(pictureUri('a.png', 'memfs:/a.hoof', [])).toEqual({ uri: 'memfs:/a.png', roots: ['memfs:/'] });
  });

  it('a folder on another file system is none of its folders', () => {
    expect(pictureUri('../a.png', 'vscode-vfs://x/cases/a.hoof', ['file:///', 'vscode-vfs://y/'])).toEqual({
      refused: 'outside',
    });
  });
});
