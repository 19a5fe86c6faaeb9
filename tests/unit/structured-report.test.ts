import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import dicomParser, { type DataSet } from 'dicom-parser';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { codes, measureCode, ownCodes } from '../../shared/export/structured/codes.ts';
import { decimalString, type ContentItem } from '../../shared/export/structured/content.ts';
import { filmReport } from '../../shared/export/structured/film-report.ts';
import { reportDataSet, type ReportDataSet } from '../../shared/export/structured/report-data-set.ts';
import { reportFilms } from '../../shared/export/structured/report-film.ts';
import { program, uidsOf } from '../../shared/export/structured/uids.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { useWords } from '../../shared/language/words.ts';
import { measures } from '../../shared/measures/registry.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import { archivedFilmIn, type ArchivedFilm } from '../../shared/picture/archived-film.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { reportBytes } from '../../src/cli/report-bytes.ts';
import { nameUuid, uidDigest } from '../../src/cli/uid-digest.ts';
import { boneCase } from './bone-cases.ts';
import { madeUpLanguage } from './made-up-language.ts';
import { pictureFile, syntaxes, type Element } from './picture-dicom-writer.ts';
import { filmText } from './plain-foot.ts';

const root = join(import.meta.dirname, '..', '..');

const archived: ArchivedFilm = {
  study: '2.25.11',
  series: '2.25.12',
  sopClass: '1.2.840.10008.5.1.4.1.1.1.1',
  instance: '2.25.13',
  isOfMany: false,
  kept: {
    PatientID: 'EXAMPLE-1',
    IssuerOfPatientID: null,
    StudyID: 'S-1',
    StudyDate: '20260101',
    StudyTime: '101112',
    AccessionNumber: null,
  },
};

interface Wanted {
  readonly archived?: ArchivedFilm | null;
  readonly names?: boolean;
  readonly on?: string;
  readonly scale?: StoredScale;
  /** Which of the films. */
  readonly at?: number;
}

function made(text: string, wanted: Wanted = {}): { content: ContentItem | null; data: ReportDataSet | null } {
  const { study } = inspect(text, undefined, undefined, () => wanted.scale ?? null);
  const film = study.films[wanted.at ?? 0];
  if (!film) throw new Error('the case has no such film');
  const input = {
    study,
    film,
    archived: wanted.archived ?? null,
    names: wanted.names ?? false,
    uids: uidsOf(study.record, uidDigest),
    on: wanted.on ?? '2026-05-28',
  };
  return { content: filmReport(input), data: reportDataSet(input) };
}

function report(text: string, wanted: Wanted = {}): { content: ContentItem; data: ReportDataSet } {
  const { content, data } = made(text, wanted);
  if (!content || !data) throw new Error('nothing is measured');
  return { content, data };
}

const deep = (item: ContentItem): ContentItem[] => [item, ...(item.items ?? []).flatMap(deep)];
const named = (content: ContentItem, value: string): ContentItem[] =>
  deep(content).filter(({ name }) => name?.value === value);
const codeOf = (content: ContentItem, value: string): unknown =>
  named(content, value).flatMap((item) => ('code' in item ? [item.code.value] : []))[0];
const textsOf = (content: ContentItem, value: string): string[] =>
  named(content, value).flatMap((item) => ('text' in item ? [item.text] : []));

const caseOf = (film: string, sheet: readonly string[] = ['animal horse mare']): string =>
  ['hoof 1', '', 'case "Clover"', ...sheet.map((line) => `  ${line}`), '', 'visit 2026-01-04', film, ''].join('\n');

