import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { ReportPicture } from '../../shared/report/page.ts';
import { handedPage, pageReaders, type PageReader } from '../../shared/report/pages/handed-page.ts';
import type { MadePdf, Paper } from '../../shared/report/pages/page-as-pdf.ts';
import { feetToday } from '../../shared/views/foot-today.ts';
import { linesOf } from '../../src/pdf/lines.ts';
import { pagePdf } from '../../src/pdf/page-pdf.ts';
import { alarmedCase, identifiers, namedCase, planned, poorCases, vetsNumber } from './handed-cases.ts';
import { readPdf, unspaced, type Point, type ReadPdf, type ReadSheet, type Stroke } from './read-pdf.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');

/** The day after the last visit of each example, when its page would be handed over. */
const days: Readonly<Record<string, string>> = {
  'bramble.hoof': '2026-02-11',
  'fennel.hoof': '2026-09-08',
  'juniper.hoof': '2026-05-28',
  'larch.hoof': '2026-04-21',
  'mistakes.hoof': '2026-03-05',
  'sorrel.hoof': '2026-06-10',
  'teasel.hoof': '2026-06-11',
  'thistle.hoof': '2026-03-18',
};
const usualDay = '2026-05-28';
const exampleTexts = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name): [string, string, string] => [name, readFileSync(join(examples, name), 'utf8'), days[name] ?? usualDay]);
const allCases: readonly [string, string, string][] = [
  ...exampleTexts,
  ...Object.entries({ ...poorCases, named: namedCase, alarmed: alarmedCase }).map(
    ([name, text]): [string, string, string] => [name, text, usualDay],
  ),
];

interface Made extends MadePdf {
  readonly html: string;
  readonly read: ReadPdf;
}

interface About {
  readonly date?: string;
  readonly paper?: Paper;
  readonly pictures?: ReadonlyMap<string, ReportPicture>;
}

/** Each is made and read once, as several tests look at it. */
const known = new Map<string, Promise<Made>>();

function pdfFor(reader: PageReader, text: string, about: About = {}): Promise<Made> {
  const { date = usualDay, paper = 'a4', pictures = new Map() } = about;
  const key = JSON.stringify([reader, text, date, paper, [...pictures]]);
  const before = known.get(key);
  if (before) return before;
  const html = handedPage(reader, { inspection: inspect(text), pictures, date, names: false });
  const made = pagePdf({ html, date, paper }).then(async (pdf) => ({ ...pdf, html, read: await readPdf(pdf.bytes) }));
  known.set(key, made);
  return made;
}

/** The weights that lines of a foot in true size are drawn with, in mm: `shared/drawing/foot/true-size.ts`. */
const weights = { bar: 0.6, pen: 0.45, ground: 0.35 };

const drawnWith = ({ strokes }: ReadSheet, weight: number): Stroke[] =>
  strokes.filter((stroke) => Math.abs(stroke.weight - weight) < 0.001);
const isLevel = ({ points: [a, b] }: Stroke): boolean =>
  a !== undefined && b !== undefined && Math.abs(a.y - b.y) < 1e-4;
const lengthOf = ({ points }: Stroke): number => {
  const [a, b] = [points[0], points.at(-1)];
  return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
};
/** The ticks of the bar have the weight of the ground, and are short. */
const groundOf = (sheet: ReadSheet): Stroke | undefined =>
  drawnWith(sheet, weights.ground).find((stroke) => isLevel(stroke) && lengthOf(stroke) > 50);

