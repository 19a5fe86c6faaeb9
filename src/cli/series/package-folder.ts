import { randomBytes } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { mkdir, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { t } from '../../../shared/language/words.ts';
import { program } from '../../../shared/export/structured/uids.ts';
import { packageFile, reportFile } from '../../../shared/series/data-package.ts';
import { CommandProblem } from '../problem.ts';
import { whenEnded } from '../when-ended.ts';

/** The folder of what is being written until it is whole; nobody can guess it. */
export const unfinishedFolder = /^\.ungula-[0-9a-f]{32}\.part$/;
const nameOfUnfinished = (): string => `.ungula-${randomBytes(16).toString('hex')}.part`;

/**
 * Makes a folder beside the one that is meant, has it filled, and puts it in its place: no reader and no crash sees half a package.
 * @throws CommandProblem where something stands there that is not a package of ours
 */
export async function inPlaceOf<T>(folder: string, fill: (beside: string) => Promise<T>): Promise<T> {
  const target = await targetOf(folder);
  mayBeReplaced(target);
  const beside = join(dirname(target), nameOfUnfinished());
  return made(beside, async () => {
    const filled = await fill(beside);
    // Looked at again, as the export may have taken hours.
    mayBeReplaced(target);
    if (existsSync(target)) {
      const old = join(dirname(target), nameOfUnfinished());
      await rename(target, old);
      try {
        await rename(beside, target);
      } catch (error) {
        await rename(old, target);
        throw error;
      }
      await rm(old, { recursive: true, force: true });
    } else await rename(beside, target);
    return filled;
  });
}

/** A folder that is gone again where what is done in it fails, or a signal ends the program. */
export async function made<T>(folder: string, work: () => Promise<T>): Promise<T> {
  await mkdir(folder, { recursive: true });
  const forget = whenEnded(() => rmSync(folder, { recursive: true, force: true }));
  try {
    return await work();
  } finally {
    forget();
    await rm(folder, { recursive: true, force: true });
  }
}

/** Inside a package whose parts are written by several programs. */
export const besideIn = (folder: string): string => join(folder, nameOfUnfinished());

/** Behind every link. */
async function targetOf(folder: string): Promise<string> {
  try {
    return await realpath(folder);
  } catch {
    const above = dirname(resolve(folder));
    await mkdir(above, { recursive: true });
    return join(await realpath(above), basename(resolve(folder)));
  }
}

function mayBeReplaced(folder: string): void {
  if (!existsSync(folder)) return;
  let names: readonly string[];
  try {
    names = readdirSync(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR')
      throw new CommandProblem(t('is a file; name a folder for the package'));
    throw error;
  }
  if (names.length === 0) return;
  const own = filesOf(folder);
  if (own === null)
    throw new CommandProblem(t('is there already and holds no package of this program; it was left as it is'));
  const foreign = filesIn(folder).find((name) => !own.has(name));
  if (foreign !== undefined)
    throw new CommandProblem(
      t('holds {0} too, which is not of the package; it was left as it is. Name another folder', foreign),
    );
}

/** @throws CommandProblem where the folder has a `datapackage.json` that is not of ours */
export function noPackageOfOthers(folder: string): void {
  if (existsSync(join(folder, packageFile)) && filesOf(folder) === null)
    throw new CommandProblem(t('is there already and holds no package of this program; it was left as it is'));
}

/** The files that a package of ours says it has; null where it is none. */
function filesOf(folder: string): ReadonlySet<string> | null {
  try {
    const read: unknown = JSON.parse(readFileSync(join(folder, packageFile), 'utf8'));
    if (!isOwn(read)) return null;
    const shards = read.resources.flatMap(({ path }) => /\/shard=(\d+)\//.exec(path)?.[1] ?? []);
    return new Set([
      packageFile,
      reportFile,
      ...read.resources.map(({ path }) => path),
      ...shards.map((shard) => manifestPath(Number(shard))),
    ]);
  } catch {
    return null;
  }
}

interface OwnPackage {
  readonly resources: readonly { readonly path: string }[];
}

function isOwn(read: unknown): read is OwnPackage {
  const { ungula, resources } = (read ?? {}) as { ungula?: { program?: unknown }; resources?: unknown };
  return (
    ungula?.program === program.name &&
    Array.isArray(resources) &&
    resources.every((one: unknown) => typeof (one as { path?: unknown } | null)?.path === 'string')
  );
}

/** What a shard says of itself, within the package. */
export const manifestPath = (shard: number): string => `shards/shard-${shard}.json`;

/** With `/` between folders. */
export const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    );

/** Whether a path is a folder. */
export const isFolder = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => null))?.isDirectory() === true;

/** What lies in a folder; nothing where there is none. */
export const namesIn = async (folder: string): Promise<string[]> => readdir(folder).catch(() => []);
