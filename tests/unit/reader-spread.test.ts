import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse as parseCsv } from 'csv-parse/sync';
import { randomLcg, randomNormal } from 'd3-random';
import { afterAll, describe, expect, it } from 'vitest';
import { spreadInterval } from '../../shared/agreement/own-spread-interval.ts';
import { isEnough, ownSpreads } from '../../shared/agreement/own-spread.ts';
import { ReadFilms, takenFilms } from '../../shared/agreement/read-films.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { soundFoot } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-spread-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(['agree', ...args], { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

interface Drawn {
  readonly films: number;
  /** Readings of each film. */
  readonly times: number;
  /** Of each placing, mm along each axis. */
  readonly sd: number;
  readonly seed: number;
  readonly reader?: string;
  readonly mmPerPx?: number;
  /** What stands behind a place. */
  readonly behind?: (landmark: string, time: number) => string;
}

/** Films read again by one person, with normal errors of a known spread; what touches the ground slides along it only. */
function drawn({ films, times, sd, seed, reader = 'Rowan', mmPerPx = 0.1, behind = () => '' }: Drawn): string {
  const error = randomNormal.source(randomLcg(seed))(0, sd / mmPerPx);
  // The ground climbs by 3 in 100, so that no axis of the foot is one of the picture.
  const climb = 0.03;
  const onto = ([x, y]: readonly [number, number]) => {
    const [along, up] = [x / mmPerPx, y / mmPerPx];
    const c = Math.hypot(1, climb);
    return [2000 + (along + climb * up) / c, 1000 + (climb * along - up) / c] as const;
  };
  const reading = (time: number): string =>
    Object.entries(soundFoot)
      .map(([name, place]) => {
        const [x, y] = onto(place);
        const slides = ['toe.ground', 'heel.ground', 'breakover'].includes(name);
        const dx = error();
        const at = slides ? [x + dx, y + climb * dx] : [x + dx, y + error()];
        return `      ${name} @ ${at.map((one) => one.toFixed(1)).join(', ')}${behind(name, time)}`;
      })
      .join('\n');
  const [left, right] = [onto([-180, 0]), onto([80, 0])];
  return `hoof 1\n\n${Array.from(
    { length: films },
    (_, film) =>
      `visit 2026-01-${String(film + 1).padStart(2, '0')}\n  film LF lateral "f${film}.png"\n    scale ${mmPerPx} mm/px\n` +
      `    ground ${left.map((one) => one.toFixed(1)).join(', ')} .. ${right.map((one) => one.toFixed(1)).join(', ')}\n` +
      Array.from({ length: times }, (_all, time) => `    read "${reader}"\n${reading(time)}\n`).join(''),
  ).join('\n')}`;
}

function spreadsIn(...texts: string[]): ReturnType<typeof ownSpreads> {
  const films = new ReadFilms();
  for (const text of texts) films.add('', takenFilms(inspect(text).study.films));
  return ownSpreads(films.all());
}

