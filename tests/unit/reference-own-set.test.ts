import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { readReference } from '../../shared/findings/limits/read-reference.ts';
import { bandFor } from '../../shared/reference/bands.ts';
import type { OwnSet } from '../../shared/reference/own-set.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { reportPage } from '../../shared/report/page.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { REFERENCE_SCHEMA_FILE, referenceSchemaText } from '../../scripts/reference-schema.ts';
import { caseText, filmText } from './plain-foot.ts';

const json = (parts: object): string =>
  JSON.stringify({ 'ungula-reference': 1, name: 'Our clinic', source: { cite: 'our films' }, ...parts });

function setOf(...bands: object[]): OwnSet {
  const { set, problem } = readReference(json({ bands }));
  if (!set) throw new Error(problem);
  return set;
}

const inspected = (text: string, ...reference: OwnSet[]) => inspect(text, { ...usualStudy, reference });

const soleText = (depth: number, more: Parameters<typeof caseText>[1] = {}): string =>
  caseText(filmText({ 'sole.tip': [0, 16 - depth] }), more);

const sole = (text: string, ...sets: OwnSet[]) =>
  inspected(text, ...sets).findings.filter(({ code }) => code === 'range/sole-depth.tip' || code === 'limits/loosened');

describe('a set of one’s own', () => {
  const strict = setOf({ measure: 'sole-depth.tip', low: 18, says: 'Ask us.' });
  const loose = setOf({ measure: 'sole-depth.tip', low: 9 });

  it('stands before the published limit, is named, and both are told', () => {
    const [finding] = sole(soleText(16), strict);
    expect(finding).toMatchObject({ severity: 'warning', limit: 18, source: 'Our clinic: our films' });
    expect(finding?.message).toContain(', under 18 mm (Our clinic: our films). Published: 7 mm (Taylor');
    expect(finding?.message).toContain('Ask us.');
    expect(sole(soleText(16))).toEqual([]);
  });

  it('may allow more, and the row still tells what is published', () => {
    expect(sole(soleText(10))).toHaveLength(1);
    expect(sole(soleText(10), loose)).toEqual([]);
    const row = filmSheets(inspected(soleText(10), loose))[0]?.rows.find(({ measure }) => measure === 'sole-depth.tip');
    expect(row).toMatchObject({ state: 'within', usual: { low: 9 } });
    expect(row?.source).toMatch(/^Our clinic: our films\. Published: 7 mm \(Taylor.+\)\.$/);
  });

  it('does not silence a published limit that is told as an error, unless it draws one itself', () => {
    const founder = (distance: number, ...sets: OwnSet[]) =>
      inspected(caseText(filmText({ 'wall.top': [-18, 56 + distance] })), ...sets).findings.filter(
        ({ measure }) => measure === 'founder-distance',
      );
    expect(founder(18, setOf({ measure: 'founder-distance', high: 20 }))).toMatchObject([
      { severity: 'error', limit: 15 },
    ]);
    const grave = setOf(
      { measure: 'founder-distance', high: 14 },
      { measure: 'founder-distance', high: 20, severity: 'error' },
    );
    expect(founder(18, grave)).toMatchObject([{ severity: 'warning', limit: 14 }]);
    expect(founder(22, grave)).toMatchObject([{ severity: 'error', limit: 20 }]);
  });

  it('leaves the other side of the measure as published', () => {
    const low = setOf({ measure: 'palmar-angle', low: 4 });
    const steep = inspected(caseText(filmText({ 'p3.wing': [-80, 40] })), low).findings;
    expect(steep.find(({ code }) => code === 'range/palmar-angle')).toMatchObject({ limit: 10 });
  });

  it('says nothing against what it agrees with', () => {
    const [finding] = sole(soleText(5), setOf({ measure: 'sole-depth.tip', low: 7 }));
    expect(finding?.message).not.toContain('Published');
  });

  it('of several the first counts; a limit of the case stands before them all', () => {
    expect(sole(soleText(16), strict, loose)).toMatchObject([{ limit: 18 }]);
    expect(sole(soleText(16), loose, strict)).toEqual([]);
    const limits = (line: string) => soleText(16, { limits: `\nlimits\n  ${line}\n` });
    expect(sole(limits('sole-depth.tip >= 19 mm'), strict)).toMatchObject([{ limit: 19 }]);
    const [loosened, kept] = sole(limits('sole-depth.tip >= 14 mm'), strict);
    expect(loosened?.message).toContain('allows more than Our clinic with 18 mm');
    expect(kept).toMatchObject({ limit: 18 });
  });

  it('is chosen by foot and animal, and never scaled by height', () => {
    const set = setOf(
      { measure: 'sole-depth.tip', animals: 'horses', low: 18 },
      { measure: 'sole-depth.tip', animals: 'ponies', low: 17 },
      { measure: 'sole-depth.tip', animals: 'donkeys', low: 16.5 },
    );
    const of = (kind: string, lines = '') =>
      sole(soleText(16, { animal: `animal ${kind} mare${lines}` }), set).map(({ limit }) => limit);
    expect(of('horse')).toEqual([18]);
    expect(of('mule')).toEqual([18]);
    expect(of('pony', '\n  height 111 cm')).toEqual([17]);
    expect(of('donkey')).toEqual([16.5]);
    expect(sole(soleText(16), setOf({ measure: 'sole-depth.tip', feet: 'hind', low: 18 }))).toEqual([]);
    // A pony for which the set has no row of its own takes the horses'.
    const horses = setOf({ measure: 'sole-depth.tip', animals: 'horses', low: 18 });
    expect(sole(soleText(16, { animal: 'animal pony mare' }), horses)).toMatchObject([{ limit: 18 }]);
  });

  it('draws a line for a measure that nothing is published of', () => {
    const { findings } = inspected(caseText(filmText()), setOf({ measure: 'heel-height', high: 20 }));
    const ranges = findings.filter(({ code }) => code.startsWith('range/'));
    expect(ranges.map(({ code, limit }) => [code, limit])).toEqual([['range/agreed', 20]]);
  });

  it('shows its values before the published ones', () => {
    const { set } = readReference(
      json({
        values: [
          {
            measure: 'sole-depth.tip',
            population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'our riding horses' },
            n: 12,
            mean: 17,
            sd: 2,
          },
        ],
      }),
    );
    const rows = filmSheets(inspected(soleText(16), set as OwnSet))[0]?.rows ?? [];
    const published = rows.find(({ measure }) => measure === 'sole-depth.tip')?.published ?? [];
    expect(published[0]).toBe('mean 17 mm ± 2: our riding horses, fore feet, n = 12. Our clinic: our films.');
    expect(published[1]).toContain('usually from 15 mm');
  });
});

