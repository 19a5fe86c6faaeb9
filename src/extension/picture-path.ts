import { decodedFirst, shownAsTheyAre } from '../../shared/picture/file-endings.ts';

/** Where a film's picture is, or why it is not shown, in words. Pure: paths have forward slashes, as in a URI. */
export type PicturePath =
  { readonly path: string; readonly shown: 'as it is' | 'decoded' } | { readonly refused: string };

/**
 * `written` is as the film has it, `folder` is the case file's, and `roots` are the folders that a picture may be in.
 * A case file may come from anybody, so it names nothing outside them and nothing on a network.
 */
export function picturePath(written: string, folder: string, roots: readonly string[]): PicturePath {
  const plain = written.trim().replaceAll('\\', '/');
  if (plain === '') return { refused: 'This film names no picture.' };
  // oxlint-disable-next-line no-control-regex
  if (/[\u0000-\u001f]/.test(plain))
    return { refused: 'The path of this film’s picture holds a character that no path can hold.' };
  if (/^[a-z]:\//i.test(plain) || (plain.startsWith('/') && !plain.startsWith('//')))
    return {
      refused: `${written} is a path of one computer only. Write the path from the case file’s folder, such as films/name.png.`,
    };
  if (/^[a-z][a-z0-9+.-]*:/i.test(plain) || plain.startsWith('//'))
    return {
      refused: `${written} is not a file of this folder. Pictures are never fetched: put a copy beside the case file, and write its path.`,
    };
  const path = joined(folder, plain);
  if (path === null || !roots.some((root) => isInside(path, root)))
    return {
      refused: `${written} leads out of the open folder. Put a copy of the picture inside it, and write that path.`,
    };
  const kind = /\.([^./]+)$/.exec(path)?.[1]?.toLowerCase() ?? '';
  if (decodedFirst.includes(kind)) return { path, shown: 'decoded' };
  if (!shownAsTheyAre.includes(kind))
    return {
      refused: `${written} is not a kind of picture that can be shown here. Save it as png, jpg or DICOM beside the case file.`,
    };
  return { path, shown: 'as it is' };
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
