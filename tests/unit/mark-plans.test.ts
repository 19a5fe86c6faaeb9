import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { jsonShapes, type MarkJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { filmText, soundFoot, type FilmText, type Places } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-mark-plans-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let written = 0;
const write = (text: string): string => {
  const path = join(folder, `${written++}.hoof`);
  writeFileSync(path, text);
  return path;
};

interface Sheet {
  readonly state?: string;
  readonly places?: Places;
  readonly film?: FilmText;
  readonly plan?: string;
}

/** A grown mare that is sound, unless `state` says otherwise. */
const sheet = ({ state = 'obel 0', places = {}, film = {}, plan = '' }: Sheet = {}): string =>
  write(
    `hoof 1\n\ncase "Test"\n  animal horse mare\n  foaled 2014-04\n\nvisit 2026-03-04\n  ${state}\n\n${filmText(places, film)}\n${plan === '' ? '' : `\n  plan LF\n    ${plan}\n`}`,
  );

async function run(...args: string[]): Promise<{ status: number; out: string }> {
  let out = '';
  const status = await commandLine(['mark', ...args], { out: (text) => (out += text), err: () => {}, terminal: false });
  return { status, out };
}

type Film = MarkJson['students'][number]['films'][number];

/** What is told of one student, with the status of the command. */
async function marked(
  student: string,
  key: string,
  ...more: string[]
): Promise<{ film: Film; status: number; agrees: boolean; text: string }> {
  const { out, status } = await run(student, '--key', key, ...more, '--format', 'json');
  const [one] = jsonShapes.mark.parse(JSON.parse(out)).students;
  const [film] = one?.films ?? [];
  if (!one || !film) throw new Error('no student was marked');
  const table = await run(student, '--key', key, ...more);
  expect(table.status).toBe(status);
  return { film, status, agrees: one.agrees, text: table.out };
}

const near = (value: number): number => expect.closeTo(value, 6) as number;

describe('a student’s plan', () => {
  it('is judged on the key’s foot, whatever the student has placed', async () => {
    // The heel stands 3 mm beyond the live sole plane in the key. The student has it 12 mm beyond, and 8 mm look right.
    const own = { 'sole.heel': [-104, 12], 'sole.wing': [-80, 13] } as const;
    const { film, status, text } = await marked(sheet({ places: own, plan: 'heel down 8 mm' }), sheet());
    expect(status).toBe(1);
    const [plan] = film.plans?.plans ?? [];
    expect(plan).toMatchObject({ line: 39, heel: 8, toe: 0, back: 0, agrees: false, cannot: null, off: null });
    expect(plan?.broken.map(({ code, place }) => [code, place])).toContainEqual(['trim/below-sole-plane', null]);
    expect(plan?.broken.find(({ code }) => code === 'trim/below-sole-plane')?.by).toBeCloseTo(8 - 3, 6);
    expect(text).toContain(
      'plan in line 39, heel down 8 mm: breaks a limit on the key’s foot: 5.0 mm below the live sole plane at the heel',
    );
  });

  it('of a later day, when the film is too old to plan on, is not right', async () => {
    const on = (day: string): string =>
      write(
        readFileSync(sheet({ plan: 'heel down 2 mm' }), 'utf8').replace(
          '\n  plan LF',
          `\nvisit ${day}\n  obel 0\n\n  plan LF`,
        ),
      );
    expect((await marked(on('2026-03-05'), sheet())).status).toBe(0);
    const late = await marked(on('2026-12-04'), sheet());
    expect(late.status).toBe(1);
    expect(late.film.plans?.plans).toMatchObject([{ heel: 2, broken: [], agrees: false }]);
    expect(late.text).toMatch(/plan in line 42, heel down 2 mm: cannot be foretold on the key’s foot\. .*days old/);
  });

  it('of a foot that the key has no film of is told, and wrong while care comes first', async () => {
    const onRight = (state: string): string => {
      const path = sheet({ state, plan: 'heel down 2 mm' });
      const text = readFileSync(path, 'utf8').replace('plan LF', 'plan RF');
      return write(text);
    };
    const calm = await marked(onRight('obel 0'), sheet());
    expect(calm.status).toBe(0);
    expect(calm.film.plans?.plans).toMatchObject([{ line: 39, heel: 2, agrees: null }]);
    expect(calm.text).toContain(
      'plan in line 39, heel down 2 mm: cannot be foretold on the key’s foot. The key has no',
    );
    const lame = await marked(onRight('obel 0'), sheet({ state: 'obel 3' }));
    expect(lame.status).toBe(1);
    expect(lame.film.plans?.plans).toMatchObject([{ line: 39, heel: 2, agrees: false }]);
    expect(lame.text).toContain('no plan may be written here: An alarm is open');
    expect(lame.text).not.toContain('no plan is written');
  });

  it('leaves what is foretold on the key’s foot', async () => {
    const { film, status, text } = await marked(sheet({ plan: 'heel down 2 mm' }), sheet());
    expect(status).toBe(0);
    // On paper: from (−110, 2) to (28, 0) the foot turns by atan(2 / 138); tip to wing rises 7 in 80.
    const degrees = 180 / Math.PI;
    const leaves = film.plans?.plans[0]?.leaves ?? [];
    expect(leaves.find(({ measure }) => measure === 'palmar-angle')).toEqual({
      measure: 'palmar-angle',
      unit: 'deg',
      before: near(Math.atan2(7, 80) * degrees),
      after: near((Math.atan2(7, 80) - Math.atan2(2, 138)) * degrees),
    });
    expect(leaves.map(({ measure }) => measure)).toEqual(['palmar-angle', 'sole-depth.tip', 'sole-depth.wing']);
    expect(text).toContain('plan in line 39, heel down 2 mm: keeps every limit on the key’s foot');
    expect(text).toContain('It leaves palmar angle 4.2°, before 5.0°; sole depth at the tip 15.0 mm, before 15.0 mm');
  });

  it('lies so far from the key’s own plan, and agrees within 2 mm', async () => {
    const deep = { 'sole.heel': [-104, 9], 'sole.wing': [-80, 8] } as const;
    const key = sheet({ places: deep, plan: 'heel down 5 mm' });
    const all = { places: deep };
    const near3 = await marked(sheet({ ...all, plan: 'heel down 3 mm' }), key);
    expect([near3.status, near3.film.plans?.plans[0]?.off]).toEqual([
      0,
      { heel: -2, toe: 0, back: 0, inside: 0, outside: 0 },
    ]);
    expect(near3.film.plans?.key).toEqual({ heel: 5, toe: 0, back: 0, inside: 0, outside: 0 });
    expect(near3.text).toContain('2.0 mm less off the heel than in the key’s plan, heel down 5 mm: near enough');
    const far = await marked(sheet({ ...all, plan: 'heel down 2.5 mm\n    toe back 2.5 mm' }), key);
    expect([far.status, far.film.plans?.plans[0]?.off]).toMatchObject([1, { heel: -2.5, back: 2.5 }]);
    expect(far.text).toContain(
      '2.5 mm less off the heel, the toe 2.5 mm further back than in the key’s plan, heel down 5 mm; 2.0 mm are allowed',
    );
    const none = await marked(sheet(all), key);
    expect([none.status, none.film.plans?.agrees]).toEqual([1, false]);
    expect(none.text).toContain('no plan is written; in the key: heel down 5 mm');
    const bent = await marked(sheet({ ...all, plan: 'heel down 5 mm from 60 mm' }), key);
    expect(bent.film.plans?.agrees).toBe(false);
    expect(bent.text).toContain('The key’s plan cuts on one plane: heel down 5 mm');
  });

  it('is not to be done while the key has an open sign, and none agrees then', async () => {
    const key = sheet({ state: 'sign fever' });
    // A student who leaves the sign out of his sheet does not do away with it.
    const planned = await marked(sheet({ plan: 'heel down 1 mm' }), key);
    expect([planned.status, planned.film.plans?.agrees]).toEqual([1, false]);
    expect(planned.film.plans?.care).toContain('An alarm is open');
    expect(planned.film.plans?.plans[0]?.broken).toEqual([]);
    expect(planned.text).toContain('no plan may be written here: An alarm is open');
    expect(planned.text).toContain('plan in line 39, heel down 1 mm: not to be done');
    const none = await marked(sheet(), key);
    expect([none.status, none.film.plans?.agrees]).toEqual([0, true]);
    expect(none.text).toContain('no plan is written, and none may be: An alarm is open');
    // A plan that takes nothing off is no cut.
    const boots = await marked(sheet({ plan: 'boots "soft pads"' }), key);
    expect([boots.status, boots.film.plans?.plans[0]?.agrees]).toEqual([0, true]);
  });

  it('is told that a lame animal wants the vet’s word first, as in the key', async () => {
    const lame = await marked(sheet({ plan: 'heel down 1 mm' }), sheet({ state: 'obel 2' }));
    expect(lame.film.plans?.care).toMatch(/^The lameness is Obel grade 2, and no vet line says/);
    const agreed = await marked(
      sheet({ plan: 'heel down 1 mm' }),
      sheet({ state: 'obel 2\n  vet "agrees to lower the heels"' }),
    );
    expect([agreed.film.plans?.care, agreed.status]).toEqual([null, 0]);
  });

  it('is not held against a plan of the key that must not be done', async () => {
    const key = sheet({ plan: 'heel down 9 mm' });
    const careful = await marked(sheet({ plan: 'heel down 1 mm' }), key);
    expect([careful.film.plans?.key, careful.film.plans?.agrees, careful.status]).toEqual([null, true, 0]);
    const none = await marked(sheet(), key);
    expect([none.film.plans?.agrees, none.status]).toEqual([true, 0]);
    expect(none.text).toContain('no plan is written, and the key’s own must not be done');
    expect((await marked(sheet({ plan: 'heel down 9 mm' }), key)).status).toBe(1);
  });

  it('is not judged, and is not called right, where the key lacks a place that limits go by', async () => {
    const key = sheet({ places: { 'sole.wing': undefined } });
    const { film, status, text } = await marked(sheet({ plan: 'heel down 20 mm' }), key);
    expect([film.plans?.agrees, film.plans?.plans[0]?.agrees, status]).toEqual([null, null, 0]);
    expect(text).toContain('plans cannot be judged on the key’s foot: Place the sole below the wing on');
    expect((await marked(sheet(), key)).film.plans).toBeNull();
  });

  it('goes by the places of the reader who is the key', async () => {
    const places = Object.entries({ ...soundFoot, 'sole.heel': [-104, 9], 'sole.wing': [-80, 8] } as typeof soundFoot)
      .map(([name, [x, y]]) => `      ${name} @ ${2000 + x * 10}, ${1000 - y * 10}`)
      .join('\n');
    const key = sheet();
    const two = write(
      `hoof 1\n\ncase "Test"\n  animal horse mare\n  foaled 2014-04\n\nvisit 2026-03-04\n  obel 0\n\n${filmText()}\n    read "Hazel"\n${places}\n`,
    );
    const student = sheet({ places: { 'sole.heel': [-104, 9], 'sole.wing': [-80, 8] }, plan: 'heel down 5 mm' });
    expect((await marked(student, key)).film.plans?.agrees).toBe(false);
    expect((await marked(student, two)).film.plans?.agrees).toBe(false);
    const hers = await marked(student, two, '--reader', 'Hazel');
    expect([hers.film.plans?.agrees, hers.status]).toEqual([true, 0]);
  });
});

describe('a key in the student’s own file', () => {
  it('judges the plans of the file on the key’s places, and takes plans and values for the student’s', async () => {
    const places = Object.entries(soundFoot)
      .map(([name, [x, y]]) => `      ${name} @ ${2000 + x * 10}, ${1000 - y * 10}`)
      .join('\n');
    const own = { 'sole.heel': [-104, 12], 'sole.wing': [-80, 13] } as const;
    const file = write(
      `hoof 1\n\ncase "Test"\n  animal horse mare\n  foaled 2014-04\n\nvisit 2026-03-04\n  obel 0\n\n${filmText(own, { more: ['expect palmar-angle 9 deg'] })}\n    read "Hazel"\n${places}\n\n  plan LF\n    heel down 8 mm\n`,
    );
    const { film } = await marked(file, file, '--reader', 'Hazel');
    expect(film.values).toMatchObject([{ key: near((Math.atan2(7, 80) * 180) / Math.PI), student: 9, agrees: false }]);
    expect(film.plans?.key).toBeNull();
    expect(film.plans?.plans[0]?.broken.map(({ code }) => code)).toContain('trim/below-sole-plane');
  });
});

describe('a value that a student has read', () => {
  const stated = (...lines: string[]): Sheet => ({ film: { more: lines } });

  it('is held against what the key states, within its +-, and without one against what its places give', async () => {
    const key = sheet(stated('expect palmar-angle 5 deg +- 1 deg'));
    const mine = sheet(stated('expect palmar-angle 6.1 deg +- 9 deg', 'expect sole-depth.tip 15.5 mm'));
    const { film, status, text } = await marked(mine, key);
    expect(film.values).toMatchObject([
      { measure: 'palmar-angle', key: 5, student: 6.1, tolerance: 1, agrees: false },
      // 16 mm under the tip less 1 mm of air.
      { measure: 'sole-depth.tip', key: near(15), student: 15.5, agrees: true },
    ]);
    expect(status).toBe(1);
    expect(text).toContain('palmar angle, read as 6.1°, in the key 5.0°: 1.1° too large; 1.0° are allowed');
    expect(text).toContain('read as in the key: sole depth at the tip');
    const right = await marked(sheet(stated('expect palmar-angle 6 deg')), key);
    expect([right.film.values[0]?.agrees, right.status]).toEqual([true, 0]);
  });

  it('is asked for where the key states it, and cannot be read where the key gives none', async () => {
    const key = sheet(stated('expect palmar-angle 5 deg +- 1 deg'));
    const none = await marked(sheet(), key);
    expect([none.film.values[0]?.student, none.status]).toEqual([null, 1]);
    expect(none.text).toContain('not read: palmar angle');
    // Without a scale nobody can tell a length.
    const without = sheet({ film: { scale: null } });
    const length = await marked(sheet({ film: { scale: null, more: ['expect sole-depth.tip 15 mm'] } }), without);
    expect(length.film.values).toMatchObject([{ measure: 'sole-depth.tip', key: null, agrees: false }]);
    expect(length.status).toBe(1);
    expect(length.text).toContain(
      'sole depth at the tip, read as 15.0 mm: nobody can read it here, as the key does not give it',
    );
  });

  it('counts for nothing where it cannot be one of the measure', async () => {
    const { film } = await marked(sheet(stated('expect palmar-angle 5 mm')), sheet());
    expect(film.values).toEqual([]);
  });
});

describe('the lines of a film', () => {
  it('are told where the key has them and the student has not', async () => {
    const { film, status, text } = await marked(sheet({ film: { scale: null, ground: null } }), sheet());
    expect([film.marked?.unplaced, status]).toEqual([['scale', 'ground'], 1]);
    expect(text).toContain('not placed: the scale, so that no length can be told');
    expect(text).toContain('not placed: the ground line');
  });

  it('are off the key where the plane of a shod foot lies too low or is turned', async () => {
    const shoe = 'obel 0\n  shoe LF 10 mm';
    const shod = (bearing: string): string =>
      sheet({ state: shoe, film: { ground: 'ground 0, 1100 .. 2000, 1100', more: [bearing] } });
    const key = shod('bearing 0, 1000 .. 2000, 1000');
    const same = await marked(shod('bearing 2000, 1000 .. 0, 1000'), key);
    expect([same.film.marked?.bearing, same.status]).toEqual([
      { turned: near(0), up: near(0), tolerance: near(1.96 * Math.SQRT2 * 0.5) },
      0,
    ]);
    // 100 px are 10 mm.
    const low = await marked(shod('bearing 0, 1100 .. 2000, 1100'), key);
    expect([low.film.marked?.bearing?.up, low.status]).toEqual([near(-10), 1]);
    expect(low.text).toContain('the plane between hoof and shoe lies 10.0 mm too low');
    const turned = await marked(shod('bearing 0, 1000 .. 2000, 1070'), key);
    expect(turned.film.marked?.bearing?.turned).toBeCloseTo((-Math.atan2(70, 2000) * 180) / Math.PI, 6);
    expect(turned.text).toContain('the plane between hoof and shoe is turned by 2.0° against the key’s');
    const missing = await marked(sheet({ state: shoe, film: { ground: 'ground 0, 1100 .. 2000, 1100' } }), key);
    expect(missing.film.marked?.unplaced).toEqual(['bearing']);
    expect(missing.text).toContain('not placed: the plane between hoof and shoe (bearing)');
  });
});