describe('where sources disagree', () => {
  it('both are told', () => {
    const { findings } = inspect(caseText(filmText({ 'p3.dorsal.upper': [-24, 54] })));
    const [rotation] = findings.filter(({ code }) => code === 'range/capsular-rotation');
    expect(rotation?.message).toContain('Others quote the same paper with 6.8°.');
  });

  it('the other line is scaled for a pony like the one that counts', () => {
    const text = caseText(filmText({ 'wall.top': [-18, 68] }), { animal: 'animal pony mare\n  height 111 cm' });
    const [founder] = inspect(text).findings.filter(({ code }) => code === 'range/low-in-capsule');
    expect(founder).toMatchObject({ severity: 'warning', limit: 6 });
    expect(
      bandFor('founder-distance', 'LF', { kind: 'pony', heightMm: 1110 })?.thresholds[1]?.against?.[0]?.at,
    ).toBeCloseTo(11.4, 9);
  });
});

describe('the report', () => {
  it('lists published values of what is out of its range, and of nothing else', () => {
    const page = (text: string) =>
      reportPage([{ file: 'x.hoof', inspection: inspect(text), pictures: new Map() }], '2026-03-04');
    expect(page(soleText(10))).toContain('<dt>sole depth at the tip</dt><dd>usually from 15 mm');
    expect(page(soleText(13))).not.toContain('<dt>palmar angle</dt>');
    expect(page(soleText(16))).not.toContain('class="published"');
  });
});

