import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { StoredScales } from '../../shared/trim/study.ts';
import type { Io } from './command.ts';

export interface CaseFile {
  /** As it is shown: the path as given, or `-` for standard input. */
  readonly name: string;
  readonly text: string;
  /** What its pictures say of their scale, once `withScales` has read them. */
  readonly scales?: StoredScales;
}

export interface CaseFiles {
  readonly files: readonly CaseFile[];
  /** Whether something that was asked for could not be read; it has been said. */
  readonly unreadable: boolean;
}

/** Every case file that the arguments name, in the order of the arguments and, in folders, of the names. */
export async function readCaseFiles(names: readonly string[], io: Io): Promise<CaseFiles> {
  const files: CaseFile[] = [];
  let unreadable = false;
  for (const name of names) {
    try {
      for (const path of await caseFilesAt(name)) {
        try {
          files.push({ name: path, text: decode(path === '-' ? await standardInput() : await readFile(path)) });
        } catch (error) {
          unreadable = true;
          io.err(`${path}: ${reason(error)}`);
        }
      }
    } catch (error) {
      unreadable = true;
      io.err(`${name}: ${reason(error)}`);
    }
  }
  return { files, unreadable };
}

async function caseFilesAt(name: string): Promise<string[]> {
  if (name === '-') return [name];
  if (!(await stat(name)).isDirectory()) return [name];
  const below = await readdir(name, { recursive: true, withFileTypes: true });
  const found = below
    .filter(
      (entry) =>
        entry.isFile() &&
        entry.name.endsWith('.hoof') &&
        !/(?:^|[\\/])(?:node_modules|\.[^\\/.]+)(?:[\\/]|$)/.test(entry.parentPath.slice(name.length)),
    )
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  if (found.length === 0) throw new Error('no .hoof file is in this folder or below it');
  return found;
}

async function standardInput(): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks);
}

export function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Error('not UTF-8 text; save it as UTF-8');
  }
}

export function reason(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'no such file or folder';
  if (code === 'EACCES' || code === 'EPERM') return 'may not be read';
  return (error as Error).message;
}
