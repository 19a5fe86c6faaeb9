import { mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';
import { HeaderThread } from '../../disk/header-thread.ts';
import { calibratedPicture } from '../protocol/case-folder.ts';

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'ungula-headers-')));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('headers in a thread of their own', () => {
  const bundle = join(folder, 'thread.cjs');
  beforeAll(async () => {
    await build({ ...outputs.headerThread, outfile: bundle } as BuildOptions);
    await build({ ...outputs.headers, outfile: join(folder, 'picture-header.cjs') } as BuildOptions);
    writeFileSync(join(folder, 'a.dcm'), calibratedPicture('0.14'));
    writeFileSync(join(folder, 'b.png'), 'no picture');
  });

  it('are told as in the one that asks', async () => {
    const thread = new HeaderThread(bundle);
    const asked = (name: string) => thread.storedScale(join(folder, name), [folder], name);
    const [stated, none, gone, outside] = await Promise.all([
      asked('a.dcm'),
      asked('b.png'),
      asked('gone.dcm'),
      thread.storedScale('/dev/zero', [folder], 'zero'),
    ]);
    expect(stated).toMatchObject({ found: { mmPerPx: 0.14 } });
    expect(none).toMatchObject({ found: { lack: expect.stringMatching(/^b\.png: /) } });
    expect([gone, outside]).toEqual([{ refused: 'not there' }, { refused: 'leads out' }]);
    thread.end();
  });

  it('begin again after a while in which nobody asked', async () => {
    const thread = new HeaderThread(bundle, { patience: 10_000, idle: 10, megabytes: 256 });
    for (let times = 0; times < 3; times++) {
      expect(await thread.storedScale(join(folder, 'a.dcm'), [folder], 'a.dcm')).toHaveProperty('found');
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    thread.end();
  });
});

describe('a header that', () => {
  /** What is called so does what it is called, everything else is told at once. */
  const stand = join(folder, 'stand.cjs');
  writeFileSync(
    stand,
    `const { parentPort } = require('node:worker_threads');
    parentPort.on('message', ({ id, name }) => {
      const held = [];
      while (name === 'fills') held.push(new Array(10_000).fill(0).map((_, at) => ({ at })));
      while (name === 'turns');
      if (name === 'throws') throw new Error('broken');
      if (name === 'ends') process.exit(0);
      parentPort.postMessage({ id, scale: { found: { lack: name } } });
    });`,
  );

  it.each(['fills', 'turns', 'throws', 'ends'])('%s ends the thread alone, and the next is read', async (name) => {
    const thread = new HeaderThread(stand, { patience: 3000, idle: 1000, megabytes: 32 });
    const [broken, next] = [thread.storedScale('', [], name), thread.storedScale('', [], 'good')];
    let turns = 0;
    const turning = setInterval(() => (turns += 1), 10);
    expect(await broken).toEqual({ refused: 'never ready' });
    expect(await next).toEqual({ found: { lack: 'good' } });
    clearInterval(turning);
    // Whoever asks goes on meanwhile.
    expect(turns).toBeGreaterThan(0);
    thread.end();
  });

  it('is asked of a thread that does not begin is told too', async () => {
    const thread = new HeaderThread(join(folder, 'nowhere.cjs'));
    expect(await thread.storedScale('', [], 'good')).toEqual({ refused: 'never ready' });
    thread.end();
  });
});
