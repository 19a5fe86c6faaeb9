import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { sunk } from './moved-foot.ts';
import { boneCase } from './bone-cases.ts';
import { courseText, turn, wing } from './course-text.ts';
import { filmText } from './plain-foot.ts';

let folder = '';
let file = '';

async function run(...args: string[]): Promise<{ status: number; out: string; err: string[] }> {
  let out = '';
  const err: string[] = [];
  const status = await commandLine(['course', ...args], {
    out: (text) => (out += text),
    err: (line) => err.push(line),
  });
  return { status, out, err };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-course-'));
  file = join(folder, 'case.hoof');
  writeFileSync(
    file,
    courseText([
      { date: '2026-01-01', places: { ...wing(14), ...turn(5) } },
      { date: '2026-01-29', places: { ...wing(10), ...turn(12) } },
      { date: '2026-03-26', places: { ...wing(9.9), ...turn(25) } },
    ]),
  );
  writeFileSync(
    join(folder, 'two.hoof'),
    courseText([{ date: '2026-01-01' }, { date: '2026-02-01', film: { header: 'film RF lateral "r.png"' } }]),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('course', () => {
  it('gives JSON as other programs rely on', async () => {
    const { status, out, err } = await run(file, '--foot', 'LF', '--format', 'json');
    expect([status, err]).toEqual([0, []]);
    const [only] = jsonShapes.course.parse(JSON.parse(out)).cases;
    expect(only?.file).toBe(file);
    expect(Object.keys(only?.feet ?? {})).toEqual(['LF']);
    const angle = only?.feet['LF']?.['palmar-angle'];
    expect(angle).toMatchObject({
      n: 3,
      per: '28 days',
      level: expect.closeTo(2 / 3, 12),
      p: expect.closeTo(1 / 3, 12),
    });
    expect(angle?.changes.map(({ from, to, real }) => [from, to, real])).toEqual([
      ['2026-01-01', '2026-01-29', true],
      ['2026-01-29', '2026-03-26', false],
    ]);
    expect(only?.feet['LF']?.['grown-out']).toMatchObject({
      growOut: { toeLength: expect.closeTo(Math.hypot(53, 68), 9) as number },
    });
    expect(only?.feet['LF']?.['toe-length']).not.toHaveProperty('growOut');
  });

  it('has no slope of two films and no change of one', async () => {
    const { out } = await run(join(folder, 'two.hoof'), '--format', 'json');
    const feet = jsonShapes.course.parse(JSON.parse(out)).cases[0]?.feet;
    expect(Object.keys(feet ?? {})).toEqual(['LF', 'RF']);
    expect(feet?.['LF']?.['palmar-angle']).toEqual({ n: 1, changes: [] });
  });

  it('gives a row a measure and film as CSV', async () => {
    const { out } = await run(file, '--format', 'csv');
    const [head, ...rows] = out
      .trimEnd()
      .split('\r\n')
      .map((line) => line.split(','));
    const at = (row: readonly string[] | undefined, column: string): string | undefined =>
      row?.[head?.indexOf(column) ?? -1];
    const angles = rows.filter((row) => at(row, 'measure') === 'palmar-angle');
    expect(angles.map((row) => ['date', 'since', 'real', 'n'].map((column) => at(row, column)))).toEqual([
      ['2026-01-01', '', '', '3'],
      ['2026-01-29', '2026-01-01', 'true', '3'],
      ['2026-03-26', '2026-01-29', 'false', '3'],
    ]);
    expect(new Set(rows.map((row) => row.length))).toEqual(new Set([head?.length]));
    expect(Number(at(angles[1], 'difference'))).toBeCloseTo(
      Number(at(angles[1], 'value')) - Number(at(angles[0], 'value')),
      12,
    );
  });

  it('says in a table what changed, how surely, and when new wall reaches the ground', async () => {
    const { out, status } = await run(file);
    expect(status).toBe(0);
    expect(out).toMatch(
      /Palmar angle, usual 2° to 10°\n +2026-01-01 +9\.9° ± 0\.\d\n +2026-01-29 +7\.1° ± 0\.\d +−2\.8° {2}clear\n/,
    );
    expect(out).toMatch(/−0\.1° {2}within the error/);
    expect(out).toMatch(/\n +flatter by up to 2\.8° each four weeks; three films are too few to be sure\n/);
    expect(out).not.toMatch(/times in 100|by chance|no doubt/);
    expect(out).toMatch(/\n {4}sinking in the capsule: None seen; 2\.\d mm or more would have been\.\n/);
    expect(out).toMatch(/New wall reaches the ground about (?:early|mid|late)[ -][A-Z][a-z]+ 2026; /);
  });

  it('tells the first things, in their order, and the others only where they are asked for', async () => {
    const heads = (out: string) => [...out.matchAll(/^ {4}([A-Z][^\n,]*)/gm)].map(([, words]) => words);
    const { out } = await run(file);
    expect(heads(out)).toEqual([
      'Palmar angle',
      'Sole depth at the tip',
      'Founder distance in the capsule',
      'New wall grown out',
      'Heel beyond the sole plane',
    ]);
    const more = Number(/\n {4}(\d+) more measures with --all\n/.exec(out)?.[1]);
    expect(more).toBeGreaterThan(20);
    const all = (await run(file, '--all')).out;
    expect(heads(all)).toHaveLength(5 + more);
    expect(all).not.toContain('--all');
    // Other programs get them all, whether asked for or not.
    for (const format of ['json', 'csv'])
      expect((await run(file, '--format', format)).out).toBe((await run(file, '--all', '--format', format)).out);
  });

  it('shows the hairline convention of sinking where only that is placed', async () => {
    const places = { 'wall.top': undefined };
    writeFileSync(
      join(folder, 'hairline.hoof'),
      courseText([
        { date: '2026-01-01', places },
        { date: '2026-01-29', places },
      ]),
    );
    const { out } = await run(join(folder, 'hairline.hoof'));
    expect(out).toContain('    Coronet to extensor process in the capsule\n');
    expect(out).not.toContain('Founder distance');
  });

  it('gives other programs what of a sinking was told, and from where on it would have been', async () => {
    const sinkingIn = async (visits: Parameters<typeof courseText>[0]) => {
      writeFileSync(join(folder, 'sinks.hoof'), courseText(visits));
      const { out } = await run(join(folder, 'sinks.hoof'), '--format', 'json');
      return jsonShapes.course.parse(JSON.parse(out)).cases[0]?.sinking;
    };
    const dates = ['2026-01-01', '2026-01-29'] as const;
    const still = await sinkingIn(dates.map((date) => ({ date })));
    expect(still).toEqual({ LF: { told: 'none', seenFrom: expect.any(Number) as number, against: 'hairline' } });
    expect(still?.['LF']?.seenFrom).toBeGreaterThan(2);
    expect(still?.['LF']?.seenFrom).toBeLessThan(2.5);
    const sinks = await sinkingIn(dates.map((date, index) => ({ date, places: sunk(index * 5) })));
    expect(sinks?.['LF']).toMatchObject({ told: 'clear', by: expect.closeTo(5, 1) as number, since: '2026-01-01' });
    const scaleless = await sinkingIn([{ date: dates[0] }, { date: dates[1], film: { scale: null } }]);
    expect(scaleless).toEqual({ LF: { told: 'none', seenFrom: null, against: null } });
    expect((await run(join(folder, 'sinks.hoof'))).out).toContain('The newest film cannot tell: it lacks a scale.');
  });

  it('says in table, JSON and CSV where a scale is from the bone, and where one is in doubt', async () => {
    const name = join(folder, 'bone.hoof');
    writeFileSync(name, boneCase([{}, {}, { scale: 'scale bone' }, { scale: 'scale 0.108 mm/px' }]));
    expect((await run(name)).out).toContain(
      '\n    Scale from the bone on the film of 4 March 2024: its lengths are known to 3 % at best.\n',
    );
    let measured = '';
    await commandLine(['measure', name], { out: (text) => (measured += text), err: () => {} });
    expect(measured.match(/Scale from the bone: /g)).toHaveLength(1);
    const json = jsonShapes.course.parse(JSON.parse((await run(name, '--format', 'json')).out)).cases[0];
    expect(json?.films['LF']?.map(({ date, scaleFrom, doubted }) => [date, scaleFrom, doubted])).toEqual([
      ['2024-01-04', 'marker', undefined],
      ['2024-02-04', 'marker', undefined],
      ['2024-03-04', 'bone', undefined],
      ['2024-04-04', 'number', true],
    ]);
    expect(json?.feet['LF']?.['p3-length']).toMatchObject({ n: 4, slopeFilms: 3 });
    expect(json?.feet['LF']?.['palmar-angle']).toMatchObject({ n: 4, slopeFilms: 4 });
    const [head = [], ...rows] = (await run(name, '--format', 'csv')).out
      .trimEnd()
      .split('\r\n')
      .map((line) => line.split(','));
    const of = (row: readonly string[]) =>
      ['scale_from', 'scale_doubted', 'difference_doubted', 'slope_films'].map((column) => row[head.indexOf(column)]);
    expect(rows.filter((row) => row.includes('p3-length')).map(of)).toEqual([
      ['marker', 'false', '', '3'],
      ['marker', 'false', 'false', '3'],
      ['bone', 'false', 'false', '3'],
      ['number', 'true', 'true', '3'],
    ]);
  });

  it('says what a foot with one film lacks, and which feet there are', async () => {
    expect((await run(join(folder, 'two.hoof'))).out).toContain(
      'Left fore: one film, 2026-01-01\n    a course begins with the second film of a foot',
    );
    const twice = [{ date: '2026-01-01', more: [filmText({}, { header: 'film LF lateral "b.png"' })] }];
    writeFileSync(join(folder, 'twice.hoof'), courseText(twice));
    expect((await run(join(folder, 'twice.hoof'))).out).toContain(
      'Left fore: films of 2026-01-01\n    two films of one day; a course begins with a film of another day',
    );
    expect((await run(file, '--foot', 'RH')).out).toContain('no dated film of RH');
    expect(await run(file, '--foot', 'XX')).toEqual({
      status: 2,
      out: '',
      err: ['--foot takes LF, RF, LH, RH; not XX'],
    });
    expect((await run(join(folder, 'none.hoof'))).status).toBe(2);
  });
});