describe('what a report says of a film', () => {
  const text = caseOf(filmText());

  it('is every measure that was taken, with its deviation, in order', () => {
    const { study } = inspect(text);
    const values = [...(study.films[0]?.readings[0]?.taking.values.values() ?? [])];
    const [group] = named(report(text).content, '125007');
    const numbers = (group?.items ?? []).flatMap((item) => (item.type === 'NUM' ? [item] : []));
    expect(numbers.map((item) => [item.name?.value, 'value' in item && item.value])).toEqual(
      values.map(({ measure, value }) => [measure.name, value]),
    );
    expect(values.length).toBeGreaterThan(25);
    const deviations = numbers.map(({ items = [] }) => items.find(({ name }) => name?.value === '371884006'));
    expect(deviations.map((item) => item && 'value' in item && item.value)).toEqual(values.map(({ sd }) => sd));
  });

  // The usual range of the palmar angle stands in shared/reference/bands.ts, 2 to 10 degrees.
  it('has the usual range of a measure with its source, and none where there is none', () => {
    const [palmar] = named(report(text).content, 'palmar-angle');
    const held = (value: string): unknown => palmar?.items?.find(({ name }) => name?.value === value);
    expect(held('385524004')).toMatchObject({ value: 2, unit: { value: 'deg' } });
    expect(held('371933006')).toMatchObject({ value: 10 });
    expect(held('121408')).toMatchObject({ text: expect.stringContaining('Equine Clinical Medicine') });
    const [wall] = named(report(text).content, 'wall-angle');
    expect(wall?.items?.map(({ name }) => name?.value)).not.toContain('385524004');
  });

  it.each([
    ['LF', 'Forefoot', 'Left'],
    ['RF', 'Forefoot', 'Right'],
    ['LH', 'Hindfoot', 'Left'],
    ['RH', 'Hindfoot', 'Right'],
  ])('is of the foot %s: %s, %s', (foot, region, side) => {
    const { content } = report(caseOf(filmText({}, { header: `film ${foot} lateral "x.png"` })));
    const [site] = named(content, '363698007');
    expect(site).toMatchObject({ code: { meaning: region } });
    expect(site?.items).toMatchObject([{ name: { value: '272741003' }, code: { meaning: side } }]);
  });

  it('says what the scale rests on', () => {
    const film = (scale: string | null) => caseOf(filmText({}, { scale }));
    const from = (one: string, wanted: Wanted = {}): unknown => codeOf(report(one, wanted).content, 'scale-from');
    expect(from(film('scale 0.1 mm/px'))).toBe('scale-number');
    expect(from(film('scale 100 mm = 0, 1500 .. 1000, 1500'))).toBe('scale-marker');
    const stored = { mmPerPx: 0.1, words: 'As the file says.' };
    expect(from(film('scale dicom'), { scale: stored })).toBe('scale-file');
    expect(from(film('scale dicom'), { scale: { ...stored, overstates: [5, 25] } })).toBe('scale-detector');
    expect(from(film(null))).toBe('scale-none');
    const bones = boneCase([{}, {}, { scale: 'scale bone' }]);
    expect(from(bones, { at: 2 })).toBe('scale-bone');
    expect(textsOf(report(bones, { at: 2 }).content, '121106').join(' ')).toMatch(/Scale from the bone/);
    const other = boneCase([{}, {}, { foot: 'RF', scale: 'scale bone' }]);
    expect(from(other, { at: 2 })).toBe('scale-bone-pair');
  });

  it('says which lengths a film without a scale would have, and gives no number for them', () => {
    const { content } = report(caseOf(filmText({}, { scale: null })));
    const lacks = deep(content).flatMap((item) => ('lack' in item ? [item] : []));
    expect(lacks.map(({ name }) => name?.value)).toEqual(expect.arrayContaining(['sole-depth.tip', 'toe-length']));
    expect(lacks.map(({ name }) => name?.value)).not.toContain('shoe-thickness.toe');
    expect(new Set(lacks.map(({ lack }) => lack))).toEqual(new Set([codes.notAttempted]));
    expect(named(content, 'palmar-angle')).toMatchObject([{ value: expect.any(Number) }]);
  });

  it('says how the landmarks came to stand there, and names those that were followed', () => {
    const how = (one: string): unknown => codeOf(report(one).content, 'placing');
    const words = (one: string): string => textsOf(report(one).content, '121106').join(' ');
    expect(how(text)).toBe('by-a-person');
    expect(words(text)).not.toContain('film before');
    const some = text.replace(/(p3\.(?:tip|wing) @ \d+, \d+)/g, '$1 +- 6 followed');
    expect(how(some)).toBe('some-followed');
    expect(words(some)).toContain(
      'Proposed from the film before and confirmed by a person: Tip of the pedal bone and Wing of the pedal bone.',
    );
    expect(how(text.replace(/( @ \d+, -?\d+)/g, '$1 followed'))).toBe('followed');
  });

  it('is nothing where nothing is measured', () => {
    expect(made(caseOf('  film LF lateral "x.png"')).data).toBeNull();
  });

  it('has a group for each reader, each tracked by itself', () => {
    const lines = filmText().split('\n');
    const places = lines.filter((line) => line.includes('@'));
    const rest = lines.filter((line) => !line.includes('@'));
    const readers = ['A. Example', 'B. Example'].flatMap((name) => [
      `    read "${name}"`,
      ...places.map((line) => `  ${line}`),
    ]);
    const { content } = report(caseOf([...rest, ...readers].join('\n')));
    expect(named(content, '125007')).toHaveLength(2);
    expect(textsOf(content, '112039')).toEqual(['LF lateral 2026-01-04 reader 1', 'LF lateral 2026-01-04 reader 2']);
    const uids = named(content, '112040').map((item) => 'uid' in item && item.uid);
    expect(new Set(uids).size).toBe(2);
  });
});

