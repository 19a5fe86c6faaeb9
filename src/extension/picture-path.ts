import { decodedFirst, shownAsTheyAre } from '../../shared/picture/file-endings.ts';
import { toldName } from './told-name.ts';
import { t } from './words.ts';

/** Where a film's picture is, or why it is not shown, in words. Pure: paths have forward slashes, as in a URI. */
export type PicturePath =
  { readonly path: string; readonly shown: 'as it is' | 'decoded' } | { readonly refused: string };

/**
 * `written` is as the film has it, `folder` is the case file's, and `roots` are the folders that a picture may be in.
 * A case file may come from anybody, so it names nothing outside them and nothing on a network.
 */
export function picturePath(written: string, folder: string, roots: readonly string[]): PicturePath {
  const plain = written.trim().replaceAll('\\', '/');
  const name = toldName(written);
  if (plain === '') return { refused: t('This film names no picture.') };
  if (plain.length > LONGEST)
    return { refused: t('{0} is longer than any path can be. Write the path from the case file’s folder.', name) };
  // oxlint-disable-next-line no-control-regex
  if (/[\u0000-\u001f]/.test(plain))
    return {
      refused: t(
        'The path of this film’s picture holds a character that no path can hold. Write it anew, on one line.',
      ),
    };
  if (/^[a-z]:\//i.test(plain) || (plain.startsWith('/') && !plain.startsWith('//')))
    return {
      refused: t(
        '{0} is a path of one computer only. Write the path from the case file’s folder, such as films/name.png.',
        name,
      ),
    };
  if (/^[a-z][a-z0-9+.-]*:/i.test(plain) || plain.startsWith('//'))
    return {
      refused: t(
        '{0} is not a file of this folder. Pictures are never fetched: put a copy beside the case file, and write its path.',
        name,
      ),
    };
  if (plain.split('/').some(isNoFileOfWindows))
    return { refused: t('{0} is a name that Windows keeps for itself. Give the picture another name.', name) };
  const path = joined(folder, plain);
  if (path === null || !roots.some((root) => isInside(path, root)))
    return {
      refused: t('{0} leads out of the open folder. Put a copy of the picture inside it, and write that path.', name),
    };
  const kind = /\.([^./]+)$/.exec(path)?.[1]?.toLowerCase() ?? '';
  if (decodedFirst.includes(kind)) return { path, shown: 'decoded' };
  if (!shownAsTheyAre.includes(kind))
    return {
      refused: t(
        '{0} is not a kind of picture that can be shown here. Save it as png, jpg or DICOM beside the case file.',
        name,
      ),
    };
  return { path, shown: 'as it is' };
}

/** UTF-16 units; what Linux takes at most, and more than Windows and macOS do. */
const LONGEST = 4096;

/**
 * Windows opens a device where a file is called so, whatever its ending, and overlooks blanks and points at the end of a name, by
 * which `.. ` would climb. A case goes from one computer to another, so both are refused everywhere.
 */
function isNoFileOfWindows(part: string): boolean {
  if (part === '' || part === '.' || part === '..') return false;
  return /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(?:[. ]|$)/i.test(part) || /[. ]$/.test(part);
}

/** Null where it climbs above the top. */
function joined(folder: string, path: string): string | null {
  const parts = folder.split('/').filter((part) => part !== '');
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return null;
  }
  return `/${parts.join('/')}`;
}

export function isInside(path: string, root: string): boolean {
  return path.startsWith(root.endsWith('/') ? root : `${root}/`);
}

/** The path of a picture as a film writes it, from the case file's folder; null where it lies in none of the roots, or the notation cannot write it. */
export function pathFrom(folder: string, picture: string, roots: readonly string[]): string | null {
  if (picture.includes('\\') || !roots.some((root) => isInside(picture, root))) return null;
  const from = folder.split('/').filter((step) => step !== '');
  const to = picture.split('/').filter((step) => step !== '');
  let shared = 0;
  while (shared < from.length && shared < to.length - 1 && from[shared] === to[shared]) shared += 1;
  return [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
}