describe('a file that cannot be used', () => {
  const band = { measure: 'palmar-angle', low: 2 };
  const value = {
    measure: 'palmar-angle',
    population: { species: 'horse', feet: 'fore', condition: 'sound', words: 'ours' },
    mean: 5,
  };
  it.each([
    ['{', /^this is not JSON: .+\.$/],
    ['[]', 'this wants an object.'],
    ['null', 'this wants an object.'],
    ['{}', 'ungula-reference: this is missing (and 2 more).'],
    [json({ 'ungula-reference': 2 }), 'ungula-reference: this takes 1.'],
    [json({ name: '' }), 'name: this is empty.'],
    [json({ name: 'n'.repeat(81) }), 'name: this is longer than 80 signs.'],
    [json({ source: 'me' }), 'source: this wants an object.'],
    [json({ bands: {} }), 'bands: this wants a list.'],
    [
      json({ bands: [band, { ...band, measure: 'palmer-angle' }] }),
      'bands[1].measure: «palmer-angle» is no measure that Ungula knows.',
    ],
    [
      json({ bands: [{ ...band, measure: 'plantar-angle' }] }),
      'bands[0].measure: «plantar-angle» is written palmar-angle here, with feet.',
    ],
    [json({ bands: [{ low: 2 }] }), 'bands[0].measure: this is missing.'],
    [json({ bands: [{ measure: 'palmar-angle' }] }), 'bands[0]: this wants low, high or both.'],
    [json({ bands: [{ ...band, high: 1 }] }), 'bands[0]: this has a low above its high.'],
    [json({ bands: [{ ...band, low: '2 deg' }] }), 'bands[0].low: this wants a number.'],
    [json({ bands: [{ ...band, unit: 'mm' }] }), 'bands[0]: «unit» is not known here.'],
    [json({ bands: [{ ...band, feet: 'front' }] }), 'bands[0].feet: this takes fore, hind, all.'],
    [json({ bands: [band] }).replace('"low":2', '"low":1e999'), 'bands[0].low: this wants a number.'],
    [json({ values: [{ ...value, n: 0 }] }), 'values[0].n: this wants a number above 0.'],
    [json({ values: [{ ...value, n: 2.5 }] }), 'values[0].n: this wants a whole number.'],
    [json({ values: [{ ...value, mean: undefined }] }), 'values[0]: this wants a mean, a median, about, low or high.'],
    [json({ values: [{ ...value, population: {} }] }), 'values[0].population.species: this is missing (and 3 more).'],
  ])('%s', (text, sentence) => {
    const { set, problem } = readReference(text);
    expect(set).toBeNull();
    expect(problem).toEqual(typeof sentence === 'string' ? sentence : expect.stringMatching(sentence));
  });

  it('is told in one line, whatever it holds', () => {
    for (const text of ['', '\0', '{"__proto__": {"a": 1}}', '[[[[', `{"bands": ["${'x'.repeat(5000)}"]}`])
      expect(readReference(text).problem).toMatch(/^[^\n]{5,300}\.$/);
  });
});

describe('what is published of the form', () => {
  it('the schema file is fresh', () => {
    expect(readFileSync(REFERENCE_SCHEMA_FILE, 'utf8'), 'run npm run build').toBe(referenceSchemaText());
  });

  it('the example of the docs can be used', () => {
    const page = readFileSync(join(import.meta.dirname, '../../docs/measures.md'), 'utf8');
    const example = /```json\n(.+?)```/s.exec(page)?.[1] ?? '';
    expect(readReference(example)).toMatchObject({ problem: null, set: { name: 'Our clinic' } });
  });

  it('the manifest names the schema for the files', () => {
    const manifest = JSON.parse(readFileSync(join(import.meta.dirname, '../../package.json'), 'utf8'));
    expect(manifest.contributes.jsonValidation).toEqual([
      { fileMatch: '*.hoof-reference.json', url: './schemas/reference.schema.json' },
    ]);
    expect(manifest.files).toContain('schemas');
  });
});
