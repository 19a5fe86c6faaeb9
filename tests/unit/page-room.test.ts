import { mkdtempSync, openSync, readFileSync, rmSync, writeFileSync, closeSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { beforeEach, describe, expect, it } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';
import { PageRoom } from '../../src/cli/page-room.ts';
import { greyPng } from '../host/made-pictures.ts';
import { caseText, filmText } from './plain-foot.ts';

let folder = '';
const at = (name: string): string => join(folder, name);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-room-'));
  return () => rmSync(folder, { recursive: true, force: true });
});

/** A PNG with so many bytes of picture data, in one piece. */
function largePng(path: string, bytes: number): void {
  const small = Buffer.from(greyPng(40, 30));
  const data = small.indexOf('IDAT');
  const [length, body, sum] = [Buffer.alloc(4), Buffer.alloc(4 + bytes), Buffer.alloc(4)];
  length.writeUInt32BE(bytes);
  body.write('IDAT', 'latin1');
  sum.writeUInt32BE(crc32(body));
  const file = openSync(path, 'w');
  for (const piece of [small.subarray(0, data - 4), length, body, sum, small.subarray(-12)]) writeSync(file, piece);
  closeSync(file);
}

const films = (...pictures: string[]): string =>
  caseText(pictures.map((one) => filmText({}, { header: `film LF lateral "${one}"` })).join('\n'));
const shownIn = (page: string, picture: string): number =>
  page.split(`data:image/png;base64,${readFileSync(at(picture)).toString('base64')}`).length - 1;

describe('the pictures of one page', () => {
  it('are left out from where they are too many, with a sentence, and the others are there', async () => {
    largePng(at('huge.png'), 115_000_000);
    for (const name of ['small.png', 'other.png'])
      writeFileSync(at(name), greyPng(40, 30, name === 'small.png' ? 8 : 1));
    writeFileSync(at('bad.hoof'), films('huge.png', 'small.png'));
    writeFileSync(at('good.hoof'), films('other.png'));
    const err: string[] = [];
    const status = await commandLine(['report', at('bad.hoof'), at('good.hoof'), '-o', at('page.html')], {
      out: () => undefined,
      err: (line) => err.push(line),
    });
    expect([status, err]).toEqual([0, []]);
    const page = readFileSync(at('page.html'), 'utf8');
    expect(page.length).toBeLessThan(2_000_000);
    expect(page).toContain('The picture huge.png is left out: a page holds 110 MB of pictures.');
    expect([shownIn(page, 'small.png'), shownIn(page, 'other.png')]).toEqual([1, 1]);
  });

  it('count as often as they stand in the page', async () => {
    largePng(at('large.png'), 40_000_000);
    writeFileSync(at('a.hoof'), films('large.png', 'large.png', 'large.png'));
    writeFileSync(at('b.hoof'), films('large.png'));
    const quiet = { out: () => undefined, err: () => undefined };
    expect(await commandLine(['report', at('a.hoof'), at('b.hoof'), '-o', at('page.html')], quiet)).toBe(0);
    const page = readFileSync(at('page.html'), 'utf8');
    expect(page.split('The picture large.png is left out').length - 1).toBe(3);
    expect(shownIn(page, 'large.png')).toBe(1);
  });

  it('have a room that does not grow', () => {
    const room = new PageRoom();
    expect([room.takes(110_000_001), room.takes(60_000_000), room.takes(60_000_000), room.takes(50_000_000)]).toEqual([
      false,
      true,
      false,
      true,
    ]);
    expect(room.takes(1)).toBe(false);
  });
});
