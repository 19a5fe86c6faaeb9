import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { usePlainFile } from '../../disk/plain-file.ts';
import { usePicture } from '../../disk/use-picture.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { largestPicture, mostOpen, type OpenPicture } from '../../shared/picture/picture-files.ts';
import { showable } from '../../shared/picture/shown-picture.ts';
import { storedScale } from '../../shared/picture/stored-scale.ts';
import { calibratedPicture, dicomCase } from '../protocol/case-folder.ts';
import { tiffFile } from './picture-tiff-writer.ts';
import { caseText, filmText } from './plain-foot.ts';

const root = join(import.meta.dirname, '..', '..');
let folder = '';
const at = (...steps: string[]): string => join(folder, ...steps);

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'ungula-door-')));
  for (const name of ['clinic/cases/films', 'clinic/films', 'secret']) mkdirSync(at(name), { recursive: true });
  writeFileSync(at('secret', 'secret.png'), onePixel);
  writeFileSync(at('secret', 'secret.dcm'), calibratedPicture('0.13'));
  writeFileSync(at('clinic', 'films', 'shared.dcm'), calibratedPicture('0.14'));
  writeFileSync(at('clinic', 'cases', 'own.dcm'), calibratedPicture('0.12'));
  writeFileSync(at('clinic', 'cases', 'own.png'), onePixel);
  symlinkSync('own.dcm', at('clinic', 'cases', 'inside.dcm'));
  symlinkSync('../../secret/secret.png', at('clinic', 'cases', 'link.png'));
  symlinkSync('../../secret', at('clinic', 'cases', 'way-out'));
  symlinkSync('/dev/zero', at('clinic', 'cases', 'zero.dcm'));
  symlinkSync('/dev/zero', at('clinic', 'cases', 'zero.png'));
  symlinkSync('round.dcm', at('clinic', 'cases', 'round.dcm'));
  expect(spawnSync('mkfifo', [at('clinic', 'cases', 'pipe.dcm'), at('clinic', 'cases', 'pipe.png')]).status).toBe(0);
  writeFileSync(at('clinic', 'cases', 'huge.dcm'), '');
  truncateSync(at('clinic', 'cases', 'huge.dcm'), largestPicture + 1);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** 1 by 1, grey. */
const onePixel = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR42mNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==',
  'base64',
);

const jpegStart = Buffer.from([0xff, 0xd8]);
/** A comment as long as one may be (ITU-T T.81, B.2.4.5). */
const jpegRemark = Buffer.concat([Buffer.from([0xff, 0xfe, 0xff, 0xff]), Buffer.alloc(0xffff - 2, 32)]);
/** A frame header of 20 by 10, one component (T.81, B.2.2). */
const jpegSize = Buffer.from([0xff, 0xc0, 0, 11, 8, 0, 10, 0, 20, 1, 1, 0x11, 0]);

/** The command line in a process of its own, which may neither hang nor take the memory of the machine. */
function apart(...args: string[]): { status: number | null; out: string } {
  const { status, stdout } = spawnSync(
    process.execPath,
    ['--max-old-space-size=512', join(root, 'src', 'cli', 'main.ts'), ...args],
    { encoding: 'utf8', timeout: 600_000 },
  );
  return { status, out: stdout };
}

async function ungula(...args: string[]): Promise<{ status: number; out: string }> {
  let out = '';
  const status = await commandLine(args, { out: (text) => (out += text), err: () => {} });
  return { status, out };
}

async function checked(picture: string, ...more: string[]): Promise<string> {
  const file = at('clinic', 'cases', 'case.hoof');
  writeFileSync(file, dicomCase(picture));
  return (await ungula('check', file, ...more)).out;
}

describe('check of films that take their scale from', () => {
  const asked: readonly (readonly [picture: string, says: string])[] = [
    ['own.dcm', ''],
    ['inside.dcm', ''],
    ['zero.dcm', 'zero.dcm goes through a link that leads out'],
    ['pipe.dcm', 'pipe.dcm is no file but a device or a pipe'],
    ['films', 'films is a folder'],
    ['way-out/secret.dcm', 'way-out/secret.dcm goes through a link that leads out'],
    ['../films/shared.dcm', '../films/shared.dcm leads out of the folders'],
    ['../../../../../../../dev/zero', '../../../../../../../dev/zero leads out of the folders'],
    ['con.dcm', 'con.dcm is a name that Windows keeps'],
    ['round.dcm', 'round.dcm is not there'],
    ['huge.dcm', 'huge.dcm is a file of more than 200 MB'],
    ['notes.txt', 'notes.txt is not a kind of picture'],
  ];
  let out = '';

  beforeAll(() => {
    const files = asked.map(([picture], index) => {
      const file = at('clinic', 'cases', `case-${index}.hoof`);
      writeFileSync(file, dicomCase(picture));
      return file;
    });
    const ended = apart('check', ...files);
    expect(ended.status).toBe(0);
    out = ended.out;
  });

  it.each(asked.map(([picture, says], index) => [picture, says, index] as const))('%s', (_, says, index) => {
    const lines = out
      .split('\n')
      .filter((line) => line.includes(`case-${index}.hoof`) && line.includes('frame/no-scale'));
    if (says === '') expect(lines).toEqual([]);
    else expect(lines).toEqual([expect.stringContaining(`frame/no-scale ${says}`)]);
  });
});