describe('a report in another language', () => {
  afterEach(() => useWords(undefined));

  it('says in which, and all that is ours in it; codes stay what they are', () => {
    const text = caseOf(filmText({}, { scale: null }));
    const english = report(text).content;
    useWords(madeUpLanguage(), 'de');
    const { content } = report(text);
    expect(named(content, '121049')).toMatchObject([{ code: { value: 'de', meaning: 'German' } }]);
    const said = deep(content).flatMap((item) => [item.name, 'code' in item ? item.code : null]);
    const ours = said.flatMap((code) => (code?.scheme === '99UNGULA' ? [code.meaning] : []));
    expect(ours.length).toBeGreaterThan(20);
    for (const words of [...ours, ...textsOf(content, '121106'), ...textsOf(content, '121420')])
      expect(words).toMatch(/^[⟪\d]/);
    const values = (of: ContentItem): unknown[] => deep(of).map(({ name }) => name?.value);
    expect(values(content)).toEqual(values(english));
  });
});

describe('who and which images a report names', () => {
  const film = `${filmText()
    .split('\n')
    .filter((line) => !line.includes('@'))
    .join('\n')}\n    read "A. Example"\n${filmText()
    .split('\n')
    .filter((line) => line.includes('@'))
    .map((line) => `  ${line}`)
    .join('\n')}`;
  const sheet = [
    'animal pony mare',
    'microchip 985000000000009',
    'vet "Dr. C. Example, 01234 567890"',
    'foaled 2013-05-02',
  ];
  const text = caseOf(film, sheet);

  it('nobody, and no number of the film’s own file, where names are not asked for', () => {
    const { data } = report(text, { archived });
    const all = JSON.stringify(data);
    expect(all).not.toMatch(/A\. Example|Dr\.|01234|9850000|EXAMPLE-1|"S-1"|101112|2013-05|201305/);
    expect(data.elements['00100010']?.Value).toEqual(['^Clover']);
    expect(data.elements['00100020']?.Value[0]).toMatch(/^UNGULA-\d{12}$/);
    expect(data.elements['0020000D']?.Value[0]).not.toBe(archived.study);
    // The image is referred to all the same.
    expect(all).toContain(archived.instance);
    expect(all).toContain(archived.study);
  });

  it('the reader, and study and patient of the film, where they are', () => {
    const { data, content } = report(text, { archived, names: true });
    expect(textsOf(content, '121008')).toEqual(['A. Example']);
    expect(data.elements).toMatchObject({
      '00100020': { Value: ['EXAMPLE-1'] },
      '0020000D': { Value: ['2.25.11'] },
      '00200010': { Value: ['S-1'] },
      '00080030': { Value: ['101112'] },
    });
    expect(JSON.stringify(data)).not.toMatch(/Dr\.|01234|9850000/);
  });

  it('no image where there is none, and says so', () => {
    const { content, data } = report(text);
    expect(deep(content).filter(({ type }) => type === 'IMAGE')).toEqual([]);
    expect(textsOf(content, '121106').join(' ')).toMatch(/refers to no image/);
    expect(data.elements['0040A385']).toBeUndefined();
  });

  it('the film in the library, as evidence, and as the source of each number', () => {
    const { content, data } = report(text, { archived });
    const numbers = (named(content, '125007')[0]?.items ?? []).filter(({ type }) => type === 'NUM').length;
    expect(named(content, '121112')).toHaveLength(numbers);
    expect(named(content, '126200')).toHaveLength(1);
    expect(JSON.stringify(data.elements['0040A385'])).toContain(archived.series);
  });
});

