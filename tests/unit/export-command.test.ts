import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';
import { csvRows, descriptorIn, filesBelow, parquetRows, runExport } from './exported.ts';
import { madeCases } from './made-cases.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-export-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let made = 0;
const place = (): string => join(folder, `place-${++made}`);

/** A folder with these case files. */
function given(files: Readonly<Record<string, string>>): string {
  const at = place();
  mkdirSync(at);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(at, name), text);
  return at;
}

const text = (lines: string, body = 'visit 2026-03-04\n  weight 500 kg\n'): string =>
  `hoof 1\n\ncase "Sorb"\n  animal horse\n${lines}\n${body}`;
const fit = text('  code S1\n  sharing series');

describe('which cases leave', () => {
  const bad: readonly (readonly [name: string, text: string, says: RegExp, status: 0 | 2])[] = [
    ['is private', text('  code S2\n  sharing private'), /private: the case says so/, 0],
    ['says nothing of sharing', text('  code S2'), /says nothing of sharing/, 0],
    ['has a slip in its sharing', text('  code S2\n  sharing serie'), /says nothing of sharing/, 0],
    ['has no code', text('  sharing series'), /has no study code/, 2],
    ['is open and has no code', text('  sharing open'), /has no study code/, 2],
    ['says sharing twice', text('  code S2\n  sharing series\n  sharing private'), /more than once/, 2],
    ['says sharing once and nearly once', text('  code S2\n  sharing series\n  sharng private'), /more than once/, 2],
    [
      'says sharing in a visit too',
      text('  code S2\n  sharing open', 'visit 2026-03-04\n  sharing private\n'),
      /more than once/,
      2,
    ],
    ['has two codes', text('  code S2\n  code S3\n  sharing series'), /more than once/, 2],
    [
      'holds two cases',
      `${text('  code S2\n  sharing series')}\ncase "Other"\n  sharing private\n`,
      /more than once/,
      2,
    ],
    ['has a code that is too long for a key', text(`  code ${'S'.repeat(33)}\n  sharing series`), /no plain one/, 2],
    ['has its name for a code', text('  code sorb-2\n  sharing series'), /holds a name/, 2],
    [
      'has its chip for a code',
      text('  microchip 985141000987654\n  code 985141000987654\n  sharing series'),
      /holds a name/,
      2,
    ],
    [
      'has its name without its accent',
      text('  code OLWIN-1\n  sharing series').replace('Sorb', 'Ölwin'),
      /holds a name/,
      2,
    ],
    [
      'has its name as it is spelled',
      text('  code oelwin1\n  sharing series').replace('Sorb', 'Ölwin'),
      /holds a name/,
      2,
    ],
    ['has its name in one', text('  code moli\n  sharing series').replace('Sorb', 'Mo-Li'), /holds a name/, 2],
    ['is a lesson', text('  code S2\n  sharing series\n  key "teacher.hoof" by "Rowan"'), /a lesson: its films/, 2],
    ['has its short name', text('  code bo-7\n  sharing series').replace('Sorb', 'Bo'), /holds a name/, 2],
    ['has the end of its chip', text('  microchip 985141000987654\n  code S7654\n  sharing series'), /holds a name/, 2],
    ['has its birth', text('  foaled 2014-05-03\n  code S03.05.2014\n  sharing series'), /holds a name/, 2],
    ['has a day of a visit', text('  code S260304\n  sharing series'), /holds a name/, 2],
    ['is of a newer version', text('  code S2\n  sharing series').replace('hoof 1', 'hoof 9'), /does not read/, 2],
    ['is none', 'hoof 1\nvisit 2026-03-04\n', /no case stands/, 2],
  ];

  it.each(bad)('one that %s stays, and it is said why', async (_, other, says, ends) => {
    const to = place();
    const { status, err } = await runExport(given({ 'fit.hoof': fit, 'other.hoof': other }), '-o', to);
    expect(err.join('\n')).toMatch(says);
    expect(err.join('\n')).toContain('other.hoof');
    expect(status).toBe(ends);
    expect(csvRows(join(to, 'cases.csv')).map((row) => row['case'])).toEqual(['S1']);
    expect(csvRows(join(to, 'visits.csv'))).toHaveLength(1);
    const { counts } = descriptorIn(to).ungula as { counts: { files: number; stayed: Record<string, number> } };
    expect([counts.files, Object.values(counts.stayed)]).toEqual([2, [1]]);
    expect(readFileSync(join(to, 'report.md'), 'utf8')).not.toContain('other.hoof');
  });

  it('two with one code both stay, however far apart and in whatever letters, in each way of splitting', async () => {
    const files = given({
      'a.hoof': fit,
      'b.hoof': text('  code s1\n  sharing open'),
      'c.hoof': text('  code S9\n  sharing series'),
    });
    const to = place();
    const { status, err } = await runExport(files, '-o', to);
    expect(status).toBe(2);
    expect(err.join('\n')).toMatch(/a\.hoof \(S1\)[^]*b\.hoof \(s1\)/);
    expect(csvRows(join(to, 'cases.csv')).map((row) => row['case'])).toEqual(['S9']);
    const split = place();
    const ends: number[] = [];
    for (const shard of ['1/4', '2/4', '3/4', '4/4'])
      ends.push((await runExport(files, '-o', split, '--shard', shard, '--seed', 'a seed for tests')).status);
    expect(ends.toSorted((a, b) => a - b)).toEqual([0, 0, 0, 2]);
    expect((await runExport('--join', split)).status).toBe(0);
    const { counts } = descriptorIn(split).ungula as { counts: { files: number; cases: number; stayed: object } };
    expect(counts).toMatchObject({ files: 3, cases: 1, stayed: { 'same code': 2 } });
  });

  it('a file that cannot be read is told, counts, and costs only itself', async () => {
    const to = place();
    const files = given({ 'fit.hoof': fit });
    writeFileSync(join(files, 'odd.hoof'), Uint8Array.of(0xff, 0xfe, 0x00));
    const { status, err } = await runExport(files, '-o', to);
    expect([status, err.some((line) => /odd\.hoof: not UTF-8/.test(line))]).toEqual([2, true]);
    expect(descriptorIn(to).ungula['counts']).toMatchObject({ files: 2, cases: 1, notRead: 1 });
  });

  it('where none leaves there is no package', async () => {
    const to = place();
    const { status, err } = await runExport(given({ 'a.hoof': text('  code S1') }), '-o', to);
    expect([status, existsSync(to)]).toEqual([2, false]);
    expect(err.join('\n')).toContain('no package is written');
  });
});