describe('the spread of a reader who has read films again', () => {
  it('is the known spread of drawn readings, within its interval 95 times of 100', () => {
    let held = 0;
    const found: number[] = [];
    for (let seed = 1; seed <= 60; seed++) {
      const [spread] = spreadsIn(drawn({ films: 3, times: 2, sd: 0.6, seed }));
      if (!spread) throw new Error('no spread');
      // 25 landmarks, of which three lie on the ground: 47 axes, one difference for each on each of three films.
      // Two placings of a contact fall on the same tenth of a pixel now and then, and pass for a copy.
      expect(spread.df).toBeGreaterThanOrEqual(139);
      expect(spread.df).toBeLessThanOrEqual(141);
      const { low, high } = spreadInterval(spread);
      if (low <= 0.6 && 0.6 <= high) held += 1;
      found.push(spread.mm);
    }
    // Of 60 intervals at 95 % fewer than 52 hold in one of 500 such series (binomial).
    expect(held).toBeGreaterThanOrEqual(52);
    const mean = found.reduce((sum, one) => sum + one, 0) / found.length;
    expect(mean).toBeCloseTo(0.6, 1.7);
  });

  it('says the same whatever the size of a pixel', () => {
    const [coarse] = spreadsIn(drawn({ films: 4, times: 2, sd: 0.8, seed: 3, mmPerPx: 0.2 }));
    const [fine] = spreadsIn(drawn({ films: 4, times: 2, sd: 0.8, seed: 3, mmPerPx: 0.05 }));
    expect(coarse?.mm).toBeCloseTo(fine?.mm ?? 0, 2);
  });

  it('leaves out copies, whole or of a landmark, what was followed, and what a fit has placed', () => {
    const text = drawn({ films: 4, times: 2, sd: 0.6, seed: 5 });
    const [spread] = spreadsIn(text);
    const [twice] = spreadsIn(text, text);
    expect(twice).toEqual(spread);

    const followed = spreadsIn(
      text,
      drawn({ films: 4, times: 1, sd: 9, seed: 6, behind: (name) => (name === 'p3.tip' ? ' +- 6 followed' : '') }),
    );
    expect(followed).toEqual([spread]);

    // Half of the landmarks are the first reading's own: the spread is that of the others.
    const kept = new Set(Object.keys(soundFoot).slice(0, 12));
    let film: string[] = [];
    const half = text
      .split('\n')
      .map((line) => {
        if (line.startsWith('  film')) film = [];
        const name = /^ {6}([\w.]+) @/.exec(line)?.[1];
        if (name === undefined || !kept.has(name)) return line;
        const before = film.find((one) => one.trim().startsWith(`${name} `));
        film.push(line);
        return before ?? line;
      })
      .join('\n');
    const [ofOthers] = spreadsIn(half);
    expect(ofOthers?.mm).toBeGreaterThan(0.5);
    expect(ofOthers?.df).toBeLessThan((spread?.df ?? 0) - 4 * 2 * 11);

    const fitted = drawn({
      films: 4,
      times: 2,
      sd: 0.6,
      seed: 5,
      behind: (name) => (name.startsWith('p3.') ? ' +- 2' : ''),
    });
    expect(spreadsIn(fitted)[0]?.df).toBe((spreadsIn(text)[0]?.df ?? 0) - 4 * 2 * 6);
  });

  it('is none where nobody has read a film again, or no film has a scale', () => {
    expect(spreadsIn(drawn({ films: 5, times: 1, sd: 0.6, seed: 1 }))).toEqual([]);
    expect(spreadsIn(drawn({ films: 3, times: 2, sd: 0.6, seed: 1 }).replaceAll(/^ +scale .*\n/gm, ''))).toEqual([]);
  });

  it('is enough from three films and 30 degrees of freedom on', () => {
    const [two, three] = [2, 3].map((films) => spreadsIn(drawn({ films, times: 2, sd: 0.6, seed: 2 }))[0]);
    expect(two && isEnough(two)).toBe(false);
    expect(three && isEnough(three)).toBe(true);
    expect(isEnough({ reader: 'A', mm: 1, films: 3, df: 29, placings: 40 })).toBe(false);
  });
});

