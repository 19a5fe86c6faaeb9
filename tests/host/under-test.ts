import { cpSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { Failure } from './failure.ts';
import { ownFolder } from './leftovers.ts';

export const ROOT = resolve(import.meta.dirname, '..', '..');

/** What the host is given. Parameters, so that the driver can be tried on a stub extension too. */
export interface UnderTest {
  extension: string;
  examples: string;
  cli: string;
  /** The package that `extension` was unpacked from; null where it is a folder that somebody works in. */
  vsix: string | null;
}

/** The options of every program here that takes them. */
export const SUBJECT_OPTIONS = { extension: { type: 'string' }, examples: { type: 'string' } } as const;

export function underTest(named: { extension?: string | undefined; examples?: string | undefined } = {}): UnderTest {
  const extension = resolve(named.extension ?? ROOT);
  const examples = resolve(named.examples ?? join(extension, 'examples'));
  const cli = join(extension, 'dist', 'cli.js');
  for (const needed of [join(extension, 'package.json'), examples, cli]) {
    if (!existsSync(needed)) throw new Failure(`${needed} is missing`, 'run npm run build in the clone first');
  }
  return { extension, examples, cli, vsix: null };
}

export function scratchFolder(purpose: string): string {
  // Short: code-server puts a socket in here, and a socket's path may have 107 characters at most.
  const folder = mkdtempSync(join(tmpdir(), `ungula-${purpose}-`));
  ownFolder(folder);
  return folder;
}

/** A copy, so that no test and no curious person changes the examples themselves. */
export function copyOfExamples(examples: string, into: string): string {
  const copy = join(into, basename(examples));
  cpSync(examples, copy, { recursive: true });
  return copy;
}

/** The same without the lessons: of those the editor keeps back what `check` tells. */
export function copyOfCases(examples: string, into: string): string {
  const copy = copyOfExamples(examples, into);
  rmSync(join(copy, 'lessons'), { recursive: true });
  return copy;
}
