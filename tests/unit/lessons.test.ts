import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, describe, expect, it } from 'vitest';
import { lessonFilms } from '../../examples/drawn/lessons.ts';
import { picture } from '../../examples/drawn/picture.ts';
import { greys } from '../../examples/drawn/png.ts';
import type { Picture } from '../../examples/drawn/render.ts';
import { truth, truthOnFilm, type UnmarkedTruth } from '../../examples/drawn/truth.ts';
import { jsonShapes, type MarkJson } from '../../shared/export/json-shapes.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import type { Visit } from '../../shared/record/schema.ts';
import { commandLine } from '../../src/cli/command-line.ts';

const lessons = join(import.meta.dirname, '..', '..', 'examples', 'lessons');
const read = (...path: string[]): string => readFileSync(join(lessons, ...path), 'utf8');
const names = readdirSync(lessons).filter((name) => name.endsWith('.hoof'));
const { films: truths } = JSON.parse(read('..', 'drawn', 'lessons-truth.json')) as { films: UnmarkedTruth[] };
const trueFilm = (file: string): UnmarkedTruth => {
  const found = truths.find((one) => one.file === file);
  if (!found) throw new Error(`${file} is not drawn`);
  return found;
};

const folder = mkdtempSync(join(tmpdir(), 'ungula-lessons-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Places = Record<string, readonly [number, number]>;

/** What a student writes on one film: pixels, and values by the name of the measure. */
interface Written {
  marker: string | null;
  ground: string | null;
  bearing: string | null;
  places: Places;
  values: Record<string, number>;
}

const segment = ({ from, to }: UnmarkedTruth['ground']): string => `${from.join(', ')} .. ${to.join(', ')}`;

/** A drawn foot's own number, as the film was drawn by it. */
function drawnBy({ parameters }: UnmarkedTruth, words: string): number {
  const found = parameters[words];
  if (found === undefined) throw new Error(`no ${words}`);
  return Number.parseFloat(found);
}

/** Each value that the lessons ask for, by the numbers that the foot was drawn by; nothing of it is computed by the program. */
const drawnValues: Readonly<Record<string, (film: UnmarkedTruth) => number>> = {
  // A wedge under a shod hoof raises the bone against the ground; 3° is how the one shoe is drawn.
  'palmar-angle': (film) => drawnBy(film, 'palmar angle') + (film.bearing ? 3 : 0),
  'palmar-angle.bearing': (film) => drawnBy(film, 'palmar angle'),
  'bone-angle': (film) =>
    drawnBy(film, 'palmar angle') + drawnBy(film, 'angle of P3 between dorsal face and solar margin'),
  'wall-angle': (film) =>
    drawnBy(film, 'palmar angle') +
    drawnBy(film, 'angle of P3 between dorsal face and solar margin') -
    drawnBy(film, 'dorsal face of P3 minus outer wall'),
  'capsular-rotation': (film) => drawnBy(film, 'dorsal face of P3 minus outer wall'),
  'sole-depth.tip': (film) => drawnBy(film, 'sole depth below the tip'),
  'founder-distance': (film) => drawnBy(film, 'firm wall above the extensor process'),
  'coronet-angle': (film) => drawnBy(film, 'fall of the hairline'),
  'toe-length': (film) => drawnBy(film, 'hairline to toe on the ground'),
  'heel-surplus': (film) => drawnBy(film, 'heel beyond the live sole plane'),
};

/** What a student writes who sees everything as it was drawn: the places and values that the key asks for. */
function perfect(name: string): Map<string, Written> {
  const { study } = inspect(read('key', name));
  return new Map(
    study.films.map(({ film }) => {
      const drawn = trueFilm(film.path.text);
      const asked = film.readings.flatMap(({ placings }) => placings.map(({ name: landmark }) => landmark));
      return [
        film.path.text,
        {
          marker: drawn.marker ? `100 mm = ${segment(drawn.marker)}` : null,
          ground: segment(drawn.ground),
          bearing: drawn.bearing ? segment(drawn.bearing) : null,
          places: Object.fromEntries(asked.map((landmark) => [landmark, drawn.landmarks[landmark] ?? [NaN, NaN]])),
          values: Object.fromEntries(
            film.expects.map(({ measure }) => [measure, Number(drawnValues[measure]?.(drawn).toFixed(1))]),
          ),
        },
      ] as const;
    }),
  );
}

const angles = /angle|rotation/;

/** The student's sheet with so much filled in, and a plan at the end where there is one. */
function filledIn(name: string, written: ReadonlyMap<string, Written>, plan = ''): string {
  const lines = read(name).split('\n');
  const filled = lines.flatMap((line) => {
    const path = /^ {2}film .*"(.+)"$/.exec(line)?.[1];
    const film = path === undefined ? undefined : written.get(path);
    if (!film) return [line];
    return [
      line,
      ...(film.marker === null ? [] : [`    scale ${film.marker}`]),
      ...(film.ground === null ? [] : [`    ground ${film.ground}`]),
      ...(film.bearing === null ? [] : [`    bearing ${film.bearing}`]),
      ...Object.entries(film.places).map(([landmark, [x, y]]) => `    ${landmark} @ ${x.toFixed(3)}, ${y.toFixed(3)}`),
      ...Object.entries(film.values).map(
        ([measure, value]) => `    expect ${measure} ${value} ${angles.test(measure) ? 'deg' : 'mm'}`,
      ),
    ];
  });
  const path = join(folder, `${name}-${filled.length}-${plan.length}.hoof`);
  writeFileSync(path, `${filled.join('\n')}${plan === '' ? '' : `\n${plan}\n`}`);
  return path;
}

async function run(...args: string[]): Promise<{ status: number; out: string }> {
  let out = '';
  const status = await commandLine(['mark', ...args], { out: (text) => (out += text), err: () => {} });
  return { status, out };
}

type MarkedFilms = MarkJson['students'][number]['films'];

async function marked(
  name: string,
  written: ReadonlyMap<string, Written>,
  plan = '',
): Promise<{ films: MarkedFilms; status: number; text: string }> {
  const sheet = filledIn(name, written, plan);
  const key = join(lessons, 'key', name);
  const { out, status } = await run(sheet, '--key', key, '--format', 'json');
  const table = await run(sheet, '--key', key);
  expect(table.status).toBe(status);
  const [student] = jsonShapes.mark.parse(JSON.parse(out)).students;
  expect(student?.agrees).toBe(status === 0);
  return { films: student?.films ?? [], status, text: table.out };
}

const missedOn = (film: MarkedFilms[number] | undefined): string[] =>
  film?.marked?.points.filter(({ agrees }) => !agrees).map(({ landmark }) => landmark) ?? [];

const film = (written: ReadonlyMap<string, Written>, path: string): Written => {
  const found = written.get(`films/${path}.png`);
  if (!found) throw new Error(`no ${path}`);
  return found;
};

/** So many mm up on the picture. */
const raised = (path: string, [x, y]: readonly [number, number], mm: number): readonly [number, number] => [
  x,
  y - mm / trueFilm(`films/${path}.png`).mmPerPx,
];

const placeOf = (path: string, landmark: string): readonly [number, number] => {
  const place = trueFilm(`films/${path}.png`).landmarks[landmark];
  if (!place) throw new Error(`no ${landmark}`);
  return place;
};

describe('the lessons', () => {
  it('are a sheet and a key each, in order, and the page beside them names each', () => {
    expect(readdirSync(join(lessons, 'key')).filter((name) => name.endsWith('.hoof'))).toEqual(names);
    expect(names.map((name) => Number.parseInt(name, 10))).toEqual([1, 2, 3, 4, 5, 6, 7]);
    const page = read('README.md');
    for (const name of names) expect(page).toContain(name);
  });

  it('use every drawn film, small, and the same in both folders', () => {
    const used = names.flatMap((name) => inspect(read('key', name)).study.films.map((one) => one.film.path.text));
    expect(used).toEqual(truths.map(({ file }) => file));
    for (const file of used) {
      expect(readFileSync(join(lessons, file)).equals(readFileSync(join(lessons, 'key', file)))).toBe(true);
      expect(statSync(join(lessons, file)).size, file).toBeLessThan(80_000);
    }
  });

  it.each(names)('%s: the key’s places are where they were drawn, to half a pixel', (name) => {
    for (const { film: one } of inspect(read('key', name)).study.films) {
      const drawn = trueFilm(one.path.text);
      const placed = one.readings.flatMap(({ placings }) => placings);
      expect(placed.length).toBeGreaterThanOrEqual(4);
      for (const { name: landmark, x, y } of placed) {
        const [tx, ty] = drawn.landmarks[landmark] ?? [NaN, NaN];
        expect(Math.max(Math.abs(x - tx), Math.abs(y - ty)), landmark).toBeLessThanOrEqual(0.2501);
      }
      expect(one.scale === null).toBe(drawn.marker === undefined);
    }
  });

  it.each(names)('%s: sheet and key say the same of the animal, and the sheet gives no answer', (name) => {
    const [sheet, key] = [inspect(read(name)).study.record, inspect(read('key', name)).study.record];
    const said = ({ date, obel, pulses, signs, vet, worn, seen, owner, films }: Visit) => ({
      date,
      obel: obel?.value,
      pulses: pulses.map(({ feet, pulse }) => [feet, pulse]),
      signs: signs.map(({ word }) => word),
      vet: vet.map(({ text }) => text),
      worn: worn.map(({ kind, feet, thickness, wedge }) => [kind, feet, thickness?.base, wedge?.base]),
      seen: seen.map(({ date: day }) => day),
      owner: owner.map(({ text }) => text),
      films: films.map(({ foot, view, path }) => [foot, view, path.text]),
    });
    const animal = ({ is }: { is: { name: string | null; kind: string | null; foaled: string | null } }) => [
      is.name,
      is.kind,
      is.foaled,
    ];
    expect(sheet.visits.map(({ is }) => said(is))).toEqual(key.visits.map(({ is }) => said(is)));
    expect(sheet.animal && animal(sheet.animal)).toEqual(key.animal && animal(key.animal));
    for (const { is } of sheet.visits) {
      const placed = is.films.flatMap(({ readings }) => readings.flatMap(({ placings }) => placings));
      expect([placed, is.films.flatMap(({ expects }) => expects)]).toEqual([[], []]);
      expect(is.cuts.filter(({ kind }) => kind === 'plan')).toEqual([]);
    }
  });

  it.each(names)('%s: sheet and key are laid out', (name) => {
    for (const text of [read(name), read('key', name)]) expect(format(text)).toBe(text);
  });

  // What the text of each key says that check finds, from a warning on; a note is no part of the lesson.
  it.each([
    ['1-normal-foot.hoof', []],
    ['2-scale-and-marker.hoof', []],
    ['3-rotation.hoof', ['warning range/palmar-angle']],
    ['4-sinking.hoof', ['error course/sinking', 'warning range/low-in-capsule']],
    ['5-long-heel.hoof', []],
    ['6-shod-foot.hoof', []],
    [
      '7-plan-not-to-be-done.hoof',
      [
        'error trim/live-sole',
        'error trim/palmar-angle',
        'error trim/sole-depth',
        'error visit/call-the-vet',
        'error visit/call-the-vet',
        'warning range/low-in-capsule',
        'warning range/palmar-angle',
        'warning range/sole-depth.tip',
        'warning trim/below-sole-plane',
        'warning trim/no-vet',
      ],
    ],
  ] as const)('%s: check finds in the key what its text says', (name, told) => {
    const { findings } = inspect(read('key', name));
    const grave = findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(grave.map(({ severity, code }) => `${severity} ${code}`).sort()).toEqual([...told]);
  });

  it.each(names)('%s: check finds nothing grave in the empty sheet but what calls the vet', (name) => {
    const grave = inspect(read(name)).findings.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(grave.filter(({ code }) => code !== 'visit/call-the-vet')).toEqual([]);
    expect(grave.length > 0).toBe(name.startsWith('7'));
  });

  it('have films that are drawn as their places are written down', () => {
    expect(truths).toEqual(lessonFilms.map((one) => JSON.parse(JSON.stringify(truthOnFilm(one))) as UnmarkedTruth));
    for (const one of lessonFilms) {
      const { width, height } = PNG.sync.read(readFileSync(join(lessons, 'films', `${one.name}.png`)));
      expect([width, height], one.name).toEqual([one.view.width, one.view.height]);
    }
    // The one without a marker, drawn again: nothing as bright as lead is where the bar of the others stands.
    const unmarked = lessonFilms.filter(({ isUnmarked }) => isUnmarked);
    expect(unmarked.map(({ name }) => name)).toEqual(['medlar-rf']);
    for (const one of unmarked) {
      const bytes = readFileSync(join(lessons, 'films', `${one.name}.png`));
      const drawn = picture(one);
      expect(Buffer.from(greys(bytes)).equals(Buffer.from(drawn.grey))).toBe(true);
      const { marker } = truth(one);
      const at = (shown: Picture): number =>
        shown.grey[
          Math.round((marker.from[1] + marker.to[1]) / 2) * shown.width +
            Math.round((marker.from[0] + marker.to[0]) / 2)
        ] ?? NaN;
      expect(at(drawn)).toBeLessThan(60);
      const { isUnmarked: _, ...withBar } = one;
      expect(at(picture(withBar))).toBeGreaterThan(200);
    }
  });
});

const plans: Readonly<Record<string, string>> = { '5-long-heel.hoof': '  plan LF\n    heel down 10 mm' };

describe('a perfect sheet', () => {
  it.each(names)('%s agrees throughout: places, lines, values, measures, plan', async (name) => {
    const { films, status, text } = await marked(name, perfect(name), plans[name]);
    expect(status, text).toBe(0);
    expect(films.length).toBeGreaterThan(0);
    for (const one of films) {
      expect(missedOn(one)).toEqual([]);
      expect(one.marked?.unplaced).toEqual([]);
      expect(one.marked?.measures.filter(({ agrees }) => !agrees)).toEqual([]);
      expect(one.values.length).toBeGreaterThan(0);
      expect(one.values.filter(({ agrees }) => !agrees)).toEqual([]);
    }
    // The vet is called in two of them, and one has a plan that may be done.
    const asked = films.flatMap(({ plans: one }) => one ?? []);
    expect(asked.map(({ agrees, care }) => [agrees, care !== null])).toEqual(
      { 4: [[true, true]], 5: [[true, false]], 7: [[true, true]] }[name[0] as '4'] ?? [],
    );
  });

  it.each(names)('%s: an empty sheet does not agree', async (name) => {
    expect((await run(join(lessons, name), '--key', join(lessons, 'key', name))).status).toBe(1);
  });
});

describe('the typical mistake of each lesson is told at that mistake', () => {
  it('1: the wing on its upper corner', async () => {
    const written = perfect('1-normal-foot.hoof');
    const mine = film(written, 'quince-lf');
    mine.places['p3.wing'] = raised('quince-lf', placeOf('quince-lf', 'p3.wing'), 6);
    const { films, status, text } = await marked('1-normal-foot.hoof', written);
    expect([missedOn(films[0]), status]).toEqual([['p3.wing'], 1]);
    expect(text).toMatch(/Wing of the pedal bone: [56]\.\d mm off, [56]\.\d mm too high/);
    expect(text).toMatch(/palmar angle: 9\.\d°, in the key 5\.\d°: 4\.\d° too large/);
  });

  it('2: another length of the marker, and a length where there is none', async () => {
    const written = perfect('2-scale-and-marker.hoof');
    const mine = film(written, 'medlar-lf');
    mine.marker = mine.marker?.replace('100 mm', '80 mm') ?? null;
    mine.values['sole-depth.tip'] = 13.2;
    film(written, 'medlar-rf').values['toe-length'] = 91;
    const { films, status, text } = await marked('2-scale-and-marker.hoof', written);
    expect([missedOn(films[0]), missedOn(films[1]), status]).toEqual([[], [], 1]);
    expect(films[0]?.marked?.scaleRatio).toBeCloseTo(0.8, 2);
    expect(text).toMatch(/by its scale every length is (?:19\.\d|20\.\d) % shorter than by the key’s/);
    expect(text).toContain('sole depth at the tip, read as 13.2 mm, in the key 16.5 mm: 3.3 mm too small');
    expect(text).toContain('toe length, read as 91.0 mm: nobody can read it here');
  });

  it('3: the bone’s face on the inner edge of the horn', async () => {
    const written = perfect('3-rotation.hoof');
    const mine = film(written, 'yarrow-lf-2');
    for (const end of ['upper', 'lower']) mine.places[`p3.dorsal.${end}`] = placeOf('yarrow-lf-2', `wall.inner.${end}`);
    mine.values['capsular-rotation'] = 0;
    const { films, status, text } = await marked('3-rotation.hoof', written);
    expect([missedOn(films[0]), missedOn(films[1]), status]).toEqual([[], ['p3.dorsal.upper', 'p3.dorsal.lower'], 1]);
    expect(text).toContain('capsular rotation, read as 0.0°, in the key 8.0°: 8.0° too small; 2.0° are allowed');
  });

  it('4: the top of the firm wall at the hairline, and a trim on the day of an alarm', async () => {
    const written = perfect('4-sinking.hoof');
    film(written, 'sloe-lf-1').places['wall.top'] = placeOf('sloe-lf-1', 'coronet.dorsal');
    const { films, status, text } = await marked('4-sinking.hoof', written, '  plan LF\n    heel down 3 mm');
    expect([films.map(missedOn), status]).toEqual([[['wall.top'], [], []], 1]);
    expect(text).toMatch(/Top of the firm wall: \d+\.\d mm off, .*too high/);
    expect(films.map(({ plans: one }) => one?.agrees)).toEqual([undefined, undefined, false]);
    expect(text).toMatch(/no plan may be written here: An alarm is open, .* lower in the capsule/);
  });

  it('5: the live sole on the ground, and all of the heel at once', async () => {
    const written = perfect('5-long-heel.hoof');
    const mine = film(written, 'tansy-lf');
    mine.places['sole.heel'] = raised('tansy-lf', placeOf('tansy-lf', 'sole.heel'), -15);
    mine.values['heel-surplus'] = 0;
    const { films, status, text } = await marked('5-long-heel.hoof', written, '  plan LF\n    heel down 15 mm');
    expect([missedOn(films[0]), status]).toEqual([['sole.heel'], 1]);
    expect(text).toContain('heel beyond the sole plane, read as 0.0 mm, in the key 15.0 mm: 15.0 mm too small');
    const [plan] = films[0]?.plans?.plans ?? [];
    const turn = plan?.broken.find(({ code }) => code === 'trim/turn-per-visit');
    // By the foot as it was drawn: 15 mm at the end of 136 mm turn it by 6.3°, and 5° is what one visit may do.
    expect(turn?.by).toBeCloseTo((Math.atan2(15, 136) * 180) / Math.PI - 5, 1);
    expect(plan?.off?.heel).toBe(5);
  });

  it('6: the hoof on the ground under its shoe', async () => {
    const written = perfect('6-shod-foot.hoof');
    const mine = film(written, 'bracken-lf');
    const drawn = trueFilm('films/bracken-lf.png');
    mine.bearing = mine.ground;
    for (const contact of ['toe.ground', 'heel.ground'] as const) {
      const [x] = placeOf('bracken-lf', contact);
      const { from, to } = drawn.ground;
      mine.places[contact] = [x, from[1] + ((x - from[0]) / (to[0] - from[0])) * (to[1] - from[1])];
    }
    mine.values['palmar-angle.bearing'] = 7;
    const { films, status, text } = await marked('6-shod-foot.hoof', written);
    expect([missedOn(films[0]), status]).toEqual([['toe.ground', 'heel.ground'], 1]);
    expect(text).toMatch(/the plane between hoof and shoe is turned by 3\.\d° against the key’s/);
    expect(text).toContain('palmar angle to the bearing plane, read as 7.0°, in the key 4.0°: 3.0° too large');
  });

  it('7: the plan that the owner wishes', async () => {
    const written = perfect('7-plan-not-to-be-done.hoof');
    const { films, status, text } = await marked(
      '7-plan-not-to-be-done.hoof',
      written,
      '  plan RF\n    heel down 4 mm',
    );
    expect([missedOn(films[0]), films[0]?.plans?.agrees, status]).toEqual([[], false, 1]);
    expect(films[0]?.plans?.key).toBeNull();
    expect(text).toMatch(/no plan may be written here: An alarm is open, .*Call the vet today/);
    const codes = films[0]?.plans?.plans[0]?.broken.map(({ code }) => code);
    for (const code of ['trim/below-sole-plane', 'trim/live-sole', 'trim/palmar-angle', 'trim/sole-depth'])
      expect(codes).toContain(code);
  });
});
