import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { showableInThread } from '../../disk/decoder-thread.ts';
import { Program } from './command-line-program.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-decoder-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a picture that is decoded in a thread', () => {
  /** What begins with such a byte does so. */
  const stand = join(folder, 'stand.cjs');
  writeFileSync(
    stand,
    `const { parentPort } = require('node:worker_threads');
    parentPort.on('message', ({ id, bytes: [kind] }) => {
      const held = [];
      while (kind === 1) held.push(new Array(10_000).fill(0).map((_, at) => ({ at })));
      while (kind === 2);
      if (kind === 3) throw new Error('broken');
      if (kind === 4) process.exit(0);
      parentPort.postMessage({ id, shown: { problem: 'told' } });
    });`,
  );

  it.each([
    ['answers', 0, /^told$/, 600_000],
    ['fills the memory', 1, /more memory than any film does/, 600_000],
    ['never ends', 2, /within a minute/, 4000],
    ['throws', 3, /could not be decoded/, 600_000],
    ['ends the thread', 4, /could not be decoded/, 600_000],
  ])('and %s gives a sentence', async (_what, kind, problem, patience) => {
    const shown = await showableInThread(stand, Uint8Array.of(kind), { patience, megabytes: 32 });
    expect(shown).toEqual({ problem: expect.stringMatching(problem) as string });
  });
});

it('the command line decodes in that thread where it is built, and costs the picture only', async () => {
  const program = await Program.build();
  try {
    const at = (name: string): string => join(program.folder, name);
    writeFileSync(at('a.dcm'), pictureFile(syntaxes.explicit, { width: 4, height: 4 }, new Uint8Array(32)));
    writeFileSync(
      at('a.hoof'),
      'hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  film LF lateral "a.dcm"\n    p3.tip @ 1, 1\n',
    );
    // Stands for a decoder that a picture brings down; that memory ends the thread alone is tried above.
    writeFileSync(
      at('picture-decoder.thread.cjs'),
      `require('node:worker_threads').parentPort.on('message', () => { throw new Error('broken'); });`,
    );
    const { status, out, err } = program.shell('ungula report a.hoof -o a.html');
    expect([status, out.trim(), err]).toEqual([0, at('a.html'), []]);
    expect(readFileSync(at('a.html'), 'utf8')).toContain('could not be decoded');
  } finally {
    program.remove();
  }
});