describe('what leaves of a case', () => {
  const body = [
    'visit 2026-03-04',
    '  insulin > 200 mU/L 60 minutes after syrup',
    '  hormone "Anything at all" 4.1 ug/mL',
    '  temperature 100.4 F',
    '  lameness LF 2',
    '  lameness LF 3',
    '  sign fever',
    '  sign green-tongue',
    '  shoe LF 10 mm wedge 3 deg "a make that names its smith"',
    '  next 4 weeks',
    '  film LF skyline "x.png"',
    '    block 6 cm',
    'visit 2026-04-01',
    '  next 2026-04-15',
    '',
  ].join('\n');

  async function exported(lines: string, more = body): Promise<string> {
    const to = place();
    expect((await runExport(given({ 'a.hoof': text(lines, more) }), '-o', to)).status).toBe(0);
    return to;
  }

  it('is in numbers and known words, in the units that the schema names', async () => {
    const to = await exported(
      '  code S1\n  sharing series\n  height 14.2 hh\n  foaled 2013-03-05\n  onset 2025-11-20 "short"',
    );
    expect(csvRows(join(to, 'cases.csv'))[0]).toMatchObject({
      height_cm: '147.32',
      onset_months: '3',
      visits: '2',
      days: '28',
    });
    const [first, second] = csvRows(join(to, 'visits.csv'));
    expect(first).toMatchObject({
      day: '0',
      age_years: '12',
      lameness_lf: '3',
      lameness: '',
      signs: 'fever other',
      next_days: '28',
    });
    expect(Number(first?.['temperature_c'])).toBeCloseTo(38, 9);
    expect(second).toMatchObject({ day: '28', age_years: '13', next_days: '14' });
    expect(csvRows(join(to, 'films.csv'))[0]).toMatchObject({
      view: 'skyline',
      block_mm: '60',
      mm_per_px: '',
      visit: '1',
    });
    expect(csvRows(join(to, 'laboratory.csv'))).toEqual([
      {
        case: 'S1',
        sample: '1',
        visit: '1',
        of: 'insulin',
        value: '200',
        unit: 'mU/L',
        above: 'true',
        fasting: 'false',
        after_minutes: '60',
      },
      {
        case: 'S1',
        sample: '2',
        visit: '1',
        of: 'hormone',
        value: '4.1',
        unit: 'ug/mL',
        above: 'false',
        fasting: 'false',
        after_minutes: '',
      },
    ]);
  });

  it('tells no day of the calendar by an age that goes up, or an onset, of which only month or year is written', async () => {
    // On 31 December the age of 2013 would go up, between these two visits.
    const to = await exported(
      '  code S1\n  sharing series\n  foaled 2013\n  onset 2024 "short"',
      'visit 2025-12-20\n\nvisit 2026-01-10\n',
    );
    expect(csvRows(join(to, 'visits.csv')).map((row) => row['age_years'])).toEqual(['11', '11']);
    expect(csvRows(join(to, 'cases.csv'))[0]?.['onset_months']).toBe('');
  });

  it('is for programs: no apostrophe before what a spreadsheet would compute, and quotes by RFC 4180', async () => {
    const to = place();
    const sums = text('  code S1\n  sharing series', 'visit 2026-03-04\n  feed "=1+1, \\"soaked\\""\n');
    await runExport(given({ 'a.hoof': sums }), '-o', to, '--with', 'texts', '--parquet');
    expect(csvRows(join(to, 'texts.csv'))[0]?.['words']).toBe('=1+1, "soaked"');
    expect((await parquetRows(join(to, 'texts.parquet')))[0]?.['words']).toBe('=1+1, "soaked"');
    expect(readFileSync(join(to, 'texts.csv'), 'utf8')).toContain('"=1+1, ""soaked"""\r\n');
  });

  it('has a landmark where the frame puts it, both wings apart', async () => {
    const to = place();
    const film = [
      'visit 2026-03-04',
      '  film LF lateral "x.png"',
      '    scale 0.1 mm/px',
      '    ground 0, 1000 .. 2000, 1000',
      '    toe.ground @ 2280, 1000',
      '    heel.ground @ 900, 1000',
      '    p3.tip @ 2000, 840',
      '    p3.wing @ 1200, 770',
      '    p3.wing.other @ 1210, 790 +- 4',
      '',
    ];
    await runExport(given({ 'a.hoof': text('  code S1\n  sharing series', film.join('\n')) }), '-o', to);
    const places = new Map(
      csvRows(join(to, 'landmarks.csv')).map((row) => [
        row['landmark'],
        [row['x_mm'], row['y_mm'], row['spread_mm']].map(Number),
      ]),
    );
    // By hand: 10 px are 1 mm, X from below the tip, Y up from the ground; 0.5 mm is the usual spread.
    for (const [name, [x, y, sd]] of Object.entries({
      'p3.tip': [0, 16, 0.5],
      'p3.wing': [-80, 23, 0.5],
      'p3.wing.other': [-79, 21, 0.4],
      'toe.ground': [28, 0, 0.5],
    })) {
      const [atX = NaN, atY = NaN, spread = NaN] = places.get(name) ?? [];
      expect(atX).toBeCloseTo(x as number, 9);
      expect(atY).toBeCloseTo(y as number, 9);
      expect(spread).toBeCloseTo(sd as number, 9);
    }
  });
});