describe('UIDs', () => {
  // RFC 9562, appendix A.4: www.example.com in the namespace of DNS names.
  it('are those of RFC 9562', () => {
    const dns = Buffer.from('6ba7b8109dad11d180b400c04fd430c8', 'hex');
    expect(Buffer.from(nameUuid(dns, 'www.example.com')).toString('hex')).toBe('2ed6657de927568b95e12665a8aea6a2');
  });

  it('and bytes are the same of the same, and of another report others', () => {
    const text = caseOf(filmText());
    const bytes = (wanted: Wanted): string => Buffer.from(reportBytes(report(text, wanted).data)).toString('base64');
    expect(bytes({ archived })).toBe(bytes({ archived }));
    const uid = (one: string, wanted: Wanted = {}): unknown => report(one, wanted).data.elements['00080018']?.Value[0];
    const all = [
      uid(text),
      uid(text, { on: '2026-05-29' }),
      uid(text, { archived }),
      uid(text.replace('Clover', 'Sorrel')),
      uid(caseOf(filmText({ 'p3.tip': [0, 16.5] }))),
    ];
    expect(new Set(all).size).toBe(all.length);
    for (const one of all) expect(one).toMatch(/^2\.25\.[1-9]\d{30,38}$/);
  });

  it('say which version it is that packages have', () => {
    expect(program.version).toBe(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version);
  });
});

describe('what DICOM can hold', () => {
  it('holds every code and meaning of ours', () => {
    const all = [...ownCodes(), ...measures.map(measureCode), ...Object.values(codes)];
    for (const { value, scheme, meaning } of all) {
      expect([...meaning].length, meaning).toBeLessThanOrEqual(64);
      expect(scheme.length).toBeLessThanOrEqual(16);
      expect(value).toMatch(/^[\w.-]+$/);
    }
    expect(new Set(all.map(({ scheme, value }) => `${scheme} ${value}`)).size).toBe(all.length);
  });

  it('a number in 16 characters, as near as they can tell it', () => {
    const draws = Array.from({ length: 2000 }, (_, n) => Math.sin(n + 1) * 10 ** ((n % 13) - 6));
    for (const value of [0, 1, -1, 1e-300, 123456789012345680000, -1 / 3, ...draws]) {
      const written = decimalString(value);
      expect(written).toMatch(/^-?\d+(?:\.\d+)?(?:e[+-]\d+)?$/);
      expect(written.length).toBeLessThanOrEqual(16);
      expect(Math.abs(Number(written) - value)).toBeLessThanOrEqual(Math.abs(value) * 1e-8);
    }
  });

  it.each([
    ['a backslash \\\\ and a caret ^ and =', '^a backslash   and a caret   and'],
    ['x'.repeat(300), `^${'x'.repeat(63)}`],
    ['شهاب', '^شهاب'],
    ['🐴'.repeat(80), `^${'🐴'.repeat(63)}`],
  ])('the name %s, in what a name may have', (name, held) => {
    const { data } = report(caseOf(filmText()).replace('Clover', name));
    const [said] = data.elements['00100010']?.Value ?? [];
    expect(String(said).replace('…', 'x').slice(0, 60)).toBe(held.slice(0, 60));
    expect([...String(said)].length).toBeLessThanOrEqual(64);
    expect(String(said)).not.toMatch(/[\\=\n]/);
  });

  // Read by another library than the one that writes it.
  it('is a file that dicom-parser reads, with the same numbers', () => {
    const { data, content } = report(caseOf(filmText()), { archived });
    const set = dicomParser.parseDicom(reportBytes(data));
    expect(set.string('x00080016')).toBe('1.2.840.10008.5.1.4.1.1.88.33');
    expect(set.string('x00020010')).toBe('1.2.840.10008.1.2.1');
    const numbers = (one: DataSet): number[] =>
      Object.values(one.elements).flatMap(({ tag, items = [] }) =>
        items.flatMap(({ dataSet }) => {
          if (!dataSet) return [];
          if (tag !== 'x0040a300') return numbers(dataSet);
          return [dataSet.double('x0040a161') ?? Number(dataSet.string('x0040a30a'))];
        }),
      );
    const said = deep(content).flatMap((item) => ('value' in item ? [item.value] : []));
    expect(numbers(set).toSorted((a, b) => a - b)).toEqual(said.toSorted((a, b) => a - b));
  });
});

