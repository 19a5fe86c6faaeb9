import { constants } from 'node:fs';
import { lstat, open, realpath, type FileHandle } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';
import type { FileRefusal, Looked, OpenPicture } from '../shared/picture/picture-files.ts';

/**
 * Opens a plain file under Node for as long as `use` runs. Links are followed first, and the file that is at their end must lie
 * in one of `roots`. A pipe or a device is never opened, and should a pipe come in between, opening it does not wait for a
 * writer. What is read is the file that was judged: it is compared once it is open. What `use` throws is passed on.
 * @param path and `roots` absolute paths. @param largest bytes.
 */
export async function usePlainFile<T>(
  path: string,
  roots: readonly string[],
  largest: number,
  use: (file: OpenPicture) => Promise<T>,
): Promise<Looked<T>> {
  const opened = await opening(path, roots, largest).catch((error: unknown) => refusalOf(error));
  if (typeof opened === 'string') return { refused: opened };
  const { handle, size, mtimeMs } = opened;
  try {
    const read = (start: number, length: number): Promise<Uint8Array> => piece(handle, size, start, length);
    return { found: await use({ size, stamp: `${mtimeMs} ${size}`, read }) };
  } finally {
    await handle.close();
  }
}

interface Opened {
  readonly handle: FileHandle;
  readonly size: number;
  readonly mtimeMs: number;
}

/** What this system has of these; Windows has none, and keeps pipes and devices under names that the policy refuses. */
const { O_RDONLY, O_NONBLOCK = 0, O_NOFOLLOW = 0 } = constants;

async function opening(path: string, roots: readonly string[], largest: number): Promise<Opened | FileRefusal> {
  const place = await realpath(path);
  if (!(await liesIn(place, roots))) return 'leads out';
  const judged = await lstat(place);
  if (judged.isDirectory()) return 'a folder';
  if (!judged.isFile()) return 'not plain';
  if (judged.size > largest) return 'too large';
  const handle = await open(place, O_RDONLY | O_NONBLOCK | O_NOFOLLOW);
  try {
    const { dev, ino, size, mtimeMs } = await handle.stat();
    if (dev === judged.dev && ino === judged.ino && size <= largest) return { handle, size, mtimeMs };
    await handle.close();
    // It was changed for another in between: who looks again sees what is there now.
    return 'not there';
  } catch (error) {
    await handle.close();
    throw error;
  }
}

/** Whether a place without links is one of the roots or lies in one; the roots' own links are followed. */
export async function liesIn(place: string, roots: readonly string[]): Promise<boolean> {
  for (const root of roots) {
    const from = await realpath(root).then(
      (real) => relative(real, place),
      () => null,
    );
    if (from !== null && from !== '..' && !from.startsWith(`..${sep}`) && !isAbsolute(from)) return true;
  }
  return false;
}

async function piece(handle: FileHandle, size: number, start: number, length: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(Math.max(0, Math.min(length, size - start)));
  let filled = 0;
  while (filled < bytes.length) {
    const { bytesRead } = await handle.read(bytes, filled, bytes.length - filled, start + filled);
    // The file has become shorter since.
    if (bytesRead === 0) return bytes.subarray(0, filled);
    filled += bytesRead;
  }
  return bytes;
}

function refusalOf(error: unknown): FileRefusal {
  const { code } = error as NodeJS.ErrnoException;
  return code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG' || code === 'ELOOP'
    ? 'not there'
    : 'unreadable';
}
