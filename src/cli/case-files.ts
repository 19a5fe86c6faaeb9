import { t } from '../../shared/language/words.ts';
import { fstatSync } from 'node:fs';
import { open, readdir, realpath, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { tooMuchIn, largestFile, type TooMuch } from '../../shared/findings/engine/file-problems.ts';
import type { Io } from './command.ts';
import { CommandProblem, reason } from './problem.ts';

export interface CaseFile {
  /** As it is told: the path as given, or `-` for standard input. */
  readonly name: string;
  readonly text: string;
  /** Behind every link, so that two names of one file can be told; null for standard input. */
  readonly real: string | null;
}

/**
 * Reads every case file that the arguments name and works on it before the next one is read, in the order of the arguments
 * and, in folders, of the names. A file that is named twice is read once. What goes wrong with one is said in a line and costs
 * only itself.
 *
 * @returns what was said, a sentence a file; empty where all went well.
 */
export async function eachCase(
  names: readonly string[],
  io: Io,
  work: (file: CaseFile) => void | Promise<void>,
): Promise<string[]> {
  const problems: string[] = [];
  const wrong = (name: string, error: unknown): void => {
    const problem = reason(error);
    problems.push(problem);
    io.err(`${name}: ${problem}`);
  };
  const seen = new Set<string | null>();
  for (const name of names) {
    const before = problems.length;
    const paths = await caseFilesAt(name, wrong);
    if (paths.length === 0 && problems.length === before)
      wrong(name, new CommandProblem(t('no .hoof file is in this folder or below it')));
    for (const path of paths) {
      try {
        const real = path === '-' ? null : await realName(path);
        if (seen.has(real)) continue;
        seen.add(real);
        await work({ name: path, text: await readText(path), real });
      } catch (error) {
        wrong(path, error);
      }
    }
  }
  return problems;
}

/** The case files that a name stands for. Hidden files and folders, `node_modules` and links are not entered. */
async function caseFilesAt(name: string, wrong: (name: string, error: unknown) => void): Promise<string[]> {
  if (name === '-') return [name];
  try {
    if (!(await stat(name)).isDirectory()) return [name];
  } catch (error) {
    wrong(name, error);
    return [];
  }
  const found: string[] = [];
  const folders = [name];
  for (let folder = folders.pop(); folder !== undefined; folder = folders.pop()) {
    try {
      for (const entry of await readdir(folder, { withFileTypes: true })) {
        // Beside a file on a disk of another kind macOS lays one named `._` and the same, which is no text.
        if (entry.name.startsWith('.')) continue;
        const path = join(folder, entry.name);
        if (entry.isDirectory()) {
          if (entry.name !== 'node_modules') folders.push(path);
        } else if (entry.isFile() && entry.name.endsWith('.hoof')) found.push(path);
      }
    } catch (error) {
      wrong(folder, error);
    }
  }
  return found.sort();
}

async function realName(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch {
    // A pipe has no path of its own; what is not there is said when it is read.
    return resolve(path);
  }
}

/** The text of a file, or of standard input for `-`; no more of it is read than a case may have. */
export async function readText(path: string): Promise<string> {
  if (path === '-') {
    // A folder as standard input (`check - < FOLDER`) would be read as a text without a letter.
    if (fstatSync(0).isDirectory()) throw new CommandProblem(t('standard input is a folder; name it in place of -'));
    return decodedCase(await bounded(process.stdin));
  }
  const file = await open(path);
  try {
    if ((await file.stat()).size > largestFile) throw tooLarge('bytes');
    return decodedCase(await bounded(file.createReadStream({ autoClose: false })));
  } finally {
    await file.close();
  }
}

/** All bytes of a stream, which may come from a device without an end. */
async function bounded(stream: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of stream) {
    size += chunk.length;
    if (size > largestFile) throw tooLarge('bytes');
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

const tooLarge = (tooMuch: TooMuch): CommandProblem =>
  new CommandProblem(
    t(
      '{0}, so it is not read as a case; if it is one, move its older visits into a second file',
      tooMuch === 'bytes' ? t('larger than 10 MB') : t('more than 400,000 lines'),
    ),
  );

/** @throws CommandProblem where it is no text that a case may have. */
export function decodedCase(bytes: Uint8Array): string {
  const text = decoded(bytes);
  const tooMuch = tooMuchIn(text);
  if (tooMuch) throw tooLarge(tooMuch);
  return text;
}

function decoded(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new CommandProblem(t('not UTF-8 text; save it as UTF-8'));
  }
}
