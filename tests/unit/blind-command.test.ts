import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { commandLine } from '../../src/cli/command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-blind-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const original = readFileSync(join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof'), 'utf8');

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(args, { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

const write = (path: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, content);
};

/** A picture of its own grey, in whose file somebody has written what it shows. */
function namedPicture(grey: number): Uint8Array {
  const png = new PNG({ width: 4, height: 3 });
  png.data.fill(grey);
  const bytes = PNG.sync.write(png);
  const text = Buffer.from('Comment\0Alder, by Ash, 2026');
  const chunk = Buffer.concat([Buffer.alloc(4), Buffer.from('tEXt'), text, Buffer.alloc(4)]);
  chunk.writeUInt32BE(text.length, 0);
  // Behind the header, whose size is always the same.
  return Buffer.concat([bytes.subarray(0, 33), chunk, bytes.subarray(33)]);
}

const withoutRowan = original.replaceAll(/^ {4}read "Rowan".*\n(?: {6}.*\n)*/gm, '');
const pictures = [...original.matchAll(/"(alder[^"]*\.png)"/g)].map(([, name]) => name as string);

/** The case in a folder with its pictures, so that each test has one of its own. */
function study(name: string, text = withoutRowan): string {
  const at = join(folder, name);
  write(join(at, 'cases', 'alder.hoof'), text);
  pictures.forEach((picture, index) => write(join(at, 'cases', picture), namedPicture(20 + index)));
  return at;
}

interface Key {
  readonly films: readonly { number: string; time: number; case: string; picture: string }[];
}
const keyIn = (out: string): Key => JSON.parse(readFileSync(join(out, 'order.json'), 'utf8')) as Key;
const prepare = (at: string, ...more: string[]) =>
  run('blind', join(at, 'cases'), '-o', join(at, 'out'), '--reader', 'Rowan', '--seed', '7', ...more);

const filesIn = (at: string): string[] =>
  readdirSync(at, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile())
    .map((one) => join(one.parentPath, one.name))
    .sort();

/** What Rowan placed on a film the first or the second time, as lines of a film. */
function placings(picture: string, time: number): string {
  const film = original.slice(original.indexOf(picture)).split(/^visit /m)[0] ?? '';
  return [...film.matchAll(/^ {4}read "Rowan".*\n((?: {6}.*\n)*)/gm)].map(([, lines = '']) => lines)[time - 1] ?? '';
}

/** Reads as Rowan did: each numbered film gets what was placed on it. */
function readAll(out: string, only?: number): void {
  for (const { number, time, picture } of keyIn(out).films) {
    if (only !== undefined && time !== only) continue;
    const path = join(out, `reading-${time}`, `${number}.hoof`);
    writeFileSync(path, readFileSync(path, 'utf8') + placings(picture, time).replaceAll(/^ {6}/gm, '    '));
  }
}

describe('blind', () => {
  it('gives each film a file of its own, in which nothing tells what it is', async () => {
    const at = study('one');
    const { status, out, err } = await prepare(at, '--times', '2');
    expect([status, err]).toEqual([0, []]);
    expect(out).toContain('6 films, to be read in ');
    const { films } = keyIn(join(at, 'out'));
    expect(films.map(({ number }) => number)).toEqual(
      Array.from({ length: 12 }, (_, index) => String(index + 1).padStart(3, '0')),
    );
    expect(films.map(({ time }) => time)).toEqual([...Array(6).fill(1), ...Array(6).fill(2)]);
    for (const time of [1, 2])
      expect(new Set(films.filter((film) => film.time === time).map(({ picture }) => picture))).toEqual(
        new Set(pictures),
      );
    const given = filesIn(join(at, 'out')).filter((path) => !path.endsWith('order.json'));
    expect(given).toHaveLength(24);
    for (const path of given) {
      const content = readFileSync(path);
      for (const told of ['lder', 'Ash', 'Rowan', '2026', '@', 'read "', 'Comment'])
        expect(content.includes(told), `${path}: ${told}`).toBe(false);
      expect(path.slice(at.length)).toMatch(/^\/out\/reading-[12]\/(?:pictures\/\d{3}\.png|\d{3}\.hoof)$/);
    }
    for (const { number, time, picture } of films) {
      const home = join(at, 'out', `reading-${time}`);
      const text = readFileSync(join(home, `${number}.hoof`), 'utf8');
      expect(format(text)).toBe(text);
      const [film] = inspect(text).study.films;
      expect(film?.film.path.text).toBe(`pictures/${number}.png`);
      expect(film?.readings.every(({ reading }) => reading.placings.length === 0)).toBe(true);
      expect(film?.readings[0]?.taking.scale).toBe(0.1);
      expect(film?.film.ground).toMatchObject({ from: { x: 0, y: 1000 }, to: { x: 2600, y: 1000 } });
      // The picture is the film's own, point for point.
      const grey = PNG.sync.read(readFileSync(join(home, 'pictures', `${number}.png`))).data[0];
      expect(grey).toBe(20 + pictures.indexOf(picture));
      const checked = await run('check', join(home, `${number}.hoof`), '--format', 'json');
      expect(checked.out).not.toContain('"severity": "error"');
      expect(checked.out).not.toContain('"severity": "warning"');
    }
  });

  it('writes in the drawn order, so that the hours of the files do not tell that of the cases', async () => {
    const at = study('hours');
    await prepare(at);
    const home = join(at, 'out', 'reading-1');
    for (const folder of [home, join(home, 'pictures')]) {
      const files = readdirSync(folder).filter((name) => /^\d/.test(name));
      const hours = files.map((name) => statSync(join(folder, name), { bigint: true }).mtimeNs);
      expect(files).toHaveLength(6);
      expect(hours.every((hour, index) => index === 0 || hour >= (hours[index - 1] ?? 0n))).toBe(true);
    }
  });

  it('draws the order by the seed: the same again, and another by another', async () => {
    const orders = await Promise.all(
      (['7', '7', '8'] as const).map(async (seed, index) => {
        const at = study(`seed-${index}`);
        await run('blind', join(at, 'cases'), '-o', join(at, 'out'), '--reader', 'R', '--seed', seed, '--times', '2');
        return keyIn(join(at, 'out')).films.map(({ picture }) => picture);
      }),
    );
    const [first = [], again, other] = orders;
    expect(again).toEqual(first);
    expect(other).not.toEqual(first);
    expect(first.slice(0, 6)).not.toEqual(first.slice(6));
    expect(first.slice(0, 6)).not.toEqual(pictures);
  });

  it('leaves out scale and ground where that is asked for, and one of the bone always', async () => {
    const at = study('bare', withoutRowan.replace('scale   0.1 mm/px', 'scale   bone'));
    await prepare(at, '--without', 'ground');
    const texts = filesIn(join(at, 'out'))
      .filter((path) => path.endsWith('.hoof'))
      .map((path) => readFileSync(path, 'utf8'));
    expect(texts.filter((text) => text.includes('ground'))).toEqual([]);
    expect(texts.filter((text) => text.includes('scale'))).toHaveLength(5);
  });

  it('read and joined gives the agreement, and the file, of readings that were never blind', async () => {
    const at = study('round');
    await prepare(at, '--times', '2');
    readAll(join(at, 'out'));
    const joined = await run('blind', join(at, 'cases'), '--join', join(at, 'out'));
    expect([joined.status, joined.err]).toEqual([0, []]);
    expect(joined.out).toContain('Readings by Rowan: 12 added, 0 there already, 0 not read yet.');
    const json = async (path: string): Promise<unknown> =>
      JSON.parse((await run('agree', path, '--format', 'json')).out);
    write(join(at, 'whole', 'alder.hoof'), original);
    expect(await json(join(at, 'cases'))).toEqual(await json(join(at, 'whole')));
    const now = readFileSync(join(at, 'cases', 'alder.hoof'), 'utf8');
    expect(format(now)).toBe(format(original));
    // Joined once more nothing is added twice.
    const again = await run('blind', join(at, 'cases'), '--join', join(at, 'out'));
    expect(again.out).toContain('0 added, 12 there already');
    expect(readFileSync(join(at, 'cases', 'alder.hoof'), 'utf8')).toBe(now);
  });

  it('joins the second time after the first, keeps what stands there, and says what is not read yet', async () => {
    const text = withoutRowan.replaceAll('\n', '\r\n').trimEnd();
    const at = study('later', text);
    await prepare(at, '--times', '2');
    readAll(join(at, 'out'), 1);
    expect((await run('blind', join(at, 'cases'), '--join', join(at, 'out'))).out).toContain(
      '6 added, 0 there already, 6 not read yet',
    );
    readAll(join(at, 'out'), 2);
    const second = await run('blind', join(at, 'cases'), '--join', join(at, 'out'));
    expect([second.status, second.err]).toEqual([0, []]);
    expect(second.out).toContain('6 added, 6 there already, 0 not read yet');
    const now = readFileSync(join(at, 'cases', 'alder.hoof'), 'utf8');
    // Without the added lines all is as it was.
    let isAdded = false;
    const left = now.split('\r\n').filter((line) => {
      isAdded = line === '    read "Rowan"' || (isAdded && line.startsWith('      '));
      return !isAdded;
    });
    expect(left.join('\r\n').trimEnd()).toBe(text);
    expect(now).not.toMatch(/[^\r]\n/);
  });

  it('adds nothing where that person has read the film already, unless as a further reading', async () => {
    const at = study('again', original);
    await prepare(at);
    for (const { number, picture } of keyIn(join(at, 'out')).films) {
      const path = join(at, 'out', 'reading-1', `${number}.hoof`);
      writeFileSync(path, `${readFileSync(path, 'utf8')}    p3.tip @ 2000, ${800 + pictures.indexOf(picture)}\n`);
    }
    const refused = await run('blind', join(at, 'cases'), '--join', join(at, 'out'));
    expect(refused.status).toBe(2);
    expect(refused.err).toHaveLength(6);
    expect(refused.err[0]).toContain('Rowan has read the film “alder');
    expect(readFileSync(join(at, 'cases', 'alder.hoof'), 'utf8')).toBe(original);
    const further = await run('blind', join(at, 'cases'), '--join', join(at, 'out'), '--further');
    expect([further.status, further.out]).toEqual([0, expect.stringContaining('6 added')]);
  });

  it('refuses what it cannot use, and writes nothing then', async () => {
    const at = study('refused');
    const cases = join(at, 'cases');
    const wrong = async (...args: string[]): Promise<string> => {
      const { status, err } = await run('blind', ...args);
      expect(status, args.join(' ')).toBe(2);
      return err.join();
    };
    expect(await wrong(cases, '-o', join(at, 'out'), '--seed', '7')).toContain('--reader NAME');
    expect(await wrong(cases, '-o', join(at, 'out'), '--reader', 'R')).toContain('--seed 7');
    expect(await wrong(cases, '-o', join(at, 'out'), '--reader', 'R', '--seed', '1.5')).toContain('whole numbers');
    expect(await wrong(cases, '-o', cases, '--reader', 'R', '--seed', '7')).toContain('not empty');
    expect(await wrong(join(cases, 'alder.hoof'), '-o', 'x', '--reader', 'R', '--seed', '7')).toContain('no folder');
    expect(await wrong(cases, '--join', join(at, 'nowhere'))).toContain('no such file');
    write(join(at, 'odd', 'order.json'), '{"ungula":1}');
    expect(await wrong(cases, '--join', join(at, 'odd'))).toContain('not the key of a blind reading');
    // A key that was tampered with leads to no file outside the folder.
    await prepare(at);
    readAll(join(at, 'out'));
    const key = readFileSync(join(at, 'out', 'order.json'), 'utf8');
    write(join(at, 'victim.hoof'), withoutRowan);
    writeFileSync(join(at, 'out', 'order.json'), key.replaceAll('"alder.hoof"', '"../victim.hoof"'));
    expect(await wrong(cases, '--join', join(at, 'out'))).toContain('lies outside the folder');
    expect(readFileSync(join(at, 'victim.hoof'), 'utf8')).toBe(withoutRowan);
    writeFileSync(join(at, 'out', 'order.json'), key.replaceAll('"001"', '"../001"'));
    expect(await wrong(cases, '--join', join(at, 'out'))).toContain('not the key');
  });

  it('leaves out a film whose picture is not there, and says so', async () => {
    const at = study('missing');
    rmSync(join(at, 'cases', pictures[2] as string));
    const { status, err, out } = await prepare(at);
    expect(status).toBe(2);
    expect(err).toEqual([expect.stringContaining('The film is left out.')]);
    expect(out).toContain('5 films, to be read in ');
    expect(keyIn(join(at, 'out')).films).toHaveLength(5);
  });
});