describe('--root', () => {
  it('says how far above a case its pictures may lie', async () => {
    expect(await checked('../films/shared.dcm', '--root', at('clinic'))).not.toContain('frame/no-scale');
    expect(await checked('../films/shared.dcm', '--root', folder)).not.toContain('frame/no-scale');
    expect(await checked('../../secret/secret.dcm', '--root', at('clinic'))).toContain('leads out of the folders');
    expect(await checked('way-out/secret.dcm', '--root', at('clinic'))).toContain('goes through a link that leads out');
    expect(await checked('way-out/secret.dcm', '--root', folder)).not.toContain('frame/no-scale');
  });

  it('that does not hold the case changes nothing', async () => {
    expect(await checked('../films/shared.dcm', '--root', at('clinic', 'films'))).toContain('leads out of the folders');
    expect(await checked('own.dcm', '--root', at('clinic', 'films'))).not.toContain('frame/no-scale');
  });

  it('that is no folder is refused', async () => {
    const file = at('clinic', 'cases', 'case.hoof');
    writeFileSync(file, dicomCase('own.dcm'));
    for (const none of [at('nowhere'), at('clinic', 'cases', 'own.dcm'), ''])
      expect(await ungula('check', file, '--root', none)).toEqual({ status: 2, out: '' });
  });

  it.each([
    ['measure', '--format', 'json'],
    ['plan', '--foot', 'LF', '--heel', '2', '--format', 'json'],
    ['course', '--format', 'json'],
  ])('goes for %s too', async (command, ...args) => {
    const file = at('clinic', 'cases', 'case.hoof');
    writeFileSync(file, dicomCase('../films/shared.dcm'));
    expect((await ungula(command, file, ...args, '--root', at('clinic'))).out).toMatch(/"sole-depth|"solecut/);
    expect((await ungula(command, file, ...args)).out).not.toMatch(/"sole-depth|"solecut/);
  });
});

describe('report', () => {
  it('takes in the pictures of the case, and of a link, a pipe or a device a sentence', () => {
    const file = at('clinic', 'cases', 'case.hoof');
    const pictures = ['own.png', 'link.png', 'pipe.png', 'zero.png', 'way-out/secret.png'];
    writeFileSync(
      file,
      caseText(pictures.map((picture) => filmText({}, { header: `film LF lateral "${picture}"` })).join('\n')),
    );
    const page = at('page.html');
    expect(apart('report', file, '-o', page).status).toBe(0);
    const html = readFileSync(page, 'utf8');
    expect(html.split(`data:image/png;base64,${onePixel.toString('base64')}`).length - 1).toBe(1);
    for (const picture of ['link.png', 'zero.png', 'way-out/secret.png'])
      expect(html).toContain(`${picture} goes through a link that leads out`);
    expect(html).toContain('pipe.png is no file but a device or a pipe');
  });
});

