import { atMost } from '../../shared/picture/at-most.ts';
import {
  largestPicture,
  mostOpen,
  type FileRefusal,
  type OpenPicture,
  type UsePicture,
} from '../../shared/picture/picture-files.ts';
import { isInside, isSameOrInside } from '../../shared/picture/picture-place.ts';

/** What is used of an address of the editor's: paths have forward slashes and are not encoded. */
export interface Address {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
}

export interface Movable<A> extends Address {
  with(change: { readonly path: string }): A;
}

/** What is used of the editor's file systems. */
export interface FileSystem<A> {
  stat(uri: A): PromiseLike<{ readonly type: number; readonly size: number; readonly mtime: number }>;
  readFile(uri: A): PromiseLike<Uint8Array>;
}

/** As the editor counts them; a link has the kind of what it leads to beside its own. */
const FILE = 1;
const FOLDER = 2;
const LINK = 64;

/**
 * The reader of pictures through the editor's file systems. They do not tell where a link leads and give a file as a whole only:
 * so no link is followed, and the whole is read when the first piece is asked for, once its size is known.
 */
export function editorFiles<A extends Movable<A>>(fs: FileSystem<A>): UsePicture<A> {
  const inTurn = atMost(mostOpen);
  return (uri, roots, use) =>
    inTurn(async () => {
      const opened = await opening(fs, uri, roots).catch((error: unknown) => refusalOf(error));
      return typeof opened === 'string' ? { refused: opened } : { found: await use(opened) };
    });
}

async function opening<A extends Movable<A>>(
  fs: FileSystem<A>,
  uri: A,
  roots: readonly A[],
): Promise<OpenPicture | FileRefusal> {
  if (!(await isPlainWay(fs, uri, roots))) return 'leads out';
  const { type, size, mtime } = await fs.stat(uri);
  if (type & FOLDER) return 'a folder';
  if (type !== FILE) return 'not plain';
  if (size > largestPicture) return 'too large';
  let whole: PromiseLike<Uint8Array> | undefined;
  return {
    size,
    stamp: `${mtime} ${size}`,
    async read(start, length) {
      whole ??= fs.readFile(uri);
      return (await whole).subarray(start, start + length);
    },
  };
}

/** Whether one of the roots holds a file or folder, and no step from there to it is a link. */
export async function isPlainWay<A extends Movable<A>>(
  fs: Pick<FileSystem<A>, 'stat'>,
  uri: A,
  roots: readonly A[],
): Promise<boolean> {
  const root = roots.find((one) => isAlike(one, uri) && isSameOrInside(uri.path, one.path));
  if (!root || !isInside(uri.path, root.path)) return root !== undefined;
  const steps = uri.path
    .slice(root.path.length)
    .split('/')
    .filter((step) => step !== '');
  let at = root.path.replace(/\/$/, '');
  for (const name of steps) {
    at += `/${name}`;
    // A file system may know files alone, and no folders: then there are no links either.
    const step = await Promise.resolve(fs.stat(uri.with({ path: at }))).catch(() => null);
    if (step && step.type & LINK) return false;
  }
  return true;
}

export function isAlike(a: Address, b: Address): boolean {
  return a.scheme === b.scheme && a.authority === b.authority;
}

function refusalOf(error: unknown): FileRefusal {
  const { code } = (error ?? {}) as { code?: unknown };
  return code === 'NoPermissions' || code === 'Unavailable' ? 'unreadable' : 'not there';
}