describe('the foot in true size on the page for the yard', () => {
  it.each(allCases)('has a bar that measures 100 mm on its sheet: %s', async (_, text, date) => {
    for (const paper of ['a4', 'letter'] as const) {
      const { read } = await pdfFor('yard', text, { date, paper });
      const feet = (await pdfFor('yard', text, { date })).html.match(/class="true-size/g)?.length ?? 0;
      const bars = read.sheets.flatMap((sheet) => drawnWith(sheet, weights.bar)).filter(isLevel);
      expect(bars).toHaveLength(feet);
      for (const bar of bars) expect(Math.abs(lengthOf(bar) - 100)).toBeLessThan(0.05);
    }
  });

  it('has the bar where there is a plan', async () => {
    const { read } = await pdfFor('yard', planned());
    expect(read.sheets.flatMap((sheet) => drawnWith(sheet, weights.bar))).toHaveLength(1);
  });

  /** Points of the pen line of the one foot on a sheet, from heel to toe, as heights above the ground, mm. */
  function penIn(read: ReadPdf): { heights: number[]; points: readonly Point[]; ground: number } {
    const [sheet] = read.sheets;
    const pens = sheet ? drawnWith(sheet, weights.pen) : [];
    const ground = (sheet && groundOf(sheet)?.points[0]?.y) ?? Number.NaN;
    expect(pens).toHaveLength(1);
    const points = pens[0]?.points ?? [];
    return { heights: points.map(({ y }) => ground - y), points, ground };
  }

  it.each(['heel down 1.5 mm', 'heel down 1 mm', 'heel down 0.5 mm'])(
    'has the pen line where the prediction says: %s',
    async (line) => {
      const text = planned().replace('heel down 1.5 mm', line);
      const [foot] = feetToday(inspect(text), usualDay);
      const pen = foot?.pen;
      if (!pen) throw new Error(`there is a line: ${foot?.why}`);
      const { heights, points } = penIn((await pdfFor('yard', text)).read);
      const [heel, toe] = [heights[0] ?? Number.NaN, heights.at(-1) ?? Number.NaN];
      expect(Math.abs(heel - pen.heel)).toBeLessThan(0.1);
      expect(Math.abs(toe - pen.toe)).toBeLessThan(0.1);
      expect(Math.abs((heel + toe) / 2 - pen.quarter)).toBeLessThan(0.1);
      const [from, to] = [pen.line[0], pen.line.at(-1)];
      const across = Math.abs((points[0]?.x ?? 0) - (points.at(-1)?.x ?? 0));
      expect(Math.abs(across - Math.abs((to?.x ?? 0) - (from?.x ?? 0)))).toBeLessThan(0.1);
    },
  );

  it('has a line that takes off the heel what the plan says, by the places of the text and a ruler', async () => {
    const text = planned();
    // Pixels, and the marker of 100 mm, as they stand in the text; nothing of the program reads them here.
    const at = (name: string): Point => {
      const [, x, y] =
        new RegExp(`^\\s*${name.replaceAll('.', '\\.')}\\s+@ +(-?[\\d.]+), +(-?[\\d.]+)`, 'm').exec(text) ?? [];
      if (x === undefined || y === undefined) throw new Error(`no ${name}`);
      return { x: Number(x), y: Number(y) };
    };
    const far = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
    const [, ...ends] = /scale +([\d.]+) mm = ([\d.]+), ([\d.]+) \.\. ([\d.]+), ([\d.]+)/.exec(text)?.map(Number) ?? [];
    const [length = 0, x1 = 0, y1 = 0, x2 = 0, y2 = 0] = ends;
    const mmEach = length / far({ x: x1, y: y1 }, { x: x2, y: y2 });
    const bearing = far(at('heel.ground'), at('toe.ground')) * mmEach;
    expect(bearing).toBeGreaterThan(80);
    const { points, ground } = penIn((await pdfFor('yard', text)).read);
    const [heel, toe] = [points[0], points.at(-1)];
    if (!heel || !toe) throw new Error('there is a line');
    // The toe stays: there the line meets the ground. The heel's contact lies the bearing length behind it.
    expect(Math.abs(ground - toe.y)).toBeLessThan(0.1);
    const behind = toe.x + Math.sign(heel.x - toe.x) * bearing;
    const height = ground - (toe.y + ((heel.y - toe.y) * (behind - toe.x)) / (heel.x - toe.x));
    expect(Math.abs(height - 1.5)).toBeLessThan(0.1);
  });

  it('lies across where the foot is wider than an upright sheet, and is as large as it is', async () => {
    const large = planned().replace('scale   100 mm', 'scale   112 mm').replace('height 150', 'height 190');
    const { html, read } = await pdfFor('yard', large);
    expect(html).toContain('lies-across');
    const [sheet] = read.sheets;
    expect([sheet?.width, sheet?.height]).toEqual([expect.closeTo(297, 2), expect.closeTo(210, 2)]);
    // The words behind the drawing may take a second one.
    expect(read.sheets.length).toBeLessThanOrEqual(2);
    const bars = sheet ? drawnWith(sheet, weights.bar) : [];
    expect(bars.map(lengthOf)).toEqual([expect.closeTo(100, 2)]);
    const ground = sheet && groundOf(sheet);
    expect(ground && lengthOf(ground)).toBeGreaterThan(183);
  });

  it('has no pen line while an alarm is open', async () => {
    const { read } = await pdfFor('yard', alarmedCase);
    expect(read.sheets.flatMap((sheet) => drawnWith(sheet, weights.pen))).toEqual([]);
    expect(read.text).toContain('Openalarms');
  });
});

/** The words of the page, piece by piece, in order; those of drawings are left out. */
function piecesOf(html: string): string[] {
  return html
    .slice(html.indexOf('<body'))
    .replaceAll(/<svg[^]*?<\/svg>/g, '\n')
    .replaceAll(
      /<\/?(?:h\d|p|li|t[hdr]|table|thead|tbody|section|div|main|header|ul|ol|dl|dt|dd|fig\w+|caption|br)\b[^>]*>/g,
      '\n',
    )
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .split('\n')
    .map(unspaced)
    .filter((piece) => piece !== '');
}

/** What the foot of a sheet says; it comes between the words of one sheet and the next. */
const foot = /DecisionsupportonlyDiagnosis,filmsandpainbelongtothevet\..*$/;

describe('every page as PDF', () => {
  it.each(allCases.filter(([name]) => name !== 'a name in Arabic'))(
    'says what the page says, in its order: %s',
    async (_, text, date) => {
      for (const reader of pageReaders) {
        const { html, read } = await pdfFor(reader, text, { date });
        const said = read.sheets
          .map((sheet) => sheet.text.replace('Decisionsupportonly.', 'Decisionsupportonly').replace(foot, ''))
          .join('');
        const pieces = piecesOf(html).map((piece) => piece.replace('Decisionsupportonly.', 'Decisionsupportonly'));
        expect(pieces.length).toBeGreaterThan(8);
        let from = 0;
        for (const piece of pieces) {
          const at = said.indexOf(piece, from);
          if (at < 0) expect([reader, said.slice(from, from + 200)]).toEqual([reader, piece]);
          from = at + piece.length;
        }
      }
    },
  );

  it.each(allCases)('has as few sheets as it is to have, on either paper: %s', async (name, text, date) => {
    for (const paper of ['a4', 'letter'] as const) {
      const [owner, vet, yard] = await Promise.all(pageReaders.map((reader) => pdfFor(reader, text, { date, paper })));
      expect(owner?.read.sheets.length).toBeLessThanOrEqual(2);
      expect(yard?.read.sheets.length).toBe(name === 'three feet' ? 2 : 1);
      // All that has to be decided stands on the first side; what lies behind begins with the course.
      expect(vet?.read.sheets[0]?.text).toContain('Whatisaskedofthevet');
      expect(vet?.read.sheets[1]?.text).toMatch(/^Course/);
      const [width, height] = paper === 'a4' ? [210, 297] : [215.9, 279.4];
      for (const sheet of [owner, vet, yard].flatMap((made) => made?.read.sheets ?? [])) {
        expect([sheet.width, sheet.height]).toEqual([expect.closeTo(width, 2), expect.closeTo(height, 2)]);
        // Rules, frames and true sizes keep within the margins that printers leave.
        const level = sheet.strokes.filter((stroke) => isLevel(stroke) && stroke.weight > 0.15);
        for (const { points } of level)
          for (const { x, y } of points) {
            expect(x).toBeGreaterThan(12);
            expect(x).toBeLessThan(width - 12);
            expect(y).toBeLessThan(height - 10);
          }
      }
    }
  });

  it.each(exampleTexts)(
    'says at each foot which sheet it is, of how many, and what it is not: %s',
    async (_, text, date) => {
      for (const reader of pageReaders) {
        const { read } = await pdfFor(reader, text, { date });
        for (const [index, sheet] of read.sheets.entries()) {
          expect(sheet.text).toContain(`page${index + 1}of${read.sheets.length}`);
          expect(sheet.text).toContain('Decisionsupportonly.');
        }
      }
    },
  );

  it('has a title, a language and tags, and no author', async () => {
    const { read } = await pdfFor('owner', planned());
    expect(read.info).toMatchObject({ Title: 'Clover: For the owner', Language: 'en' });
    expect(read.info['Author']).toBeUndefined();
    expect((await read.document.getMarkInfo()) as unknown).toEqual(
      new Map(Object.entries({ Marked: true, UserProperties: false, Suspects: false })),
    );
    const page = await read.document.getPage(1);
    const tree = JSON.stringify(await page.getStructTree());
    for (const role of ['Document', 'H1', 'H2', 'P', 'L', 'LI', 'Table', 'TR', 'TH', 'TD', 'Figure'])
      expect(tree).toContain(`"role":"${role}"`);
    expect(tree).toMatch(/"alt":"[^"]*left fore/i);
  });

  it('is the same to the byte on the same day, and another on another', async () => {
    const { html, bytes } = await pdfFor('vet', planned());
    const again = await pagePdf({ html, date: usualDay, paper: 'a4' });
    expect(Buffer.from(again.bytes).equals(Buffer.from(bytes))).toBe(true);
    const later = await pagePdf({ html, date: '2026-05-29', paper: 'a4' });
    expect(Buffer.from(later.bytes).equals(Buffer.from(bytes))).toBe(false);
  });

  it.each(pageReaders)('names nobody and no number unasked: %s', async (reader) => {
    const { bytes, read } = await pdfFor(reader, namedCase);
    const raw = Buffer.from(bytes).toString('latin1');
    for (const one of [...identifiers, ...(reader === 'owner' ? [] : [vetsNumber])]) {
      expect(read.text).not.toContain(unspaced(one));
      expect(JSON.stringify(read.info)).not.toContain(one);
      expect(raw).not.toContain(one);
    }
    expect(read.text).toContain('[leftout]');
  });
});

