import { t } from '../../shared/language/words.ts';
import { randomBytes } from 'node:crypto';
import { constants, unlinkSync, type Stats } from 'node:fs';
import {
  access,
  lstat,
  mkdir,
  open,
  readdir,
  readFile,
  realpath,
  rename,
  rm,
  rmdir,
  stat,
  type FileHandle,
} from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { CommandProblem, reason } from './problem.ts';
import { whenEnded } from './when-ended.ts';

/** What is being written has a name of this form until it is whole; nobody can guess it. */
const unfinished = /^\.ungula-[0-9a-f]{32}\.part$/;
const nameOfUnfinished = (): string => `.ungula-${randomBytes(16).toString('hex')}.part`;

/** Milliseconds after which nobody is still writing a file of that name: it was left by a program that was killed. */
const leftBehind = 3_600_000;

/**
 * Writes a text, or bytes, beside the file and then puts it in the file's place, so that no reader and no crash ever sees half of it.
 * Links are followed and stay, mode and owner are kept, a folder that is not there is made. What cannot be kept so, or is not
 * to be written (read-only, hard links, no plain file), is refused. The libraries for this open a name that can be guessed and
 * follow links with it, write what is read-only, or do not compare.
 *
 * @param expected the text that the file had when it was read. If it holds another by now, nothing is written.
 * @throws Problem, and then the file is as it was.
 */
export async function saveFile(path: string, content: string | Uint8Array, expected?: string): Promise<void> {
  try {
    const target = await targetOf(path);
    try {
      await sweep(dirname(target.path));
      await replace(target, content, expected);
    } catch (error) {
      await withoutFolders(target);
      throw error;
    }
  } catch (error) {
    throw new CommandProblem(reason(error, 'write'));
  }
}

interface Target {
  /** Behind every link. */
  readonly path: string;
  /** Null where there is no file yet. */
  readonly is: Stats | null;
  /** The outermost folder that was made for it; null where they were all there. */
  readonly made: string | null;
}

/** Takes away the folders that were made for a file that could not be written, where nobody has put anything into them since. */
async function withoutFolders({ path, made }: Target): Promise<void> {
  if (made === null) return;
  try {
    const top = await realpath(made);
    let folder = dirname(path);
    await rmdir(folder);
    while (folder !== top) await rmdir((folder = dirname(folder)));
  } catch {
    // Not empty, or gone.
  }
}

async function targetOf(path: string): Promise<Target> {
  const real = await orNull(realpath(path));
  if (real !== null) {
    const is = await stat(real);
    await mayBeReplaced(real, is);
    return { path: real, is, made: null };
  }
  if (await orNull(lstat(path))) throw new CommandProblem(t('is a link to a file that is not there'));
  const made = (await mkdir(dirname(path), { recursive: true })) ?? null;
  return { path: join(await realpath(dirname(path)), basename(path)), is: null, made };
}

async function orNull<T>(found: Promise<T>): Promise<T | null> {
  try {
    return await found;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

async function mayBeReplaced(path: string, is: Stats): Promise<void> {
  if (is.isDirectory()) throw new CommandProblem(t('is a folder'));
  if (!is.isFile()) throw new CommandProblem(t('is not a plain file, so nothing is written to it'));
  // The superuser may write what is read-only; whoever made it so did not want it written.
  if ((is.mode & 0o222) === 0) throw new CommandProblem(t('is read-only, so it was left as it is'));
  await access(path, constants.W_OK);
  if (is.nlink > 1)
    throw new CommandProblem(
      t(
        'has {0} names (hard links), and saving would part them; it was left as it is. Make it a file of its own first',
        is.nlink,
      ),
    );
}

async function replace(
  { path, is }: Pick<Target, 'path' | 'is'>,
  content: string | Uint8Array,
  expected: string | undefined,
): Promise<void> {
  const beside = join(dirname(path), nameOfUnfinished());
  // `wx` makes the file and follows no link. Nobody else reads it before it has the file's own mode.
  const file = await open(beside, 'wx', is ? 0o600 : 0o666);
  // Where a signal ends the program there is time for this one call only.
  const forget = whenEnded(() => {
    try {
      unlinkSync(beside);
    } catch {
      // In its place already.
    }
  });
  try {
    try {
      await file.writeFile(content);
      if (is) await keepOwnerAndMode(file, is);
      await file.sync();
    } finally {
      await file.close();
    }
    if (expected !== undefined && !(await readFile(path)).equals(Buffer.from(expected)))
      throw new CommandProblem(t('was changed by another program meanwhile, so it was left as it is; try again'));
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  } finally {
    forget();
  }
}

async function keepOwnerAndMode(file: FileHandle, was: Stats): Promise<void> {
  const now = await file.stat();
  if (now.uid !== was.uid || now.gid !== was.gid)
    try {
      await file.chown(was.uid, was.gid);
    } catch {
      throw new CommandProblem(t('belongs to another user or group, which saving cannot keep; it was left as it is'));
    }
  const mode = was.mode & 0o7777;
  // After the owner: a change of owner takes bits away.
  if (((await file.stat()).mode & 0o7777) !== mode) await file.chmod(mode);
}

const swept = new Set<string>();

/** Removes what a killed program left in a folder: only names of ours, only files of this user, only old ones. */
async function sweep(folder: string): Promise<void> {
  if (swept.has(folder)) return;
  swept.add(folder);
  try {
    for (const name of await readdir(folder)) {
      if (!unfinished.test(name)) continue;
      const at = join(folder, name);
      const is = await lstat(at);
      const mine = process.getuid === undefined || is.uid === process.getuid();
      if (is.isFile() && mine && Date.now() - is.mtimeMs > leftBehind) await rm(at);
    }
  } catch {
    // Tidying up never keeps a file from being saved.
  }
}
