import {
  chmodSync,
  chownSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { format } from '../../shared/notation/format.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { asRoot, nobody, Program } from './command-line-program.ts';
import { caseText, filmText } from './plain-foot.ts';

/** What happens on the disk while a file is being laid out: another program is at work. */
let meanwhile = (): void => {};

vi.mock('../../shared/notation/format.ts', async (original) => {
  const real = await original<typeof import('../../shared/notation/format.ts')>();
  return {
    ...real,
    format: (text: string): string => {
      meanwhile();
      return real.format(text);
    },
  };
});

let folder = '';
let program: Program;
const at = (...names: string[]): string => join(folder, ...names);
const loose = 'hoof 1\ncase "X"\nbreed   "cob"\n';
const laidOut = 'hoof 1\n\ncase "X"\n  breed     "cob"\n';
const text = (name: string): string => readFileSync(at(name), 'utf8');
const modeOf = (name: string): string => (statSync(at(name)).mode & 0o7777).toString(8);
const unfinished = (): string[] => readdirSync(folder).filter((name) => name.endsWith('.part'));

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

beforeAll(async () => {
  program = await Program.build();
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-saving-'));
  meanwhile = () => {};
  return () => rmSync(folder, { recursive: true, force: true });
});
afterAll(() => program.remove());

it('lays out as this file expects', () => expect(format(loose)).toBe(laidOut));

describe('what a file is stays', () => {
  it('its mode', async () => {
    writeFileSync(at('a.hoof'), loose);
    chmodSync(at('a.hoof'), 0o640);
    expect((await run('format', '--write', at('a.hoof'))).status).toBe(0);
    expect([modeOf('a.hoof'), text('a.hoof')]).toEqual(['640', laidOut]);
  });

  it('the mode of a page', async () => {
    writeFileSync(at('a.hoof'), loose);
    writeFileSync(at('page.html'), 'old');
    chmodSync(at('page.html'), 0o600);
    expect((await run('report', at('a.hoof'), '-o', at('page.html'))).status).toBe(0);
    expect(text('page.html')).toMatch(/^<!doctype html>/i);
    expect(modeOf('page.html')).toBe('600');
  });

  it('its owner', async (context) => {
    if (!asRoot) context.skip('not run: only the superuser can give a file to another user');
    writeFileSync(at('a.hoof'), loose);
    chownSync(at('a.hoof'), nobody, nobody);
    expect((await run('format', '--write', at('a.hoof'))).status).toBe(0);
    expect(text('a.hoof')).toBe(laidOut);
    expect(statSync(at('a.hoof'))).toMatchObject({ uid: nobody, gid: nobody });
  });

  it('a link to it: the file behind is written', async () => {
    mkdirSync(at('real'));
    writeFileSync(at('real', 'a.hoof'), loose);
    symlinkSync(join('real', 'a.hoof'), at('link.hoof'));
    expect(await run('format', '--write', at('link.hoof'))).toMatchObject({ status: 0, out: `${at('link.hoof')}\n` });
    expect(readlinkSync(at('link.hoof'))).toBe(join('real', 'a.hoof'));
    expect(text('real/a.hoof')).toBe(laidOut);
  });

  it('its second name: what would part the two is refused', async () => {
    writeFileSync(at('a.hoof'), loose);
    linkSync(at('a.hoof'), at('b.hoof'));
    const { status, out, err } = await run('format', '--write', at('a.hoof'));
    expect([status, out]).toEqual([2, '']);
    expect(err).toEqual([expect.stringContaining('has 2 names (hard links)')]);
    expect([text('a.hoof'), statSync(at('b.hoof')).nlink]).toEqual([loose, 2]);
  });

  it('a read-only file is left alone, the next one is not', async () => {
    writeFileSync(at('a.hoof'), loose);
    chmodSync(at('a.hoof'), 0o444);
    writeFileSync(at('b.hoof'), loose);
    const { status, out, err } = await run('format', '--write', at('a.hoof'), at('b.hoof'));
    expect([status, out]).toEqual([2, `${at('b.hoof')}\n`]);
    expect(err).toEqual([`${at('a.hoof')}: is read-only, so it was left as it is`]);
    expect([text('a.hoof'), text('b.hoof')]).toEqual([loose, laidOut]);
  });
});

describe('nothing that others wrote is lost', () => {
  it('a file changed after it was read is left as it is by then', async () => {
    writeFileSync(at('a.hoof'), loose);
    const theirs = `${loose}# written meanwhile\n`;
    meanwhile = () => writeFileSync(at('a.hoof'), theirs);
    const { status, out, err } = await run('format', '--write', at('a.hoof'));
    expect([text('a.hoof'), status, out]).toEqual([theirs, 2, '']);
    expect(err).toEqual([expect.stringContaining('was changed by another program meanwhile')]);
    expect(unfinished()).toEqual([]);
  });

  it('a file is read when the one before it is done, and not earlier', async () => {
    writeFileSync(at('a.hoof'), loose);
    writeFileSync(at('b.hoof'), loose);
    meanwhile = () => {
      meanwhile = () => {};
      writeFileSync(at('b.hoof'), loose.replace('cob', 'fell'));
    };
    expect((await run('format', '--write', at('a.hoof'), at('b.hoof'))).status).toBe(0);
    expect(text('b.hoof')).toBe(laidOut.replace('cob', 'fell'));
  });

  it('the page stays where no case could be read', async () => {
    writeFileSync(at('good.html'), 'good');
    const { status, out, err } = await run('report', at('typo.hoof'), '-o', at('good.html'));
    expect([status, out, text('good.html')]).toEqual([2, '', 'good']);
    expect(err).toEqual([`${at('typo.hoof')}: no such file or folder`]);
  });

  it('a case is never replaced by its own page', async () => {
    writeFileSync(at('case.html'), loose);
    symlinkSync('case.html', at('page.html'));
    const { status, err } = await run('report', at('case.html'), '-o', at('page.html'));
    expect([status, text('case.html')]).toEqual([2, loose]);
    expect(err).toEqual([`${at('page.html')}: is one of the cases; name another file for the page`]);
  });

  it('a page goes through no link into what is no page', async () => {
    writeFileSync(at('a.hoof'), loose);
    writeFileSync(at('film.png'), 'film');
    symlinkSync('film.png', at('page.html'));
    const { status, err } = await run('report', at('a.hoof'), '-o', at('page.html'));
    expect([status, text('film.png')]).toEqual([2, 'film']);
    expect(err).toEqual([expect.stringContaining('which is no .html page')]);
    symlinkSync('page.html', at('page.pdf'));
    const pdf = await run('report', at('a.hoof'), '--for', 'owner', '-o', at('page.pdf'));
    expect([pdf.status, text('film.png')]).toEqual([2, 'film']);
    expect(pdf.err).toEqual([expect.stringContaining('which is no .pdf file')]);
  });
});

describe('the name until it is whole', () => {
  it('cannot be guessed: a link laid in its way is not followed', async () => {
    writeFileSync(at('secret'), 'secret');
    writeFileSync(at('a.hoof'), loose);
    symlinkSync('secret', at(`.a.hoof.${process.pid}.part`));
    await run('format', '--write', at('a.hoof'));
    expect([text('secret'), text('a.hoof')]).toEqual(['secret', laidOut]);
  });

  it('is not taken where something has it, even if it was guessed', () => {
    writeFileSync(at('secret'), 'secret');
    writeFileSync(at('a.hoof'), loose);
    const guessed = `.ungula-${'0'.repeat(32)}.part`;
    symlinkSync('secret', at(guessed));
    const known = `import crypto from 'node:crypto'; import { syncBuiltinESMExports } from 'node:module';
      crypto.randomBytes = (n) => Buffer.alloc(n); syncBuiltinESMExports();`;
    const { status } = spawnSync(process.execPath, program.argv(['format', '--write', at('a.hoof')], known));
    expect([status, text('secret'), text('a.hoof')]).toEqual([2, 'secret', loose]);
    expect(readlinkSync(at(guessed))).toBe('secret');
  });

  it.each(['SIGINT', 'SIGTERM', 'SIGHUP'] as const)('goes when %s ends the program', async (signal) => {
    writeFileSync(at('a.hoof'), loose);
    // Writing takes as long as it likes just before the file would be in its place.
    const slow = `import fs from 'node:fs/promises'; import { syncBuiltinESMExports } from 'node:module';
      fs.rename = () => new Promise((done) => setTimeout(done, 60_000)); syncBuiltinESMExports();`;
    const child = spawn(process.execPath, program.argv(['format', '--write', at('a.hoof')], slow), { stdio: 'ignore' });
    const ended = once(child, 'exit');
    for (let tries = 0; unfinished().length === 0 && tries < 400; tries++) await pause(50);
    expect(unfinished()).toHaveLength(1);
    // The rest of writing it takes a moment; it may be ended in any of them.
    await pause(100);
    child.kill(signal);
    expect(await ended).toEqual([null, signal]);
    expect(unfinished()).toEqual([]);
    expect(text('a.hoof')).toBe(loose);
  });

  it('goes the next time where the program was killed: ours, in this folder, old', async () => {
    writeFileSync(at('a.hoof'), loose);
    mkdirSync(at('below'));
    const name = (digit: string): string => `.ungula-${digit.repeat(32)}.part`;
    const before = new Date(Date.now() - 2 * 3_600_000);
    const left = [name('a'), name('b'), '.ungula-abc.part', 'mine.part', join('below', name('c'))];
    for (const one of left) {
      writeFileSync(at(one), 'x');
      if (one !== name('b')) utimesSync(at(one), before, before);
    }
    symlinkSync('mine.part', at(name('d')));
    expect((await run('format', '--write', at('a.hoof'))).status).toBe(0);
    expect(left.filter((one) => !existsSync(at(one)))).toEqual([name('a')]);
    expect(lstatSync(at(name('d'))).isSymbolicLink()).toBe(true);
  });
});

describe('what cannot be written is said in a line, with status 2, and the others are done', () => {
  const big = (): string => `hoof 1\ncase   "big"\n${'# a remark that takes its room\n'.repeat(3000)}`;

  it('a file larger than may be', () => {
    writeFileSync(at('a.hoof'), big());
    writeFileSync(at('b.hoof'), loose);
    const { status, out, err } = program.shell(`ulimit -f 8; ungula format --write ${at('a.hoof')} ${at('b.hoof')}`);
    expect([status, out]).toEqual([2, `${at('b.hoof')}\n`]);
    expect(err).toEqual([`ungula: ${at('a.hoof')}: larger than a file may be here`]);
    expect([text('a.hoof'), text('b.hoof'), unfinished()]).toEqual([big(), laidOut, []]);
  });

  it('a full disk', (context) => {
    const disk = at('disk');
    mkdirSync(disk);
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=160k', 'none', disk]).status === 0;
    if (!mounted) context.skip('not run: a small disk cannot be mounted here');
    try {
      writeFileSync(join(disk, 'a.hoof'), big());
      writeFileSync(join(disk, 'b.hoof'), loose);
      const { status, out, err } = program.shell(`ungula format --write ${disk}/a.hoof ${disk}/b.hoof`);
      expect([status, out]).toEqual([2, `${disk}/b.hoof\n`]);
      expect(err).toEqual([`ungula: ${disk}/a.hoof: the disk is full`]);
      expect(readFileSync(join(disk, 'a.hoof'), 'utf8')).toBe(big());
      expect(readdirSync(disk).sort()).toEqual(['a.hoof', 'b.hoof']);
    } finally {
      spawnSync('umount', [disk]);
    }
  });

  it('a full disk, where the folder that was made for a page goes again, and no other', (context) => {
    const disk = at('disk');
    mkdirSync(disk);
    const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=16k', 'none', disk]).status === 0;
    if (!mounted) context.skip('not run: a small disk cannot be mounted here');
    try {
      writeFileSync(at('a.hoof'), caseText(filmText()));
      mkdirSync(join(disk, 'there'));
      for (const folders of [['new'], ['new', 'er'], ['there'], ['there', 'new']]) {
        const page = join(disk, ...folders, 'page.html');
        const { status, err } = program.shell(`ungula report ${at('a.hoof')} -o ${page}`);
        expect([status, err]).toEqual([2, [`ungula: ${page}: the disk is full`]]);
        expect([readdirSync(disk), readdirSync(join(disk, 'there'))]).toEqual([['there'], []]);
      }
    } finally {
      spawnSync('umount', [disk]);
    }
  });

  it('a folder that may not be written in', () => {
    chmodSync(folder, 0o755);
    for (const name of ['shut', 'open']) {
      mkdirSync(at(name));
      writeFileSync(at(name, 'a.hoof'), loose);
      if (asRoot) chownSync(at(name, 'a.hoof'), nobody, nobody);
    }
    if (asRoot) chownSync(at('open'), nobody, nobody);
    chmodSync(at('shut'), 0o555);
    const shut = at('shut', 'a.hoof');
    const { status, out, err } = program.runAsNobody('format', '--write', shut, at('open', 'a.hoof'));
    chmodSync(at('shut'), 0o755);
    expect([status, out]).toEqual([2, `${at('open', 'a.hoof')}\n`]);
    expect(err).toEqual([`ungula: ${shut}: may not be written`]);
    expect(readFileSync(shut, 'utf8')).toBe(loose);
  });

  it('a file of somebody else, whose it would no longer be', (context) => {
    if (!asRoot) context.skip('not run: only the superuser can give a file to another user');
    chmodSync(folder, 0o777);
    writeFileSync(at('a.hoof'), loose);
    chmodSync(at('a.hoof'), 0o666);
    const { status, err } = program.runAsNobody('format', '--write', at('a.hoof'));
    expect(err).toEqual([expect.stringContaining('belongs to another user or group')]);
    expect([status, text('a.hoof'), statSync(at('a.hoof')).uid, unfinished()]).toEqual([2, loose, 0, []]);
  });

  it.each<[string, string[], string]>([
    ['a folder in the way', ['folder.html'], 'is a folder'],
    ['a file where the folder would be', ['a.hoof', 'page.html'], 'a part of this path is not a folder'],
    ['a name too long', [`${'n'.repeat(300)}.html`], 'the name is too long'],
    ['a link to nothing', ['nothing.html'], 'is a link to a file that is not there'],
    ['a link in a circle', ['circle.html'], 'its links lead in a circle'],
    ['a pipe', ['pipe.html'], 'is not a plain file, so nothing is written to it'],
  ])('%s', async (_, names, words) => {
    writeFileSync(at('a.hoof'), caseText(filmText()));
    mkdirSync(at('folder.html'));
    symlinkSync('gone.html', at('nothing.html'));
    symlinkSync('circle.html', at('circle.html'));
    spawnSync('mkfifo', [at('pipe.html')]);
    const before = readdirSync(folder);
    const page = at(...names);
    expect(await run('report', at('a.hoof'), '-o', page)).toEqual({ status: 2, out: '', err: [`${page}: ${words}`] });
    expect(readdirSync(folder)).toEqual(before);
  });

  it('makes the folder of a page that is not there yet', async () => {
    writeFileSync(at('a.hoof'), loose);
    expect((await run('report', at('a.hoof'), '-o', at('out', 'of', 'page.html'))).status).toBe(0);
    expect(readdirSync(at('out', 'of'))).toEqual(['page.html']);
  });
});