describe('letters of other scripts', () => {
  const called = (name: string): string => planned().replace('"Clover"', `"${name}"`);

  it.each([
    ['Greek', 'Ζέφυρος'],
    ['Cyrillic', 'Буран Ђорђе Ґава'],
    ['Latin with marks', 'Ősz Þoka Žluťásek Ağrı'],
    ['Vietnamese', 'Ngựa Đẹp'],
  ])('are shown: %s', async (_, name) => {
    const { read, notShown } = await pdfFor('yard', called(name));
    expect(notShown).toEqual([]);
    expect(read.sheets[0]?.text).toContain(unspaced(name));
  });

  it('are shown in Arabic, from right to left and joined', async () => {
    const name = 'ياسمين';
    const { read, notShown } = await pdfFor('owner', poorCases['a name in Arabic'] ?? '');
    expect(notShown).toEqual([]);
    const page = await read.document.getPage(1);
    const { items } = await page.getTextContent();
    const heading = items.find((item) => 'str' in item && unspaced(item.str) === name && item.height > 15);
    if (!heading || !('str' in heading)) throw new Error('there is a heading');
    expect(heading.dir).toBe('rtl');
    // It begins at the right margin of the sheet: 13 mm are 36.85 points.
    expect(Math.abs(heading.transform[4] + heading.width - (595.28 - 36.85))).toBeLessThan(3);
    // Quoted within a sentence from left to right it stands where it is said.
    expect(read.sheets[0]?.text).toContain(`Feed:“${name}”(27May2026)`);
  });

  it('that no type of the file has are named in a box, on the page and to the caller', async () => {
    const { read, notShown } = await pdfFor('yard', called('Clover 馬'));
    // The Unicode standard: 馬 is U+99AC.
    expect(read.sheets[0]?.text).toContain('CloverU+99AC');
    expect(notShown).toEqual([expect.stringContaining('no letters for U+99AC')]);
    expect(read.text).toContain(unspaced(notShown[0] ?? ''));
    expect(read.text).not.toContain('馬');
  });
});