describe('the reader under Node', () => {
  const cases = (): string[] => [at('clinic', 'cases')];
  const whole = (picture: OpenPicture): Promise<Uint8Array> => picture.read(0, picture.size);

  it('reads pieces of what it opened, and fewer bytes at the end', async () => {
    const bytes = readFileSync(at('clinic', 'cases', 'own.dcm'));
    const looked = await usePicture(at('clinic', 'cases', 'own.dcm'), cases(), async (picture) => [
      await picture.read(128, 4),
      await picture.read(picture.size - 2, 100),
      await picture.read(picture.size + 5, 1),
      await whole(picture),
    ]);
    const expected = [bytes.subarray(128, 132), bytes.subarray(-2), Buffer.alloc(0), bytes];
    expect(looked).toEqual({ found: expected.map((piece) => new Uint8Array(piece)) });
  });

  it('gives what is there of a file that is made shorter while it is read', async () => {
    const file = at('clinic', 'cases', 'short.png');
    writeFileSync(file, Buffer.alloc(100, 1));
    const looked = await usePicture(file, cases(), async (picture) => {
      truncateSync(file, 10);
      return (await whole(picture)).length;
    });
    expect(looked).toEqual({ found: 10 });
  });

  // Headers that go on behind the first piece that is read, so that the next one finds less than there was.
  it.each<[string, () => Uint8Array]>([
    ['DICOM file', () => Buffer.concat([calibratedPicture('0.2'), Buffer.alloc(200_000)])],
    ['JPEG', () => Buffer.concat([jpegStart, ...Array.from({ length: 4 }, () => jpegRemark), jpegSize])],
    ['TIFF', () => tiffFile({ width: 400, height: 300, bits: 8, photometric: 1, bytes: new Uint8Array(120_000) })],
  ])('lets no %s hang that becomes shorter between two pieces: a sentence says so', async (_kind, bytes) => {
    const file = at('clinic', 'cases', 'shrinks');
    writeFileSync(file, bytes());
    const missing: number[] = [];
    const looked = await usePicture(file, cases(), (picture) => {
      const read: OpenPicture['read'] = async (start, length) => {
        const piece = await picture.read(start, length);
        missing.push(Math.min(length, picture.size - start) - piece.length);
        truncateSync(file, 150);
        return piece;
      };
      return storedScale({ size: picture.size, read }, 'film');
    });
    expect(missing[0]).toBe(0);
    expect(missing.at(-1)).toBeGreaterThan(0);
    expect(looked).toEqual({ found: { lack: expect.stringMatching(/^film: .*cut short.*\.$/) } });
    // What is left of it is no picture to show either.
    const shown = await usePicture(file, cases(), async (picture) => showable(await whole(picture)));
    expect(shown).toEqual({ found: { problem: expect.stringMatching(/\.$/) } });
  });

  it('has another stamp for another file', async () => {
    const file = at('clinic', 'cases', 'stamped.png');
    const stamp = async (): Promise<unknown> => usePicture(file, cases(), (picture) => Promise.resolve(picture.stamp));
    writeFileSync(file, 'a');
    const before = await stamp();
    expect(await stamp()).toEqual(before);
    writeFileSync(file, 'ab');
    expect(await stamp()).not.toEqual(before);
  });

  it('follows the links of the folder that is open', async () => {
    symlinkSync('clinic', at('called-otherwise'));
    const looked = await usePicture(at('called-otherwise', 'cases', 'own.png'), [at('called-otherwise')], whole);
    expect(looked).toEqual({ found: new Uint8Array(onePixel) });
  });

  it('passes on what goes wrong with whoever reads, and closes the file', async () => {
    await expect(
      usePicture(at('clinic', 'cases', 'own.png'), cases(), () => Promise.reject(new Error('mine'))),
    ).rejects.toThrow('mine');
  });

  it('has no more open at a time than it may', async () => {
    let open = 0;
    let most = 0;
    const looks = Array.from({ length: 20 }, () =>
      usePicture(at('clinic', 'cases', 'own.png'), cases(), async () => {
        most = Math.max(most, (open += 1));
        await new Promise((resolve) => setTimeout(resolve, 5));
        open -= 1;
      }),
    );
    await Promise.all(looks);
    expect([most, open]).toEqual([mostOpen, 0]);
  });

  it('opens nothing where no folder is allowed, or the folder is gone', async () => {
    const file = at('clinic', 'cases', 'own.png');
    for (const roots of [[], [at('gone')]])
      expect(await usePicture(file, roots, whole)).toEqual({ refused: 'leads out' });
  });

  it('takes a folder whose name goes on for another one', async () => {
    mkdirSync(at('clinic', 'cases-of-others'));
    writeFileSync(at('clinic', 'cases-of-others', 'a.png'), onePixel);
    symlinkSync('../cases-of-others/a.png', at('clinic', 'cases', 'beside.png'));
    expect(await usePicture(at('clinic', 'cases', 'beside.png'), cases(), whole)).toEqual({ refused: 'leads out' });
    // Two points are a name's own here.
    mkdirSync(at('clinic', 'cases', '..films'));
    writeFileSync(at('clinic', 'cases', '..films', 'a.png'), onePixel);
    expect(await usePicture(at('clinic', 'cases', '..films', 'a.png'), cases(), whole)).toHaveProperty('found');
  });

  it('finds no file of a name that is longer than any', async () => {
    expect(await usePlainFile(at('x'.repeat(300)), [folder], 10, whole)).toEqual({ refused: 'not there' });
  });

  it('says of a file that may not be read that it may not', async () => {
    const file = at('clinic', 'cases', 'locked.png');
    writeFileSync(file, onePixel, { mode: 0 });
    // The superuser may read everything, and so is somebody else for a moment.
    const user = process.geteuid?.();
    if (user === 0) process.seteuid?.(65_534);
    try {
      expect(await usePicture(file, cases(), whole)).toEqual({ refused: 'unreadable' });
    } finally {
      if (user === 0) process.seteuid?.(0);
    }
  });
});