describe('readers', () => {
  const films = (reader: string): string =>
    `visit 2026-03-04\n  film LF lateral "x.png"\n    p3.tip @ 1, 2\n    read "${reader}"\n      p3.tip @ 1, 3\n`;
  const files = given({
    'a.hoof': text('  code S1\n  sharing series', films('Mungo')),
    'b.hoof': text('  code S2\n  sharing series', films('Ysolde')),
    'c.hoof': text('  code S3\n  sharing series', films('Mungo')),
  });
  const readersBy = async (...options: readonly string[]): Promise<(string | undefined)[]> => {
    const to = place();
    await runExport(files, '-o', to, ...options);
    return csvRows(join(to, 'readings.csv')).map((row) => row['reader']);
  };

  it('have one code in the whole series, by the seed alone; who gives no name has R0', async () => {
    const [one, again, other] = [
      await readersBy('--seed', 'the first seed'),
      await readersBy('--seed', 'the first seed'),
      await readersBy('--seed', 'the other seed'),
    ];
    expect(one.filter((_, index) => index % 2 === 0)).toEqual(['R0', 'R0', 'R0']);
    expect(one[1]).toMatch(/^R[0-9a-f]{10}$/);
    expect([one[5], one[3] === one[1]]).toEqual([one[1], false]);
    expect(again).toEqual(one);
    expect(other[1]).not.toBe(one[1]);
    // Without one, by chance.
    expect(await readersBy()).not.toEqual(await readersBy());
  });

  it('are one, in whichever way an umlaut is written, or with a space behind', async () => {
    const spelled = given(
      Object.fromEntries(
        ['M\u00fcller', 'Mu\u0308ller', 'M\u00fcller '].map((name, at) => [
          `${at}.hoof`,
          text(`  code S${at}\n  sharing series`, films(name)),
        ]),
      ),
    );
    const to = place();
    await runExport(spelled, '-o', to);
    const codes = csvRows(join(to, 'readings.csv')).flatMap(({ reader }) => (reader === 'R0' ? [] : [reader]));
    expect([codes.length, new Set(codes).size]).toEqual([3, 1]);
  });

  it('take a seed out of a file', async () => {
    const seed = join(folder, 'seed.txt');
    writeFileSync(seed, 'the first seed\n');
    expect(await readersBy('--seed', `@${seed}`)).toEqual(await readersBy('--seed', 'the first seed'));
  });
});

