import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { eigs } from 'mathjs';
import { afterAll, describe, expect, it } from 'vitest';
import { jsonShapes, type AgreeJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { filmText } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-agree-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const example = join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof');

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(['agree', ...args], { out: (text) => (out += text), err: (line) => err.push(line) });
  return { status, out, err };
}

async function json(...args: string[]): Promise<AgreeJson> {
  const { out } = await run(...args, '--format', 'json');
  const document: unknown = JSON.parse(out);
  expect(jsonShapes.agree.safeParse(document).error).toBeUndefined();
  return document as AgreeJson;
}

const write = (name: string, text: string): string => {
  mkdirSync(join(folder, name, '..'), { recursive: true });
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};

type Measure = AgreeJson['measures'][number];
const measureIn = ({ measures }: AgreeJson, name: string): Measure =>
  measures.find(({ measure }) => measure === name) as Measure;

describe('agree on six films with three readers', () => {
  /** By R 4.2.2 with psych 2.2.9 on the angles that `measure --format csv` prints of the file. */
  it('has the figures that R makes of the measured angles', async () => {
    const found = await json(example);
    expect(found.films).toEqual({ read: 6, byTwo: 6, repeated: 6, copies: 0, followed: 0, notInMm: 0 });
    expect(found.readers).toEqual([null, 'Ash', 'Rowan']);
    const angle = measureIn(found, 'palmar-angle');
    const close = (value: number): unknown => expect.closeTo(value, 6);
    expect(angle.table).toMatchObject({
      readers: [null, 'Rowan', 'Ash'],
      columns: 3,
      films: 5,
      icc21: { value: close(0.9700896952), interval: { low: close(0.8493432648), high: close(0.9966375457) } },
      icc31: { value: close(0.9800059573), interval: { low: close(0.9041549114), high: close(0.9977466976) } },
    });
    expect(angle.between).toMatchObject({ sd: close(0.56835081973), films: 6, readings: 17, df: 11 });
    const pair = angle.pairs.find(({ first, second }) => first === null && second === 'Ash');
    expect(pair).toMatchObject({
      films: 5,
      bias: { value: close(-0.25221899255), interval: { low: close(-1.022207088349), high: close(0.517769103249) } },
      sd: close(0.620125973623),
    });
    expect(angle.own).toMatchObject([
      {
        reader: 'Rowan',
        spread: { sd: close(0.406486755509), df: 6 },
        table: {
          columns: 2,
          films: 6,
          icc21: { value: close(0.9903575751), interval: { low: close(0.9433398244), high: close(0.9986134044) } },
          icc31: { value: close(0.9900643369), interval: { low: close(0.9310997703), high: close(0.9986037274) } },
        },
      },
    ]);
  });

  it('has the ellipse of the tip that mathjs makes of the places as written', async () => {
    // The ground of these films lies level, the toe to the right, 0.1 mm a pixel: no frame is needed.
    const films = readFileSync(example, 'utf8').split('visit ').slice(1);
    const sums = { xx: 0, xy: 0, yy: 0 };
    let df = -films.length;
    for (const film of films) {
      // The first placing of each of the readers: Rowan's second one is the last.
      const all = [...film.matchAll(/p3\.tip\s+@\s*([\d.]+),\s*([\d.]+)/g)].slice(0, -1);
      const places = all.map(([, x, y]) => [Number(x) / 10, -Number(y) / 10] as const);
      const middle = [0, 1].map(
        (axis) => places.reduce((sum, place) => sum + (place[axis] as number), 0) / places.length,
      );
      for (const [x, y] of places) {
        const [dx, dy] = [x - (middle[0] as number), y - (middle[1] as number)];
        sums.xx += dx * dx;
        sums.xy += dx * dy;
        sums.yy += dy * dy;
      }
      df += places.length;
    }
    const { values, eigenvectors } = eigs([
      [sums.xx / df, sums.xy / df],
      [sums.xy / df, sums.yy / df],
    ]);
    const [short, long] = (values as number[]).map((value) => Math.sqrt(value));
    const [, { vector: along }] = eigenvectors as [unknown, { vector: number[] }];
    const [x, y] = along;
    const degrees = (Math.atan((y as number) / (x as number)) * 180) / Math.PI;
    const tip = (await json(example)).landmarks.find(({ landmark }) => landmark === 'p3.tip');
    expect(tip?.between).toMatchObject({
      placings: 17,
      films: 6,
      df: 11,
      long: expect.closeTo(long as number, 9),
      short: expect.closeTo(short as number, 9),
      angle: expect.closeTo(degrees, 6),
    });
  });

  it('says all of it in lines', async () => {
    const { out, status } = await run(example);
    expect(status).toBe(0);
    expect(out).toContain('6 films read by the unnamed reader, Ash, Rowan; 6 by two or more');
    expect(out).toContain('ICC(2,1) 0.970 (0.849 to 0.997); ICC(3,1) 0.980 (0.904 to 0.998)');
    expect(out).toContain('not everybody read every film: the correlations are of the 5 films that');
    expect(out).toContain('the unnamed reader less Ash, 5 films: bias −0.25° (−1.02 to 0.52)');
    expect(out).toMatch(/Tip of the pedal bone +0\.\d\d by 0\.\d\d mm at −?\d+° \(17 placings, 6 films\)/);
    expect(out).toMatch(/\d+ more measures with --all/);
    expect((await run(example, '--all')).out).not.toContain('more measures with --all');
  });
});

