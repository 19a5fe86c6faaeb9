import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { jsonShapes, type MarkJson } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { Dice } from '../property/dice.ts';
import { filmText, soundFoot, type FilmText, type Places } from './plain-foot.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-mark-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const write = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
/** A film of the plain foot, with places moved by so many mm to the toe and up. */
const caseOf = (moved: Places = {}, film: FilmText = {}): string => {
  const places = Object.fromEntries(
    Object.entries(moved).map(([name, by]) => {
      const at = soundFoot[name];
      return [name, by && at ? ([at[0] + by[0], at[1] + by[1]] as const) : undefined] as const;
    }),
  );
  return `hoof 1\n\nvisit 2026-03-04\n${filmText(places, film)}\n`;
};
const key = write('key.hoof', caseOf());

async function run(...args: string[]): Promise<{ status: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const status = await commandLine(['mark', ...args], {
    out: (text) => (out += text),
    err: (line) => (err += `${line}\n`),
    terminal: false,
  });
  return { status, out, err };
}

async function json(...args: string[]): Promise<MarkJson> {
  const { out } = await run(...args, '--format', 'json');
  return jsonShapes.mark.parse(JSON.parse(out));
}

const pointsOf = (found: MarkJson, student = 0) => found.students[student]?.films[0]?.marked?.points ?? [];