describe('letters that run to the left within letters that run to the right', () => {
  // The Unicode standard, annex 9, gives its examples in capitals for letters that run to the left; here each is an Arabic one.
  const arabic = new Map(
    [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].map((letter, index) => [letter, [...'ابتثجحخدذرزسشصضطظعغفقكلمنه'][index] ?? '']),
  );
  const written = (text: string): string => [...text].map((letter) => arabic.get(letter) ?? letter).join('');
  /** As it is seen from the left: what runs to the left is shaped turned. */
  const seen = (text: string): string => {
    const style = { style: 'regular', scale: 1, colour: '#000', href: null } as const;
    const [line] = linesOf([{ text: written(text), ...style }], Infinity, () => {});
    const letters = new Map([...arabic].map(([capital, letter]) => [letter, capital]));
    const runs = line?.runs.map(({ text: run, toLeft }) => {
      const plain = [...run].map((letter) => letters.get(letter) ?? letter);
      return toLeft && /[A-Z]/.test(plain.join('')) ? plain.toReversed().join('') : plain.join('');
    });
    return runs?.join('') ?? '';
  };

  it.each([
    ['car means CAR.', 'car means RAC.'],
    ['he said “THE VALUES ARE 123, 456, 789, OK”.', 'he said “KO ,789 ,456 ,123 ERA SEULAV EHT”.'],
    ['DID YOU SAY ’\u2066he said “\u2067car MEANS CAR\u2069”\u2069‘?', '?‘he said “RAC SNAEM car”’ YAS UOY DID'],
  ])('stand as the standard shows them: %s', (text, shown) => {
    expect(seen(text)).toBe(shown);
  });
});