describe('the folder of a package', () => {
  const files = given({ 'fit.hoof': fit });

  it('is made anew where it is one of ours, and the same to the byte', async () => {
    const [to, other] = [place(), place()];
    await runExport(files, '-o', to, '--parquet', '--seed', 'a seed for tests');
    await runExport(files, '-o', to, '--seed', 'a seed for tests');
    await runExport(files, '-o', other, '--seed', 'a seed for tests');
    expect(filesBelow(to).filter((name) => name.endsWith('.parquet'))).toEqual([]);
    expect(filesBelow(to)).toEqual(filesBelow(other));
    for (const name of filesBelow(to))
      expect(readFileSync(join(to, name)).equals(readFileSync(join(other, name)))).toBe(true);
  });

  it('may be there and empty', async () => {
    const to = place();
    mkdirSync(to);
    expect((await runExport(files, '-o', to)).status).toBe(0);
    expect(existsSync(join(to, 'datapackage.json'))).toBe(true);
  });

  const ours = /holds no package of this program|not of the package/;
  it.each([
    ['holds a file of somebody', (to: string) => writeFileSync(join(to, 'notes.txt'), 'mine')],
    ['holds a package of somebody', (to: string) => writeFileSync(join(to, 'datapackage.json'), '{"resources":[]}')],
    ['is the folder of the cases', (to: string) => writeFileSync(join(to, 'a.hoof'), fit)],
  ])('is left as it is where it %s', async (_, fill) => {
    const to = place();
    mkdirSync(to);
    fill(to);
    const before = filesBelow(to).map((name) => [name, readFileSync(join(to, name), 'utf8')]);
    for (const options of [[], ['--shard', '1/2', '--seed', 'a seed for tests']]) {
      const { status, err } = await runExport(files, '-o', to, ...options);
      expect([status, err.join('\n')]).toEqual([2, expect.stringMatching(ours)]);
    }
    expect(filesBelow(to).map((name) => [name, readFileSync(join(to, name), 'utf8')])).toEqual(before);
  });

  it('is left as it is where somebody has put something into a package of ours, and where it is a file', async () => {
    const to = place();
    await runExport(files, '-o', to);
    writeFileSync(join(to, 'notes.txt'), 'mine');
    const { status, err } = await runExport(files, '-o', to);
    expect([status, err.some((line) => /holds notes\.txt too/.test(line))]).toEqual([2, true]);
    expect(readFileSync(join(to, 'notes.txt'), 'utf8')).toBe('mine');
    const file = place();
    writeFileSync(file, 'mine');
    expect((await runExport(files, '-o', file)).status).toBe(2);
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });

  it('is replaced behind a link, and the link stays', async () => {
    const [to, link] = [place(), place()];
    mkdirSync(to);
    symlinkSync(to, link);
    expect((await runExport(files, '-o', link)).status).toBe(0);
    expect(existsSync(join(to, 'datapackage.json'))).toBe(true);
  });

  it('is as it was where writing fails, and nothing is left beside it', async () => {
    const home = place();
    mkdirSync(home);
    const to = join(home, 'package');
    await runExport(files, '-o', to);
    const before = filesBelow(home);
    // A file of the package that somebody else put in the way while it was written.
    const many = given(Object.fromEntries([...madeCases(3)].map(({ code, text: one }) => [`${code}.hoof`, one])));
    let shown = 0;
    const said: string[] = [];
    const status = await commandLine(['export', many, '-o', to], {
      out: () => {},
      err: (line) => said.push(line),
      progress: (words) => {
        if (words.startsWith('case 2')) {
          shown++;
          writeFileSync(join(to, 'late.txt'), 'mine');
        }
      },
    });
    expect([status, shown]).toEqual([2, 1]);
    expect(said.join('\n')).toContain('late.txt');
    expect(filesBelow(home)).toEqual([...before, 'package/late.txt'].toSorted());
    expect(csvRows(join(to, 'cases.csv')).map((row) => row['case'])).toEqual(['S1']);
  });

  it('is not there where a signal ends the program, and nothing is left beside it', async () => {
    const home = place();
    mkdirSync(home);
    const many = given(Object.fromEntries([...madeCases(150)].map(({ code, text: one }) => [`${code}.hoof`, one])));
    const main = join(import.meta.dirname, '..', '..', 'src', 'cli', 'main.ts');
    const child = spawn(process.execPath, [main, 'export', many, '-o', join(home, 'package')], { stdio: 'ignore' });
    const ended = once(child, 'exit');
    // What is being written lies beside until it is whole.
    await expect.poll(() => readdirSync(home)).toEqual([expect.stringMatching(/^\.ungula-[0-9a-f]{32}\.part$/)]);
    child.kill('SIGTERM');
    expect(await ended).toEqual([null, 'SIGTERM']);
    expect(readdirSync(home)).toEqual([]);
  });

  it('tells of a file that changes while it is exported', async () => {
    const many = given(Object.fromEntries([...madeCases(3)].map(({ code, text: one }) => [`${code}.hoof`, one])));
    const to = place();
    const said: string[] = [];
    const status = await commandLine(['export', many, '-o', to], {
      out: () => {},
      err: (line) => said.push(line),
      progress: (words) => {
        if (words.startsWith('case 1'))
          appendFileSync(join(many, 'M000003.hoof'), 'case "Another"\n  sharing private\n');
      },
    });
    expect([status, said.some((line) => /was changed while/.test(line))]).toEqual([2, true]);
    expect(csvRows(join(to, 'cases.csv')).map((row) => row['case'])).toEqual(['M000001', 'M000002']);
  });
});