/** The elements of a film in an archive, as a file of our own making. */
function filmFile(change: Record<string, string | null> = {}, more: readonly Element[] = []): Uint8Array {
  const elements = {
    '00080016 UI': archived.sopClass,
    '00080018 UI': archived.instance,
    '00080060 CS': 'DX',
    '00100020 LO': 'EXAMPLE-1',
    '0020000d UI': archived.study,
    '0020000e UI': archived.series,
    ...change,
  };
  const place = Object.entries(elements).flatMap(([key, value]): Element[] => {
    const [tag = '', vr = ''] = key.split(' ');
    return value === null ? [] : [{ tag, vr, value }];
  });
  return pictureFile(syntaxes.explicit, { width: 4, height: 4, more: [...place, ...more] }, new Uint8Array(32));
}

describe('what a film’s file refers to it by', () => {
  it('is read of a DICOM file', () => {
    expect(archivedFilmIn(filmFile())).toMatchObject({
      study: archived.study,
      series: archived.series,
      sopClass: archived.sopClass,
      instance: archived.instance,
      isOfMany: false,
      kept: { PatientID: 'EXAMPLE-1', StudyID: null },
    });
    expect(archivedFilmIn(filmFile({}, [{ tag: '00280008', vr: 'IS', value: '7' }]))?.isOfMany).toBe(true);
  });

  it.each([
    ['without its study', { '0020000d UI': null }],
    ['with a UID of letters', { '00080018 UI': '1.2.x' }],
    ['with a UID of two values', { '00080018 UI': '1.2\\1.3' }],
    ['with a UID that is too long', { '00080018 UI': `1.${'2'.repeat(64)}` }],
  ])('is not taken of one %s', (_, change) => {
    expect(archivedFilmIn(filmFile(change))).toBeNull();
  });

  it('is nothing of other files, of none, and of one cut anywhere', () => {
    expect(archivedFilmIn(new Uint8Array())).toBeNull();
    expect(archivedFilmIn(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0]))).toBeNull();
    const whole = filmFile();
    const answers = Array.from({ length: whole.length }, (__, length) => archivedFilmIn(whole.subarray(0, length)));
    for (const one of answers) expect(one === null || one.study === archived.study).toBe(true);
    expect(answers[200]).toBeNull();
  });

  it('has no number of the patient that is written in other letters or as two values', () => {
    expect(archivedFilmIn(filmFile({ '00100020 LO': 'A\\B' }))?.kept.PatientID).toBeNull();
    expect(archivedFilmIn(filmFile({ '00100020 LO': 'x'.repeat(65) }))?.kept.PatientID).toBeNull();
  });
});

describe('the films of a case', () => {
  it('have a file name each, without photos', () => {
    const two = `${filmText()}\n${filmText({}, { header: 'film LF lateral "y.png"' })}\n${filmText({}, { header: 'photo LF lateral "z.jpg"' })}`;
    const films = reportFilms(inspect(caseOf(two)).study, 'clover.hoof');
    expect(films.map(({ name, fileName }) => [name, fileName])).toEqual([
      ['LF/2026-01-04', 'clover-lf-lateral-2026-01-04.dcm'],
      ['LF/2026-01-04', 'clover-lf-lateral-2026-01-04-2.dcm'],
    ]);
  });
});

