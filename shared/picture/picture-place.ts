import { decodedFirst, shownAsTheyAre } from './file-endings.ts';

/**
 * The one policy for the path that a film or a photo names. Server, command line, preview, links, completion and dropped
 * pictures all go by it, so that a case reads the same pictures everywhere. Pure: paths have forward slashes and are not
 * encoded, and nothing is looked up. Where a link leads, and whether a file is a plain one, is for who opens it
 * (`UsePicture` in picture-files.ts).
 */
export type PicturePlace =
  { readonly path: string; readonly shown: 'as it is' | 'decoded' } | { readonly refused: PathRefusal };

/** Why a path is no picture of a case, by the path alone; `refusalWords` says each in a sentence. */
export type PathRefusal =
  | 'no name'
  | 'too long'
  | 'unwritable'
  | 'absolute'
  | 'elsewhere'
  | 'backslash'
  | 'reserved name'
  | 'outside'
  | 'unknown kind'
  | 'unsaved case';

/** `written` is as the film has it, `folder` is the case file's, `roots` the folders that its pictures may be in (`pictureRoots`). */
export function picturePlace(written: string, folder: string, roots: readonly string[]): PicturePlace {
  const place = filePlace(written, folder, roots);
  if ('refused' in place) return place;
  const kind = /\.([^./]+)$/.exec(place.path)?.[1]?.toLowerCase() ?? '';
  if (decodedFirst.includes(kind)) return { ...place, shown: 'decoded' };
  return shownAsTheyAre.includes(kind) ? { ...place, shown: 'as it is' } : { refused: 'unknown kind' };
}

/** Where another case file lies that a case names: by the same policy. */
export function casePlace(written: string, folder: string, roots: readonly string[]): FilePlace {
  const place = filePlace(written, folder, roots);
  return 'refused' in place || place.path.endsWith('.hoof') ? place : { refused: 'unknown kind' };
}

export type FilePlace = { readonly path: string } | { readonly refused: PathRefusal };

function filePlace(written: string, folder: string, roots: readonly string[]): FilePlace {
  const plain = written.trim();
  const slashes = plain.replaceAll('\\', '/');
  if (plain === '') return { refused: 'no name' };
  if (plain.length > LONGEST) return { refused: 'too long' };
  // oxlint-disable-next-line no-control-regex
  if (/[\u0000-\u001f\u007f-\u009f]/.test(plain)) return { refused: 'unwritable' };
  if (/^[a-z]:(?:\/|$)/i.test(slashes) || (slashes.startsWith('/') && !slashes.startsWith('//')))
    return { refused: 'absolute' };
  if (/^[a-z][a-z0-9+.-]*:/i.test(slashes) || slashes.startsWith('//')) return { refused: 'elsewhere' };
  // One system would read another file by it than the next.
  if (plain.includes('\\')) return { refused: 'backslash' };
  if (plain.split('/').some(isNoFileOfWindows)) return { refused: 'reserved name' };
  const path = joined(folder, plain);
  return path === null || !roots.some((root) => isInside(path, root)) ? { refused: 'outside' } : { path };
}

/**
 * The folders that the pictures of a case may be in: those that are open where the case lies in one of them (on the command
 * line the one of `--root`), else the case file's own.
 */
export function pictureRoots(folder: string, open: readonly string[]): readonly string[] {
  return open.some((root) => isSameOrInside(folder, root)) ? open : [folder];
}

/** UTF-16 units; what Linux takes at most, and more than Windows and macOS do. */
const LONGEST = 4096;

/**
 * Windows opens a device where a file is called so, whatever its ending, overlooks blanks and points at the end of a name, by
 * which `.. ` would climb, and reads another part of a file behind a colon. A case goes from one computer to another, so all are
 * refused everywhere.
 */
function isNoFileOfWindows(part: string): boolean {
  if (part === '' || part === '.' || part === '..') return false;
  return (
    /^(?:con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³]|conin\$|conout\$)(?:[. ]|$)/i.test(part) ||
    /[. ]$/.test(part) ||
    part.includes(':')
  );
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

export function isSameOrInside(path: string, root: string): boolean {
  return path === root || `${path}/` === root || isInside(path, root);
}

/** The path of a picture as a film writes it, from the case file's folder; null where the policy would refuse it there. */
export function pathFrom(folder: string, picture: string, roots: readonly string[]): string | null {
  const from = folder.split('/').filter((step) => step !== '');
  const to = picture.split('/').filter((step) => step !== '');
  let shared = 0;
  while (shared < from.length && shared < to.length - 1 && from[shared] === to[shared]) shared += 1;
  const written = [...from.slice(shared).map(() => '..'), ...to.slice(shared)].join('/');
  const place = picturePlace(written, folder, roots);
  return 'path' in place && place.path === `/${to.join('/')}` ? written : null;
}