describe('agree --spread', () => {
  const file = (name: string, text: string): string => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  };

  it('shows the lines first, and writes them when told', async () => {
    // One of the films has larger pixels, and a remark stands behind a line.
    const text = drawn({ films: 4, times: 2, sd: 0.6, seed: 8 })
      .replace('read "Rowan"', 'read "Rowan" +- 3   # the first time')
      .replaceAll('\n', '\r\n');
    const path = file('rowan.hoof', text);
    const shown = await run(path, '--spread');
    expect(shown.status).toBe(0);
    expect(shown.out).toContain('Rowan: 0.');
    expect(shown.out).toContain('95 % interval');
    expect(shown.out).toMatch(/rowan\.hoof:7: read "Rowan" \+- \d\.\d, in place of \+- 3\n/);
    expect(shown.out).toContain('Nothing is written yet');
    expect(readFileSync(path, 'utf8')).toBe(text);

    const wrote = await run(path, '--spread', '--write');
    expect(wrote.out).not.toContain('Nothing is written yet');
    const now = readFileSync(path, 'utf8');
    const px = /read "Rowan" \+- (\d+\.\d)/.exec(now)?.[1];
    expect(Number(px)).toBeCloseTo(10 * (spreadsIn(text)[0]?.mm ?? 0), 1);
    expect(now.match(/read "Rowan" \+- \d\.\d/g)).toHaveLength(8);
    expect(now).toContain(`read "Rowan" +- ${px}   # the first time\r\n`);
    // Nothing else has changed.
    expect(now.replaceAll(/ \+- \d\.\d/g, '')).toBe(text.replace(' +- 3', ''));
    const readings = inspect(now).study.films.flatMap((film) => film.readings);
    expect(readings.map(({ reading }) => reading.spread)).toEqual(Array(8).fill(Number(px)));
    expect((await run(path, '--spread', '--write')).out).toContain('stands there already');
  });

  it('goes by each film’s own scale, in every file of the reader', async () => {
    const again = file('again.hoof', drawn({ films: 4, times: 2, sd: 0.6, seed: 9 }));
    const other = file(
      'other.hoof',
      drawn({ films: 1, times: 1, sd: 0.6, seed: 10, mmPerPx: 0.2 }).replace('f0.png', 'g.png'),
    );
    const { out } = await run(again, other, '--spread', '--write');
    expect(out).toContain('other.hoof:7: read "Rowan" +- ');
    const px = (path: string): number => Number(/read "Rowan" \+- ([\d.]+)/.exec(readFileSync(path, 'utf8'))?.[1]);
    expect(px(again) / px(other)).toBeCloseTo(2, 1);
  });

  it('writes nothing for too few, for who has no name, and says why', async () => {
    const few = drawn({ films: 2, times: 2, sd: 0.6, seed: 4 });
    const path = file('few.hoof', few);
    const { out } = await run(path, '--spread', '--write');
    expect(out).toContain('Too few to be written: it takes 3 films read again and 30 degrees of freedom.');
    expect(readFileSync(path, 'utf8')).toBe(few);
    expect((await run(file('none.hoof', 'hoof 1\n'), '--spread')).out).toContain('no spread can be told');
    const wrong = await run(path, '--write');
    expect([wrong.status, wrong.err.join()]).toEqual([2, expect.stringContaining('--write goes with --spread')]);
    expect((await run(path, '--spread', '--format', 'csv')).status).toBe(2);
  });
});

describe('agree --format csv', () => {
  it('has a row for each figure of the JSON, with its interval', async () => {
    const example = join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof');
    const { out } = await run(example, '--format', 'csv');
    const rows = parseCsv(out, { columns: true }) as Record<string, string>[];
    const json = JSON.parse((await run(example, '--format', 'json')).out) as {
      measures: {
        measure: string;
        table: { icc21: { value: number; interval: { low: number } }; spreads: { sem: number } };
        pairs: { first: string | null; second: string; bias: { value: number; interval: { high: number } } }[];
      }[];
      landmarks: { landmark: string; own: { long: number; angle: number } }[];
    };
    const figure = (name: string, of: string, what: string, more: Record<string, string> = {}) =>
      rows.find((row) =>
        Object.entries({ name, of, figure: what, ...more }).every(([key, value]) => row[key] === value),
      );
    for (const { measure, table, pairs } of json.measures) {
      expect(figure(measure, 'readers', 'icc21')).toMatchObject({
        value: String(table.icc21.value),
        low: String(table.icc21.interval.low),
      });
      expect(figure(measure, 'readers', 'sem')?.['value']).toBe(String(table.spreads.sem));
      for (const { first, second, bias } of pairs)
        expect(figure(measure, 'pair', 'bias', { reader: first ?? '', second_reader: second })).toMatchObject({
          value: String(bias.value),
          high: String(bias.interval.high),
        });
    }
    const tip = json.landmarks.find(({ landmark }) => landmark === 'p3.tip');
    expect(figure('p3.tip', 'own', 'long')).toMatchObject({ value: String(tip?.own.long), unit: 'mm' });
    expect(figure('p3.tip', 'own', 'angle')).toMatchObject({ value: String(tip?.own.angle), unit: 'deg' });
    // The spread that the readings of the example were made with is half a millimetre.
    const placing = figure('placing', 'own', 'sd', { reader: 'Rowan' });
    expect(Number(placing?.['low'])).toBeLessThan(0.5);
    expect(Number(placing?.['high'])).toBeGreaterThan(0.5);
  });
});