/** Films of one foot: for each the tip's places by reader, a name each; the height of the tip in px from a level ground. */
const filmsOf = (...films: readonly (readonly (readonly [reader: string | null, tip: number])[])[]): string =>
  `hoof 1\n\ncase "Alder"\n\n${films
    .map((readings, film) => {
      const [head = '', scale = '', ground = '', ...places] = filmText(
        {},
        { header: `film LF lateral "f${film}.png"` },
      ).split('\n');
      const by = readings.map(([reader, tip]) => {
        const own = places.map((line) => line.replace(/(p3\.tip @ \d+), \d+/, `$1, ${1000 - tip}`));
        return reader === null ? own.join('\n') : `    read "${reader}"\n${own.map((line) => `  ${line}`).join('\n')}`;
      });
      return `visit 2026-0${film + 1}-10\n${[head, scale, ground, ...by].join('\n')}\n`;
    })
    .join('\n')}`;

describe('agree', () => {
  it('takes one picture in the files of several readers for one film', async () => {
    const own = (reader: string, ...tips: number[]): string => filmsOf(...tips.map((tip) => [[reader, tip] as const]));
    write('each/ash.hoof', own('Ash', 160, 170, 175));
    write('each/rowan.hoof', own('Rowan', 163, 171, 172));
    const together = write(
      'one/both.hoof',
      filmsOf(
        [
          ['Ash', 160],
          ['Rowan', 163],
        ],
        [
          ['Ash', 170],
          ['Rowan', 171],
        ],
        [
          ['Ash', 175],
          ['Rowan', 172],
        ],
      ),
    );
    const [each, one] = [await json(join(folder, 'each')), await json(together)];
    expect(each).toEqual(one);
    expect(each.films).toMatchObject({ read: 3, byTwo: 3, repeated: 0 });
  });

  it('says that one reader is not enough, and one film', async () => {
    const alone = write('alone.hoof', filmsOf([['Ash', 160]], [['Ash', 170]]));
    expect((await run(alone)).out).toBe(
      '2 films read by Ash; 0 by two or more, 0 more than once by one person\nNothing can be compared: it takes two readings of one film.\n',
    );
    const film = write(
      'film.hoof',
      filmsOf(
        [
          ['Ash', 160],
          ['Rowan', 164],
        ],
        [['Ash', 170]],
      ),
    );
    const angle = measureIn(await json(film), 'palmar-angle');
    expect(angle).toMatchObject({ table: { lack: 'one film' }, pairs: [], between: { films: 1, df: 1 } });
    expect((await run(film)).out).toContain('no correlation: it takes two films that the same people');
    const again = write(
      'again.hoof',
      filmsOf(
        [
          ['Ash', 160],
          ['Ash', 164],
        ],
        [
          ['Ash', 170],
          ['Ash', 171],
        ],
      ),
    );
    expect(measureIn(await json(again), 'palmar-angle')).toMatchObject({
      between: null,
      table: { lack: 'one reader' },
      own: [{ reader: 'Ash', table: { columns: 2, films: 2 } }],
    });
    expect((await run(again)).out).toContain('no correlation between readers: no film has this measure by two of them');
  });

  it('leaves out what was followed from the film before, and says so', async () => {
    const [first, second] = [filmText(), filmText().replace(/(p3\.extensor @ [^\n]*)/, '$1 +- 6 followed')];
    write('followed/a.hoof', `hoof 1\n\nvisit 2026-03-04\n${first}\n    read "Ash"\n      p3.tip @ 2001, 841\n`);
    write(
      'followed/b.hoof',
      `hoof 1\n\nvisit 2026-03-04\n${first}\n\nvisit 2026-04-04\n${second.replace('x.png', 'y.png')}\n`,
    );
    expect((await json(join(folder, 'followed'))).films).toMatchObject({ read: 1, followed: 1 });
    const { out } = await run(join(folder, 'followed'));
    expect(out).toContain('1 reading was followed from the film before, whose errors it shares, and is left out');
  });

  it('leaves out copies of a reading, and says so', async () => {
    write(
      'copied/a.hoof',
      filmsOf([
        ['Ash', 160],
        ['Rowan', 164],
      ]),
    );
    write(
      'copied/b.hoof',
      filmsOf([
        ['Ash', 160],
        ['Rowan', 165],
      ]),
    );
    expect((await json(join(folder, 'copied'))).films).toMatchObject({ read: 1, copies: 1, repeated: 1 });
    expect((await run(join(folder, 'copied'))).out).toContain('1 reading is a copy of another by the same person');
  });

  it('keeps a film without a scale for its angles, and says that its landmarks are left out', async () => {
    const text = filmsOf(
      [
        ['Ash', 160],
        ['Rowan', 164],
        ['Elm', 158],
      ],
      [
        ['Ash', 170],
        ['Rowan', 168],
        ['Elm', 169],
      ],
    );
    const path = write('unscaled.hoof', text.replaceAll(/^ +scale .*\n/gm, ''));
    const found = await json(path);
    expect(found.films.notInMm).toBe(2);
    expect(found.landmarks).toEqual([]);
    expect(measureIn(found, 'palmar-angle').between?.readings).toBe(6);
    expect(found.measures.some(({ unit }) => unit === 'mm')).toBe(false);
    expect((await run(path)).out).toContain('2 films with several readings have no scale or no ground');
  });

  it('says of values that are all the same that they are', async () => {
    const same = write(
      'same.hoof',
      filmsOf(
        [
          ['Ash', 160],
          ['Rowan', 160],
        ],
        [
          ['Ash', 160],
          ['Rowan', 160],
        ],
      ),
    );
    expect(measureIn(await json(same), 'palmar-angle')).toMatchObject({
      table: { lack: 'all the same' },
      between: { sd: 0, interval: null },
    });
    expect((await run(same)).out).toContain('the same to the last figure');
  });

  it('shows control characters of a name, goes on after a bad file, and says where nothing is placed', async () => {
    const hostile = write(
      'mixed/a.hoof',
      filmsOf(
        [
          ['A\u001b[31mSH', 160],
          ['Rowan', 161],
        ],
        [['Rowan', 160]],
      ),
    );
    writeFileSync(join(folder, 'mixed', 'b.hoof'), Buffer.from([0x68, 0xe9, 0x0a]));
    const { out, status, err } = await run(join(folder, 'mixed'));
    expect(status).toBe(2);
    expect(err).toHaveLength(1);
    expect(out).not.toContain('\u001b');
    expect(out).toContain('Rowan 2');
    expect(hostile).toContain('mixed');
    const empty = write('empty.hoof', 'hoof 1\ncase "B"\n');
    expect((await run(empty)).out).toBe('No landmark is placed on any film.\n');
  });
});