describe('pictures of films', () => {
  const films = /"(LF-[^"]+)"/.exec(planned())?.[1] ?? '';
  const withPicture = (href: string): About => ({ pictures: new Map([[films, { href, width: 900, height: 700 }]]) });
  const png = (): string => {
    const image = new PNG({ width: 9, height: 7 });
    image.data.fill(128);
    return `data:image/png;base64,${PNG.sync.write(image).toString('base64')}`;
  };
  /** A PNG whose header says 1 by 1 and whose rows unpack to 300 MB. */
  const swollen = (): string => {
    const whole = PNG.sync.write(new PNG({ width: 1, height: 1 }));
    const [from, to] = [whole.indexOf('IDAT') - 4, whole.indexOf('IEND') - 4];
    const rows = deflateSync(new Uint8Array(300_000_000));
    const head = Buffer.alloc(8);
    head.writeUInt32BE(rows.length, 0);
    head.write('IDAT', 4);
    const made = Buffer.concat([whole.subarray(0, from), head, rows, Buffer.alloc(4), whole.subarray(to)]);
    return `data:image/png;base64,${made.toString('base64')}`;
  };

  it('stand in the PDF', async () => {
    const { read, notShown } = await pdfFor('vet', planned(), withPicture(png()));
    expect(read.sheets[0]?.pictures).toBe(1);
    expect(notShown).toEqual([]);
    expect((await pdfFor('vet', planned())).read.sheets[0]?.pictures).toBe(0);
  });

  it.each([
    ['of a kind that no PDF takes', 'data:image/webp;base64,UklGRgAAAABXRUJQ'],
    ['broken', 'data:image/png;base64,AAAA'],
    ['cut off', png().slice(0, -40)],
    ['made to swell', swollen()],
    ['broken photos', 'data:image/jpeg;base64,/9j/AAAA'],
  ])('are left out where they are %s, and the page says so', async (_, href) => {
    const { read, notShown } = await pdfFor('vet', planned(), withPicture(href));
    expect(read.sheets[0]?.pictures).toBe(0);
    expect(notShown).toEqual([expect.stringContaining('The picture is left out')]);
    expect(read.sheets[0]?.text).toContain(unspaced(notShown[0] ?? ''));
  });
});
