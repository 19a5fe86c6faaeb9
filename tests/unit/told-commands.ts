import { spawnSync } from 'node:child_process';
import {
  appendFileSync,
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

/** A block of a page between fences, with what stands behind the opening one. */
export interface Fenced {
  readonly language: string;
  /** Of a `hoof` block the file that it goes to the end of. */
  readonly file: string | null;
  readonly text: string;
  /** Of the opening fence, from 1. */
  readonly line: number;
}

export function fencedBlocks(markdown: string): Fenced[] {
  return [...markdown.matchAll(/^```(\w+)(?: (\S+))?\n([\s\S]*?)^```$/gm)].map((match) => ({
    language: match[1] ?? '',
    file: match[2] ?? null,
    text: match[3] ?? '',
    line: markdown.slice(0, match.index).split('\n').length,
  }));
}

export interface ToldCommand {
  readonly command: string;
  /** What the page shows below it. */
  readonly shown: readonly string[];
}

/** What a `console` block says: each line after `$ ` is typed, and those below it are printed. */
export function commandsOf(text: string): ToldCommand[] {
  return text
    .split(/^\$ /m)
    .slice(1)
    .map((piece) => {
      const [command = '', ...shown] = piece.replace(/\n$/, '').split('\n');
      return { command, shown };
    });
}

/** Whether lines are those shown, where a line `…` stands for any number of them and `…` at the end of one for its rest. */
export function isAsShown(printed: readonly string[], shown: readonly string[]): boolean {
  const [first, ...others] = shown;
  if (first === undefined) return printed.length === 0;
  if (first === '…') return printed.some((_, at) => isAsShown(printed.slice(at + 1), others));
  const [line, ...rest] = printed;
  if (line === undefined) return false;
  const fits = first.endsWith(' …') ? line.startsWith(first.slice(0, -1)) : line === first;
  return fits && isAsShown(rest, others);
}

/**
 * Somebody who does what a page says, with `ungula` on the path, a clone in `~/ungula`, and nothing else in the home folder. What is
 * printed names that folder as `/home/you`.
 */
export class Follower {
  readonly home = mkdtempSync(join(tmpdir(), 'ungula-follower-'));
  folder = this.home;

  constructor(program: string) {
    const bin = join(this.home, '.bin');
    mkdirSync(bin);
    writeFileSync(join(bin, 'ungula'), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`);
    chmodSync(join(bin, 'ungula'), 0o755);
    symlinkSync(resolve(import.meta.dirname, '..', '..'), join(this.home, 'ungula'));
  }

  append(file: string, text: string): void {
    appendFileSync(join(this.folder, file), text);
  }

  /** The lines that it prints, on either output. */
  run(command: string): string[] {
    const end = join(this.home, '.folder');
    const { stdout } = spawnSync('bash', ['-c', `exec 2>&1\n${command}\npwd > "${end}"`], {
      cwd: this.folder,
      env: { PATH: `${join(this.home, '.bin')}:${process.env['PATH']}`, HOME: this.home, LC_ALL: 'C.UTF-8', TZ: 'UTC' },
      encoding: 'utf8',
      timeout: 600_000,
    });
    this.folder = readFileSync(end, 'utf8').trim();
    return stdout === '' ? [] : stdout.replaceAll(this.home, '/home/you').replace(/\n+$/, '').split('\n');
  }

  remove(): void {
    rmSync(this.home, { recursive: true, force: true });
  }
}