describe('ungula report --structured', () => {
  let folder = '';
  const file = (name: string): string => join(folder, name);
  const run = async (...args: string[]): Promise<{ status: number; out: string; err: string[] }> => {
    let out = '';
    const err: string[] = [];
    const io = { out: (text: string) => (out += text), err: (line: string) => err.push(line) };
    const status = await commandLine(['report', ...args], io);
    return { status, out, err };
  };

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'ungula-structured-'));
    const two = `${filmText()}\n\nvisit 2026-02-01\n${filmText({}, { header: 'film RF lateral "y.dcm"' })}`;
    writeFileSync(file('clover.hoof'), caseOf(two));
    writeFileSync(file('y.dcm'), filmFile());
    writeFileSync(file('bare.hoof'), caseOf('  film LF lateral "x.png"'));
    writeFileSync(file('none.hoof'), 'hoof 1\n\ncase "Bare"\n  animal horse\n');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('writes a file for each film, or the one that is named', async () => {
    const both = await run(file('clover.hoof'), '--structured', '-o', file('all'), '--on', '2026-02-02');
    expect(both).toMatchObject({ status: 0, out: expect.stringContaining('clover-rf-lateral-2026-02-01.dcm') });
    const written = readdirSync(file('all')).sort();
    expect(written).toEqual(['clover-lf-lateral-2026-01-04.dcm', 'clover-rf-lateral-2026-02-01.dcm']);
    const named = ['--film', 'rf/2026-02-01', '-o', file('one.dcm'), '--on', '2026-02-02'];
    expect((await run(file('clover.hoof'), '--structured', ...named)).status).toBe(0);
    const one = readFileSync(file('one.dcm'));
    expect(one.equals(readFileSync(join(file('all'), written[1] ?? '')))).toBe(true);
    // Its film is a DICOM file, the other's is not there.
    expect(one.includes(archived.instance)).toBe(true);
    expect(readFileSync(join(file('all'), written[0] ?? '')).includes(archived.instance)).toBe(false);
    // Again over itself.
    expect((await run(file('clover.hoof'), '--structured', ...named)).status).toBe(0);
  });

  it('writes over nothing but a report of its own, least of all a film', async () => {
    const film = readFileSync(file('y.dcm'));
    const asked = await run(file('clover.hoof'), '--structured', '--film', 'RF', '-o', file('y.dcm'));
    expect(asked).toMatchObject({ status: 2, err: [expect.stringContaining('no structured report')] });
    expect(readFileSync(file('y.dcm')).equals(film)).toBe(true);
    mkdirSync(file('folder.dcm'));
    const intoFolder = await run(file('clover.hoof'), '--structured', '--film', 'RF', '-o', file('folder.dcm'));
    expect(intoFolder).toMatchObject({ status: 2, err: [expect.stringContaining('is a folder')] });
  });

  it.each([
    [['clover.hoof', '--structured'], '-o OUT.dcm'],
    [['clover.hoof', '--structured', '-o', 'x.dcm'], 'LF/2026-01-04, RF/2026-02-01'],
    [['clover.hoof', '--structured', '--film', 'LF/2026-13-40', '-o', 'x'], 'there is no film LF/2026-13-40'],
    [['clover.hoof', '--structured', '--film', 'newest', '-o', 'x'], 'such as LF/2026-05-28'],
    [['clover.hoof', '--structured', '--for', 'vet', '-o', 'x'], 'does not go with --for'],
    [['clover.hoof', '--film', 'LF', '-o', 'x.html'], '--film goes with --structured'],
    [['bare.hoof', '--structured', '-o', 'x'], 'nothing is measured on this film'],
    [['none.hoof', '--structured', '-o', 'x'], 'no case has a film'],
  ])('says what is wrong with %j', async ([name = '', ...args], words) => {
    const at = (one: string): string => (one === 'x' || one.startsWith('x.') ? file(one) : one);
    const { status, err, out } = await run(file(name), ...args.map(at));
    expect([status, out]).toEqual([2, '']);
    expect(err.join('\n')).toContain(words);
    expect(readdirSync(folder)).not.toContain('x');
  });
});