describe('ungula mark', () => {
  it('tells how far each place lies and which way, in mm of the key’s foot', async () => {
    const student = write('one.hoof', caseOf({ 'p3.tip': [3, -4], 'wall.top': undefined }));
    const points = pointsOf(await json(student, '--key', key));
    expect(points).toHaveLength(Object.keys(soundFoot).length);
    // 3 mm and 4 mm are 5 mm, as Pythagoras has it; each px is 0.1 mm.
    expect(points.find(({ landmark }) => landmark === 'p3.tip')).toMatchObject({
      off: {
        distance: expect.closeTo(5, 9) as number,
        toToe: expect.closeTo(3, 9) as number,
        up: expect.closeTo(-4, 9) as number,
      },
      unit: 'mm',
      agrees: false,
    });
    expect(points.find(({ landmark }) => landmark === 'wall.top')).toMatchObject({ off: null, agrees: false });
    expect(points.filter(({ agrees }) => agrees)).toHaveLength(points.length - 2);
    const { out, status } = await run(student, '--key', key);
    expect(status).toBe(1);
    expect(out).toContain(
      'left fore, lateral, x.png: 23 of 25 places agree with the key; half of them lie within 0.0 mm',
    );
    expect(out).toContain(
      'Tip of the pedal bone: 5.0 mm off, 4.0 mm too low and 3.0 mm too far to the toe; 1.4 mm are allowed',
    );
    expect(out).toContain('not placed: Top of the firm wall');
    expect(out).not.toContain('The class');
  });

  it('goes by the same foot where the film looks the other way', async () => {
    const mirrored = (text: string): string =>
      text.replace(/(@|\.\.|ground) +(-?\d+),/g, (_, sign: string, x: string) => `${sign} ${4000 - Number(x)},`);
    const other = write('mirrored-key.hoof', mirrored(caseOf()));
    const student = write('mirrored.hoof', mirrored(caseOf({ 'p3.tip': [3, -4] })));
    const [tip] = pointsOf(await json(student, '--key', other));
    expect(tip?.off?.toToe).toBeCloseTo(3, 9);
    expect(tip?.off?.up).toBeCloseTo(-4, 9);
  });

  it('takes a point anywhere on its line for right, and tells how far off the line it is', async () => {
    // The wall goes 28 mm along and 35 mm down from one point to the other: 4 to 5, as far as both are moved along it.
    const along = write('along.hoof', caseOf({ 'wall.upper': [4, -5], 'wall.lower': [-8, 10] }));
    for (const name of ['wall.upper', 'wall.lower']) {
      const point = pointsOf(await json(along, '--key', key)).find(({ landmark }) => landmark === name);
      expect(point?.off?.distance).toBeCloseTo(0, 6);
      expect(point?.agrees).toBe(true);
    }
    // Square to it, 5 along and 4 up, is √41 = 6.4 mm.
    const across = pointsOf(await json(write('across.hoof', caseOf({ 'wall.upper': [5, 4] })), '--key', key));
    expect(across.find(({ landmark }) => landmark === 'wall.upper')?.off?.distance).toBeCloseTo(Math.sqrt(41), 6);
  });

  it('allows 1.96 times the root of 2 of what the key’s placing is taken to be sure by, its own +- before any --tolerance', async () => {
    const own = write('loose.hoof', caseOf().replace(/(wall\.top @ [^\n]*)/, '$1 +- 20'));
    const student = write('two.hoof', caseOf({ 'wall.top': [3, 0], 'p3.tip': [2, 0] }));
    const [usual, given] = [
      pointsOf(await json(student, '--key', own)),
      pointsOf(await json(student, '--key', own, '--tolerance', '2.5')),
    ];
    const of = (points: typeof usual, name: string) => points.find(({ landmark }) => landmark === name);
    // A hand is taken to place by 0.5 mm; 20 px are 2 mm.
    expect(of(usual, 'p3.tip')?.tolerance).toBeCloseTo(1.96 * Math.SQRT2 * 0.5, 9);
    expect(of(usual, 'wall.top')?.tolerance).toBeCloseTo(1.96 * Math.SQRT2 * 2, 9);
    expect([of(usual, 'p3.tip')?.agrees, of(usual, 'wall.top')?.agrees]).toEqual([false, true]);
    expect(of(given, 'p3.tip')).toMatchObject({ tolerance: 2.5, agrees: true });
    expect(of(given, 'wall.top')?.tolerance).toBeCloseTo(1.96 * Math.SQRT2 * 2, 9);
    // A student makes nothing right by calling it unsure.
    const unsure = write('unsure.hoof', caseOf({ 'p3.tip': [9, 0] }).replace(/(p3\.tip @ [^\n]*)/, '$1 +- 90'));
    expect(of(pointsOf(await json(unsure, '--key', key)), 'p3.tip')?.agrees).toBe(false);
  });

  it('tells measures that differ clearly, a turned ground line and another scale', async () => {
    const student = write(
      'three.hoof',
      caseOf({ 'p3.wing': [0, 6] }, { scale: 'scale 0.11 mm/px', ground: 'ground 0, 1000 .. 2000, 1070' }),
    );
    const { out } = await run(student, '--key', key);
    // atan(70 / 2000) is 2.0°, and 0.11 for 0.1 is a tenth more.
    expect(out).toContain('the ground line is turned by 2.0° against the key’s');
    expect(out).toContain('by its scale every length is 10.0 % longer than by the key’s');
    expect(out).toMatch(/palmar angle: \d+\.\d°, in the key 5\.0°: \d+\.\d° too large; \d\.\d° are allowed/);
    const marked = (await json(student, '--key', key)).students[0]?.films[0]?.marked;
    expect(marked?.scaleRatio).toBeCloseTo(1.1, 9);
    expect(marked?.groundTurned).toBeCloseTo((-Math.atan2(70, 2000) * 180) / Math.PI, 9);
  });

  it('marks a class of ten: who is how far off, and what most have missed', async () => {
    const dice = new Dice(7);
    const students = Array.from({ length: 10 }, (_, i) => {
      // Each places like a careful hand, and seven of ten mistake the wing.
      const near = Object.fromEntries(
        Object.keys(soundFoot).map((name) => [name, [dice.between(-0.4, 0.4), dice.between(-0.4, 0.4)] as const]),
      );
      return write(
        `student-${i}.hoof`,
        caseOf({
          ...near,
          ...(i < 7 && { 'p3.wing': [-5, 0] as const }),
          ...(i === 9 && { 'coffin.centre': [4, 0] as const }),
        }),
      );
    });
    const { out, status } = await run(...students, '--key', key);
    expect(status).toBe(1);
    expect(out).toContain(
      'The class, 10 files:\n  Wing of the pedal bone: missed in 7 of 10\n  Centre of the coffin joint: missed in 1 of 10\n',
    );
    const found = await json(...students, '--key', key);
    expect(found.students).toHaveLength(10);
    for (const [i, { films }] of found.students.entries()) {
      const missed = films[0]?.marked?.points.filter(({ agrees }) => !agrees).map(({ landmark }) => landmark);
      expect(missed).toEqual(i < 7 ? ['p3.wing'] : i === 9 ? ['coffin.centre'] : []);
    }
  });

  it('finds the same film by foot, view and the picture’s name, and says where there is none', async () => {
    const elsewhere = write('elsewhere.hoof', caseOf({}, { header: 'film LF lateral "my films/x.png"' }));
    expect(pointsOf(await json(elsewhere, '--key', key))).toHaveLength(25);
    const other = write('other.hoof', caseOf({}, { header: 'film RF lateral "x.png"' }));
    expect((await json(other, '--key', key)).students[0]?.films).toEqual([
      { foot: 'LF', view: 'lateral', picture: 'x.png', there: false, marked: null, values: [], plans: null },
    ]);
    expect((await run(other, '--key', key)).out).toContain('none of the films of the key is in it');
    const begun = write('begun.hoof', 'hoof 1\n\nvisit 2026-03-04\n  film LF lateral "x.png"\n');
    expect((await run(begun, '--key', key)).out).toContain('x.png: nothing is placed on it');
  });

  it('takes a named reader of the key', async () => {
    const both = write('both.hoof', `${caseOf()}    read "Rowan"\n      p3.tip @ 2030, 840\n`);
    const student = write('four.hoof', caseOf({ 'p3.tip': [3, 0] }));
    expect(pointsOf(await json(student, '--key', both, '--reader', 'Rowan'))).toMatchObject([
      { landmark: 'p3.tip', off: { distance: expect.closeTo(0, 9) as number } },
    ]);
    expect((await run(student, '--key', both, '--reader', 'Ash')).err).toContain('no film has a reading by “Ash”');
  });

  it('says what it cannot do, with status 2', async () => {
    for (const [args, says] of [
      [[key], '--key FILE'],
      [[key, '--key', join(folder, 'nowhere.hoof')], 'nowhere.hoof'],
      [
        [key, '--key', write('bare.hoof', 'hoof 1\n\nvisit 2026-03-04\n  film LF lateral "x.png"\n')],
        'no film has a landmark',
      ],
      [[key, '--key', key, '--tolerance', 'much'], '--tolerance takes a number'],
    ] as const) {
      const { status, err } = await run(...args);
      expect([status, err]).toEqual([2, expect.stringContaining(says)]);
    }
  });
});
