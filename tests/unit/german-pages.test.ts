import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { useWords } from '../../shared/language/words.ts';
import { sources } from '../../shared/reference/sources.ts';
import { handedPage, pageReaders } from '../../shared/report/pages/handed-page.ts';
import { reportPage } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import german from '../../l10n/bundle.l10n.de.json' with { type: 'json' };
import { textsOf } from './made-up-language.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const cases = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name): [string, string] => [name, readFileSync(join(examples, name), 'utf8')]);

beforeEach(() => useWords(german));
afterEach(() => useWords(undefined));

const plain = (text: string): string =>
  text
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', '’')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** Words of the notation, behind what a report of a case lacks. */
const lines =
  /\((?:trim, medicine, shoe und andere|heel down, toe back und andere|obel, lameness, pulse und andere|film, tape)\)/g;

/** What a page shows and reads aloud, a piece each, without what the case says in its own words. */
function piecesOf(page: string, own: readonly string[]): string[] {
  const body = page.replaceAll(/<style>[^]*?<\/style>/g, '');
  const read = [...body.matchAll(/(?:aria-label|alt|title)="([^"]*)"/g)].map(([, words = '']) => words);
  const cited = Object.values(sources).flatMap(({ cite }) => [cite, cite.split(/,|: /)[0] ?? '']);
  const left = [...own, ...cited].filter((one) => one.length > 2).toSorted((a, b) => b.length - a.length);
  return [...read, ...body.split(/<[^>]*>/)].map((piece) =>
    left
      .reduce((words, one) => words.replaceAll(one, ' '), plain(piece))
      // What a line is to look like, codes, and names of measures stay.
      .replace(/Zum Beispiel: .*$/, ' ')
      .replaceAll(lines, ' ')
      .replaceAll(/«[^»]*»|„[^“]*“|`[^`]*`|[a-z0-9]+(?:[./-][a-z0-9]+)+/g, ' '),
  );
}

/** Words that are English and not German. */
const english =
  /\b(?:the|of|and|with|is|are|to|on|from|by|heels?|toe|sole|films?|foot|bone|hoof|trims?|cut|not|this|that|bounding|gelding|mare|horse)\b/;
/** Figures with a point before a unit, and days as the notation has them. */
const foreign = /\d\.\d+ ?(?:mm|°|%|kg|cm)|\b20\d\d-\d\d-\d\d\b/;

describe('pages in German', () => {
  it.each(cases)('say nothing in English, and write numbers and days as German does: %s', (name, text) => {
    const own = [name, ...textsOf(text)];
    const inspection = inspect(text);
    const pages = [
      reportPage([{ file: name, inspection, pictures: new Map() }], '2026-06-01'),
      ...pageReaders.map((reader) =>
        handedPage(reader, { inspection, pictures: new Map(), date: '2026-06-01', names: true }),
      ),
    ];
    for (const page of pages) {
      expect(page).toContain('<html lang="de">');
      const pieces = piecesOf(page, own);
      expect(pieces.length).toBeGreaterThan(10);
      expect(pieces.filter((piece) => english.test(piece))).toEqual([]);
      expect(pieces.filter((piece) => foreign.test(piece))).toEqual([]);
    }
  });

  it('an owner reads what stands on the page in German', () => {
    const [, text = ''] = cases.find(([name]) => name === 'juniper.hoof') ?? [];
    const page = handedPage('owner', {
      inspection: inspect(text),
      pictures: new Map(),
      date: '2026-06-01',
      names: false,
    });
    for (const words of [
      'Für Besitzer',
      '1. Juni 2026',
      'Die Sohle unter dem Knochen ist 14 mm dick.',
      'Wann Sie jetzt die Tierarztpraxis anrufen',
      'Sie ist keine Diagnose.',
    ])
      expect(page).toContain(words);
  });

  it('a vet reads the days and the values, and no day is taken for a telephone number', () => {
    const [, text = ''] = cases.find(([name]) => name === 'juniper.hoof') ?? [];
    const inspection = inspect(text);
    const page = handedPage('vet', { inspection, pictures: new Map(), date: '2026-06-01', names: false });
    expect(page).toContain('0 von 4 am 27.05.2026');
    expect(page).toContain('5,0° ± 0,5');
    // A number that is written with points as a day is goes all the same.
    const numbered = text.replace('| ', '| ring 030.1234567 on 04.03.2026, ');
    expect(numbered).not.toBe(text);
    const withNumber = handedPage('vet', {
      inspection: inspect(numbered),
      pictures: new Map(),
      date: '2026-06-01',
      names: false,
    });
    expect(withNumber).not.toContain('1234567');
  });

  it('signs for the vet call in the plainest words', () => {
    const text = 'hoof 1\n\ncase "A"\n  animal horse\n\nvisit 2026-03-04\n  sign fever\n';
    const { findings } = inspect(text);
    const call = findings.find(({ code }) => code === 'visit/call-the-vet');
    expect(call?.severity).toBe('error');
    expect(call?.message).toMatch(
      /^Rufen Sie jetzt die Tierärztin oder den Tierarzt: Fieber, gesehen am 4\. März 2026\./,
    );
    expect(call?.message).toContain('Bearbeiten Sie vorher nichts.');
  });
});

describe('drawings in German', () => {
  it.each(cases)('letter every value whole, within the sheet: %s', (_, text) => {
    for (const sheet of filmSheets(inspect(text))) {
      const scene = drawPlate(plateOf(sheet, null, { cut: null }));
      const svg = sceneToSvg(scene);
      expect(svg).not.toContain('…');
      const { labelBoxes: labels, view } = scene;
      for (const [index, one] of labels.entries()) {
        expect(one.x).toBeGreaterThanOrEqual(view.x);
        expect(one.x + one.width).toBeLessThanOrEqual(view.x + view.width);
        for (const other of labels.slice(index + 1)) {
          const wide = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x);
          const high = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y);
          expect(Math.min(wide, high)).toBeLessThanOrEqual(1e-6);
        }
      }
      if (sheet.rows.length > 3) expect(labels.length).toBeGreaterThan(3);
    }
  });
});

describe('what programs and cases read has no language', () => {
  const answer = async (...args: string[]): Promise<string> => {
    let out = '';
    await commandLine(args, { out: (text) => (out += text), err: () => undefined });
    return out;
  };
  const file = join(examples, 'juniper.hoof');

  it.each([
    ['measure', '--format', 'csv'],
    ['course', '--format', 'csv'],
  ])('%s %s %s is the same in German', async (command, ...options) => {
    const inGerman = await answer(command, file, ...options);
    useWords(undefined);
    expect(inGerman).toBe(await answer(command, file, ...options));
    expect(inGerman).toMatch(/\d\.\d/);
  });

  it('the numbers of JSON are numbers in German too, and its codes and keys the same', async () => {
    const bare = (json: string): unknown =>
      JSON.parse(json, (key, value: unknown) => (typeof value === 'string' && /^(?:seen|\d+)$/.test(key) ? '' : value));
    const inGerman = bare(await answer('measure', file, '--format', 'json'));
    useWords(undefined);
    const inEnglish = bare(await answer('measure', file, '--format', 'json'));
    expect(inGerman).toEqual(inEnglish);
    expect(JSON.stringify(inGerman)).toContain('"palmar-angle"');
  });

  it('a plan has the point in what it would write, and the comma in what it says', async () => {
    const plan = await answer('plan', file, '--foot', 'LF', '--to', 'sole-plane');
    expect(plan).toMatch(/^ +heel +down \d+\.\d mm$/m);
    expect(plan).toMatch(/Trachten \d+,\d mm/);
  });

  it.each(cases)('fixes write the same in German: %s', (_, text) => {
    const written = () =>
      inspect(text).findings.flatMap(({ code, fixes }) =>
        fixes.flatMap(({ edits }) => edits.map((edit) => [code, edit])),
      );
    const inGerman = written();
    useWords(undefined);
    expect(inGerman).toEqual(written());
  });
});