describe('shards', () => {
  const files = given(Object.fromEntries([...madeCases(6)].map(({ code, text: one }) => [`${code}.hoof`, one])));
  const write = (to: string, shard: string, ...options: readonly string[]) =>
    runExport(files, '-o', to, '--shard', shard, '--seed', 'a seed for tests', ...options);

  it('are a package only when they are joined, and all there', async () => {
    const to = place();
    await write(to, '1/2');
    expect(existsSync(join(to, 'datapackage.json'))).toBe(false);
    const early = await runExport('--join', to);
    expect([early.status, early.err.some((line) => /not there, or not whole: 2/.test(line))]).toEqual([2, true]);
    await write(to, '2/2');
    expect((await runExport('--join', to)).status).toBe(0);
    expect(descriptorIn(to).ungula).toMatchObject({ shards: 2, counts: { cases: 6, files: 6 } });
    // Whoever writes a shard again takes the package away until it is joined again.
    await write(to, '2/2');
    expect(existsSync(join(to, 'datapackage.json'))).toBe(false);
    expect((await runExport('--join', to)).status).toBe(0);
    expect((await runExport('--join', to)).status).toBe(0);
  });

  it.each([
    ['with another seed', ['--seed', 'another seed for it'], /another seed/],
    ['with other options', ['--parquet', '--seed', 'a seed for tests'], /other options/],
  ])('of which one was written %s are not joined', async (_, options, says) => {
    const to = place();
    await write(to, '1/2');
    await runExport(files, '-o', to, '--shard', '2/2', ...options);
    const { status, err } = await runExport('--join', to);
    expect([status, err.join('\n')]).toEqual([2, expect.stringMatching(says)]);
    expect(existsSync(join(to, 'datapackage.json'))).toBe(false);
  });

  it('of which one was changed, or is one too many, are not joined', async () => {
    const to = place();
    for (const shard of ['1/2', '2/2']) await write(to, shard);
    const part = join(to, 'measures', 'shard=2', 'part-0.csv');
    const before = readFileSync(part);
    appendFileSync(part, 'x');
    expect((await runExport('--join', to)).err.join('\n')).toMatch(/not as its shard wrote it/);
    writeFileSync(part, before);
    mkdirSync(join(to, 'measures', 'shard=3'));
    writeFileSync(join(to, 'measures', 'shard=3', 'part-0.csv'), 'x');
    expect((await runExport('--join', to)).err.join('\n')).toMatch(/belongs to none/);
    writeFileSync(join(to, 'shards', 'shard-1.json'), '{}');
    expect((await runExport('--join', to)).err.join('\n')).toMatch(/not what a shard says/);
  });

  it('of nothing are nothing to join', async () => {
    expect((await runExport('--join', place())).status).toBe(2);
  });
});

describe('arguments that nobody can act on', () => {
  const to = (): string[] => ['-o', place()];

  it.each([
    [[], /wants case files/],
    [['x.hoof'], /-o DIR/],
    [['-', ...to()], /standard input/],
    [['x.hoof', ...to(), '--with', 'everything'], /--with takes dates/],
    [['x.hoof', ...to(), '--with', 'dates', '--shift-dates', 'a seed for tests'], /one of the two/],
    [['x.hoof', ...to(), '--seed', 'short'], /12 characters or more/],
    [['x.hoof', ...to(), '--seed', '@/nowhere/at/all'], /no such file/],
    [['x.hoof', ...to(), '--shard', '1/2'], /wants a seed/],
    [['x.hoof', ...to(), '--shard', '3/2', '--seed', 'a seed for tests'], /such as 2\/8/],
    [['x.hoof', ...to(), '--shift-dates', 'a seed for tests', '--seed', 'another seed for it'], /leave --seed out/],
    [['x.hoof', '--join', 'y'], /nothing else/],
    [['--join', ''], /folder of the shards/],
  ])('%j', async (args, says) => {
    const { status, err, out } = await runExport(...args);
    expect([status, out]).toEqual([2, '']);
    expect(err.join('\n')).toMatch(says);
  });
});
