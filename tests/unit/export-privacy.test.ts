import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { dayNumber } from '../../shared/notation/dates.ts';
import { blocks, statements } from '../../shared/notation/vocabulary.ts';
import { wordsWithText } from '../../shared/series/texts.ts';
import { allSaidIn, csvRows, filesBelow, runExport } from './exported.ts';
import { hidingCase, wordsThatHide } from './hidden-words.ts';

const folder = mkdtempSync(join(tmpdir(), 'ungula-private-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const hiding = hidingCase();
const ofFiles = {
  folder: 'Qfolderxzq',
  file: 'Qfilexzq',
  set: 'Qsetxzq',
  cite: 'Qcitexzq',
  says: 'Qsaysxzq',
  reference: 'Qrefxzq',
};
const everywhere = [...hiding.hidden, ...Object.entries(ofFiles).map(([by, secret]) => ({ by, secret }))];

const given = join(folder, 'given');
const cases = join(given, ofFiles.folder);
const caseFile = join(cases, `${ofFiles.file}.hoof`);
const reference = join(given, `${ofFiles.reference}.hoof-reference.json`);
mkdirSync(cases, { recursive: true });
writeFileSync(caseFile, hiding.text);
writeFileSync(
  reference,
  JSON.stringify({
    'ungula-reference': 1,
    name: ofFiles.set,
    source: { cite: ofFiles.cite },
    bands: [{ measure: 'palmar-angle', low: 3, says: ofFiles.says }],
  }),
);

let made = 0;
const target = (): string => join(folder, `package-${++made}`);
const open = (text: string): string => text.replace('sharing series', 'sharing open');

/** The secrets that are found in what a package says, whatever their case. */
async function foundIn(package_: string): Promise<string[]> {
  const said = (await allSaidIn(package_)).toLowerCase();
  return everywhere.filter(({ secret }) => said.includes(secret.toLowerCase())).map(({ by }) => by);
}

describe('a case that hides what identifies in every word', () => {
  it('hides more than forty things, each another, in every word that can hide one', () => {
    expect(new Set(everywhere.map(({ secret }) => secret)).size).toBe(everywhere.length);
    expect(everywhere.length).toBeGreaterThan(80);
    const by = new Set(hiding.hidden.map((one) => one.by));
    expect(wordsThatHide.length).toBeGreaterThan(30);
    expect(wordsThatHide.filter((word) => !by.has(word))).toEqual([]);
  });

  it.each([
    ['whole', []],
    ['whole, as Parquet too', ['--parquet']],
    ['by shards', ['--parquet', '--shard', '1/1', '--seed', 'a seed for a test']],
    ['with shifted dates', ['--parquet', '--shift-dates', 'a seed for a test']],
    ['with what a series never lets out', ['--parquet', '--with', 'names,numbers,pictures']],
  ])('leaves without any of it: %s', async (_, options) => {
    const to = target();
    const { status, err } = await runExport(given, '--reference', reference, '-o', to, ...options);
    expect([status, err.filter((line) => /mistake/.test(line))]).toEqual([0, []]);
    expect(csvRows(join(to, options.includes('--shard') ? 'cases/shard=1/part-0.csv' : 'cases.csv'))).toHaveLength(1);
    expect(filesBelow(to).length).toBeGreaterThan(10);
    expect(await foundIn(to)).toEqual([]);
    // No year of the file, and no day of a date, in any other form.
    if (!options.includes('--shift-dates')) expect(await allSaidIn(to)).not.toMatch(/\b19[0-9]{2}-[01]\d/);
  });

  it('leaves with what is asked for, so that the search above would have found it', async () => {
    const to = target();
    await runExport(given, '-o', to, '--parquet', '--with', 'texts', '--with', 'dates,readers');
    const found = new Set(await foundIn(to));
    for (const word of [
      'feed',
      'turnout',
      'owner',
      'why',
      'work',
      'prose',
      'limits',
      'accept',
      'sign',
      'visit',
      'taken',
      'onset',
      'foaled',
      'read',
    ])
      expect([word, found.has(word)]).toEqual([word, true]);
    for (const never of [
      'case',
      'microchip',
      'ueln',
      'film',
      'photo',
      'farrier',
      'by',
      'remark',
      'unknown line',
      ...Object.keys(ofFiles),
    ])
      expect([never, found.has(never)]).toEqual([never, false]);
  });

  it('lets names, numbers and paths out of an open case alone, and only where they are asked for', async () => {
    writeFileSync(caseFile, open(hiding.text));
    try {
      const [without, with_] = [target(), target()];
      await runExport(given, '-o', without, '--parquet');
      expect(await foundIn(without)).toEqual([]);
      await runExport(given, '-o', with_, '--parquet', '--with', 'names,numbers,pictures');
      const found = new Set(await foundIn(with_));
      for (const word of ['case', 'microchip', 'ueln', 'film', 'farrier', 'by'])
        expect([word, found.has(word)]).toEqual([word, true]);
      for (const word of ['feed', 'remark', 'read', 'why', 'visit'])
        expect([word, found.has(word)]).toEqual([word, false]);
    } finally {
      writeFileSync(caseFile, hiding.text);
    }
  });

  it('says in the package what was left out, by kind and case, and names files in the terminal alone', async () => {
    const to = target();
    writeFileSync(join(cases, 'Qprivatexzq.hoof'), open(hiding.text).replace('sharing open', 'sharing private'));
    const { err } = await runExport(given, '-o', to);
    rmSync(join(cases, 'Qprivatexzq.hoof'));
    expect(err.join('\n')).toContain('Qprivatexzq.hoof');
    expect(await allSaidIn(to)).not.toContain('Qprivatexzq');
    const removed = csvRows(join(to, 'removed.csv'));
    const kinds = new Map(removed.map(({ kind, count }) => [kind, Number(count)]));
    expect([...kinds.keys()].sort()).toEqual([
      'date',
      'line',
      'name',
      'number',
      'person',
      'picture',
      'reader',
      'remark',
      'text',
    ]);
    const dates = hiding.text.match(/\b19\d\d-\d\d-\d\d/g) ?? [];
    expect(kinds.get('date')).toBe(dates.length);
    expect(kinds.get('remark')).toBe((hiding.text.match(/#/g) ?? []).length);
    expect(kinds.get('number')).toBe(2);
  });
});

describe('dates that are moved', () => {
  const text = (code: string): string =>
    `hoof 1\ncase "N"\n  animal horse\n  code ${code}\n  sharing series\nvisit 2026-03-04\n  weight 500 kg\nvisit 2026-04-01\n  weight 490 kg\n`;
  const home = join(folder, 'two');
  mkdirSync(home);
  writeFileSync(join(home, 'a.hoof'), text('S1'));
  writeFileSync(join(home, 'b.hoof'), text('S2'));

  async function datesBy(seed: string): Promise<Map<string, number[]>> {
    const to = target();
    await runExport(home, '-o', to, '--shift-dates', seed);
    const days = new Map<string, number[]>();
    for (const { case: code = '', date = '' } of csvRows(join(to, 'visits.csv')))
      days.set(code, [...(days.get(code) ?? []), dayNumber(date) ?? NaN]);
    return days;
  }

  it('move by whole days, each case by its own number, the same for one seed and another for another', async () => {
    const [one, again, other] = [
      await datesBy('the first seed'),
      await datesBy('the first seed'),
      await datesBy('the other seed'),
    ];
    const first = dayNumber('2026-03-04') ?? NaN;
    const shifts = [...one.values()].map(([a = NaN]) => a - first);
    for (const [a = NaN, b = NaN] of one.values()) expect(b - a).toBe(28);
    for (const shift of shifts) {
      expect(Math.abs(shift)).toBeGreaterThan(0);
      expect(Math.abs(shift)).toBeLessThanOrEqual(365);
    }
    expect(new Set(shifts).size).toBe(2);
    expect([...again]).toEqual([...one]);
    expect([...other]).not.toEqual([...one]);
  });

  it('are days since the first visit where none are asked for', async () => {
    const to = target();
    await runExport(home, '-o', to);
    expect(csvRows(join(to, 'visits.csv')).map(({ day }) => day)).toEqual(['0', '28', '0', '28']);
    expect(Object.keys(csvRows(join(to, 'visits.csv'))[0] ?? {})).not.toContain('date');
  });
});

describe('the words that texts are told by', () => {
  it('are words of the notation', () => {
    const words = new Set<string>([...blocks, ...statements].map(({ word }) => word));
    expect(wordsWithText.filter((word) => !words.has(word))).toEqual([]);
    expect(wordsWithText).toEqual(expect.arrayContaining(['feed', 'why', 'limits', 'sign', 'farrier', 'vet']));
  });
});

describe('texts that are asked for', () => {
  const home = join(folder, 'told');
  mkdirSync(home);
  const body = [
    'owner "seen 2026-03-02, 2.3.2026, 03/02/2026 and 02.03. by Runa Testwald, chip 276098100123456"',
    'feed "since 2 March 2026, March 2nd, im März 2026, 2. März; SEDGEWING may 3 times"',
    'turnout "call 0151 2345678, Sedgewing or Dr. Probewald"',
  ];
  const head =
    'animal horse\n  code S1\n  sharing open\n  microchip 276098100123456\n  vet "Dr. Probewald, 0151 2345678"';
  const read = 'film LF lateral "x.png"\n    read "Runa Testwald"\n      p3.tip @ 1, 2';
  writeFileSync(
    join(home, 'a.hoof'),
    `hoof 1\ncase "Sedgewing"\n  ${head}\nvisit 2026-03-04\n  ${[...body, read].join('\n  ')}\n`,
  );
  const wordsWith = async (...options: string[]): Promise<string[]> => {
    const to = target();
    await runExport(home, '-o', to, ...options);
    return csvRows(join(to, 'texts.csv')).map(({ words = '' }) => words);
  };
  const out = '[left out]';

  it.each([[['--with', 'texts']], [['--with', 'texts', '--shift-dates', 'a seed for a test']]])(
    'tell no day of the calendar, in whatever way it is written: %j',
    async (options) => {
      expect(await wordsWith(...options)).toEqual([
        `seen ${out}, ${out}, ${out} and ${out} by ${out}, chip ${out}`,
        `since ${out}, ${out}, im ${out}, ${out}; ${out} may 3 times`,
        `call ${out}, ${out} or ${out}`,
      ]);
    },
  );

  it('keep each kind of name that was asked for, and no other', async () => {
    const words = await wordsWith('--with', 'texts,names,dates');
    expect(words.toSorted()).toEqual([
      `Dr. Probewald, ${out}`,
      `call ${out}, Sedgewing or Dr. Probewald`,
      // With strokes it may as well be a telephone number.
      `seen 2026-03-02, 2.3.2026, ${out} and 02.03. by ${out}, chip ${out}`,
      'since 2 March 2026, March 2nd, im März 2026, 2. März; SEDGEWING may 3 times',
    ]);
    const others = await wordsWith('--with', 'texts,readers,numbers');
    // The chip has a column; in a text it looks like a telephone number.
    expect(others.join()).toContain(`by Runa Testwald, chip ${out}`);
    expect(others.join()).not.toMatch(/sedgewing|probewald|2345678/i);
  });
});
