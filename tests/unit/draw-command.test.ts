import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error -- plain JavaScript
import { copyRasterParts } from '../../scripts/raster-parts.mjs';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { lettersOf } from '../../src/cli/font-letters.ts';
import { plateDrawing } from '../../src/preview/take/plate-drawing.ts';
import { filmText } from './plain-foot.ts';

const root = join(import.meta.dirname, '..', '..');
const examples = join(root, 'examples');
const names = readdirSync(examples).filter((name) => name.endsWith('.hoof'));
const juniper = join(examples, 'juniper.hoof');

let folder = '';
const inFolder = (name: string): string => join(folder, name);

beforeAll(() => {
  (copyRasterParts as () => void)();
  folder = mkdtempSync(join(tmpdir(), 'ungula-draw-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function draw(...args: string[]): Promise<{ status: number; err: string[] }> {
  const err: string[] = [];
  const status = await commandLine(['draw', ...args], { out: () => undefined, err: (line) => err.push(line) });
  return { status, err };
}

async function svgOf(...args: string[]): Promise<string> {
  const file = inFolder('drawn.svg');
  const { status, err } = await draw(...args, '-o', file);
  expect([status, err.filter((line) => !/Call the vet/.test(line))]).toEqual([0, []]);
  return readFileSync(file, 'utf8');
}

interface Drawn {
  readonly names: readonly string[];
  /** Every value of every attribute. */
  readonly values: readonly string[];
  readonly words: Readonly<Record<string, string>>;
  readonly svg: Readonly<Record<string, string>>;
}

/** Read by a parser of others, which stops at what is no XML. */
function read(text: string): Drawn {
  const found = { names: [] as string[], values: [] as string[], words: {} as Record<string, string>, svg: {} };
  const open: string[] = [];
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const own = Object.fromEntries(Object.entries(attributes).map(([key, { value }]) => [key, value]));
    if (open.length === 0) found.svg = own;
    open.push(name);
    found.names.push(name);
    found.values.push(...Object.values(own));
  });
  parser.on('text', (words) => {
    const name = open.at(-1) ?? '';
    if (open.length === 2) found.words[name] = (found.words[name] ?? '') + words;
  });
  parser.on('closetag', () => open.pop());
  parser.write(text).close();
  return found;
}

/** No address but pictures within, and nothing that runs (SVG 1.1, 14.2 and 18; CSS: `@import`, `url()`). */
function standsAlone(text: string): Drawn {
  const drawn = read(text);
  expect(drawn.names[0]).toBe('svg');
  for (const name of ['script', 'a', 'use', 'foreignObject', 'animate', 'set']) expect(drawn.names).not.toContain(name);
  const addresses = drawn.values.filter((value) => /^[a-z][a-z0-9+.-]*:/i.test(value));
  for (const address of addresses)
    expect(address).toMatch(/^(data:image\/(png|jpeg|gif|webp);base64,|http:\/\/www\.w3\.org\/2000\/svg$)/);
  expect(drawn.words['style']).not.toMatch(/url\(|@import|var\(/);
  expect(drawn.words['title']).toMatch(/\S/);
  expect(drawn.words['desc']).toMatch(/\S/);
  return drawn;
}

describe('draw, as SVG', () => {
  const films = names.flatMap((name) =>
    filmSheets(inspect(readFileSync(join(examples, name), 'utf8'))).map((sheet) => [name, sheet] as const),
  );

  it.each(films.map(([name, sheet]) => [`${name}, ${sheet.title}`, name, sheet] as const))(
    '%s: is the drawing of the preview, and stands alone',
    async (_title, name, sheet) => {
      const which = [
        '--foot',
        sheet.foot,
        '--view',
        sheet.view,
        ...(sheet.date === null ? [] : ['--on', sheet.date]),
        ...(sheet.reader === null ? [] : ['--reader', sheet.reader]),
      ];
      const whole = standsAlone(await svgOf(join(examples, name), ...which));
      expect(whole.names.filter((one) => one === 'image')).toHaveLength(1);
      expect(whole.words['title']).toContain(sheet.view);
      const alone = await svgOf(join(examples, name), ...which, '--without', 'film');
      const { drawing } = await plateDrawing(plateOf(sheet, null), []);
      const drawn = (text: string): string => text.slice(text.indexOf('<style>'));
      expect(drawn(alone)).toBe(drawn(drawing.svg));
    },
    30_000,
  );

  it('tries every example that has a film', () => {
    expect(films.length).toBeGreaterThan(15);
    expect(new Set(films.map(([name]) => name)).size).toBeGreaterThanOrEqual(8);
  });

  it('lays the film of another day, a normal foot and a plan over it', async () => {
    const plain = read(await svgOf(juniper, '--on', '2026-04-28'));
    for (const over of ['2026-03-03', 'normal']) {
      const { names: drawn, words } = standsAlone(await svgOf(juniper, '--on', '2026-04-28', '--over', over));
      expect(drawn.length).toBeGreaterThan(plain.names.length + 3);
      expect(words['desc']).toContain(over === 'normal' ? 'normal foot' : 'Left fore, lateral film, 2026-03-03');
    }
    const { words } = standsAlone(await svgOf(juniper, '--on', '2026-04-28', '--cut'));
    expect(words['desc']).toMatch(/Laid over: (Plan|Trim) of 2026-/);
  });

  it.each(['juniper', 'sorrel', 'teasel', 'fennel'])('draws the course of %s', async (name) => {
    const first = standsAlone(await svgOf(join(examples, `${name}.hoof`), '--view', 'course'));
    expect(first.words['title']).toMatch(/^Course of \w+, left fore$/);
    const all = standsAlone(await svgOf(join(examples, `${name}.hoof`), '--view', 'course', '--all'));
    expect(all.names.length).toBeGreaterThan(first.names.length);
  });

  it('draws the front and the sole', async () => {
    const text = `hoof 1\n\ncase "Clover"\n  animal horse\n\nvisit 2026-05-01
  film LF front "front.png"
    scale 0.2 mm/px
    ground 100, 700 .. 900, 700
    ground.medial @ 700, 700
    ground.lateral @ 250, 700
    coronet.medial @ 660, 420
    coronet.lateral @ 290, 420

  film LF solar "sole.png"
    scale 0.2 mm/px
    toe @ 500, 100
    heel.medial @ 640, 620
    heel.lateral @ 360, 620
`;
    writeFileSync(inFolder('two.hoof'), text);
    for (const view of ['front', 'solar']) {
      const { status, err } = await draw(inFolder('two.hoof'), '--view', view, '-o', inFolder('view.svg'));
      expect([status, err.length]).toEqual([0, 1]);
      expect(err[0]).toMatch(/front\.png|sole\.png/);
      expect(standsAlone(readFileSync(inFolder('view.svg'), 'utf8')).words['title']).toContain(view);
    }
  });

  it('is as large as the foot where that is asked for', async () => {
    // The marker of this film is 100 mm from (119.5, 937.5) to (170.5, 381) of its picture, as its own line in the case says.
    const { svg } = read(await svgOf(juniper, '--on', '2026-05-26', '--true-size'));
    const [, , units = 0] = (svg['viewBox'] ?? '').split(' ').map(Number);
    expect(svg['width']).toMatch(/^\d+(\.\d+)?mm$/);
    const marker = (Math.hypot(170.5 - 119.5, 937.5 - 381) * Number.parseFloat(svg['width'] ?? '')) / units;
    expect(marker).toBeCloseTo(100, 1);
  });

  it('is the same twice, and in black and white for print', async () => {
    expect(await svgOf(juniper, '--theme', 'print')).toBe(await svgOf(juniper, '--theme', 'print'));
    const colours = (await svgOf(juniper, '--view', 'course', '--theme', 'print')).match(/#[0-9a-f]{3,6}\b/g) ?? [];
    const plain = colours.filter((colour) => !['#fdf6e6', '#0b0d10', '#8fd0ff', '#ffb070'].includes(colour));
    for (const colour of plain) expect(['#000', '#fff', '#333', '#444']).toContain(colour);
  });

  it('says the alarms that are open, on standard error and in its description', async () => {
    const { status, err } = await draw(join(examples, 'teasel.hoof'), '-o', inFolder('alarm.svg'));
    expect(status).toBe(0);
    expect(err[0]).toMatch(/teasel\.hoof:\d+: .*Call the vet today/);
    expect(read(readFileSync(inFolder('alarm.svg'), 'utf8')).words['desc']).toMatch(/Call the vet today/);
  });
});

/** The chunks of a PNG by name (PNG specification, third edition, 5.3). */
function chunksOf(bytes: Buffer): ReadonlyMap<string, Buffer> {
  const chunks = new Map<string, Buffer>();
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at))
    chunks.set(bytes.toString('latin1', at + 4, at + 8), bytes.subarray(at + 8, at + 8 + bytes.readUInt32BE(at)));
  return chunks;
}

async function pngOf(...args: string[]): Promise<{ png: PNG; bytes: Buffer; err: string[] }> {
  const file = inFolder('drawn.png');
  const { status, err } = await draw(...args, '-o', file);
  expect([status, err]).toEqual([0, err]);
  const bytes = readFileSync(file);
  return { png: PNG.sync.read(bytes, { checkCRC: true }), bytes, err };
}

const pixel = ({ width, data }: PNG, x: number, y: number): readonly number[] => [
  ...data.subarray(4 * (y * width + x), 4 * (y * width + x) + 3),
];

describe('draw, as PNG', () => {
  it('has the width that is asked for, paper or a dark ground, and the film within', async () => {
    const { png } = await pngOf(juniper, '--width', '600');
    expect(png.width).toBe(600);
    // Paper in the corner; the film is black above the foot, in the middle of the sheet.
    expect(pixel(png, 2, 2)).toEqual([0xfb, 0xf8, 0xf0]);
    expect(Math.max(...pixel(png, 300, 20))).toBeLessThan(40);
    const dark = await pngOf(juniper, '--width', '600', '--theme', 'dark', '--without', 'film');
    expect(Math.max(...pixel(dark.png, 2, 2))).toBeLessThan(40);
    const light = dark.png.data.filter((value, index) => index % 4 === 0 && value > 150).length;
    expect(light).toBeGreaterThan(1000);
  }, 30_000);

  it('states 300 pixels to the inch where it is as large as the foot', async () => {
    const { png, bytes } = await pngOf(juniper, '--on', '2026-05-26', '--true-size');
    const size = chunksOf(bytes).get('pHYs');
    expect([size?.readUInt32BE(0), size?.readUInt32BE(4), size?.[8]]).toEqual([11811, 11811, 1]);
    const { svg } = read(await svgOf(juniper, '--on', '2026-05-26', '--true-size'));
    expect(png.width / 11.811).toBeCloseTo(Number.parseFloat(svg['width'] ?? ''), 0);
  }, 30_000);

  it('is the same twice', async () => {
    const args = [juniper, '--view', 'course', '--width', '800'] as const;
    const { bytes } = await pngOf(...args);
    expect((await pngOf(...args)).bytes.equals(bytes)).toBe(true);
  }, 30_000);

  it('letters names in Arabic and Cyrillic, and says which letters no font here has', async () => {
    const named = readFileSync(juniper, 'utf8').replace('case "Juniper"', 'case "Жасмин ياسمين 茉莉"');
    writeFileSync(inFolder('named.hoof'), named);
    const { err } = await pngOf(inFolder('named.hoof'), '--view', 'course');
    expect(err).toHaveLength(1);
    expect(err[0]).toMatch(/no font here has them: 茉 莉$/);
  }, 30_000);

  it('reads the letters of a font', () => {
    const has = lettersOf(readFileSync(join(root, 'raster', 'DejaVuSerif.ttf')));
    // DejaVu's own list (`unicover.txt` of the package): Latin and Cyrillic in Serif, no Arabic, no Han.
    expect(['a', 'ß', 'Ж', '±', '°', '−', '→'].map((one) => has(one.codePointAt(0) ?? 0))).not.toContain(false);
    expect(['ي', '茉', '\uffff'].map((one) => has(one.codePointAt(0) ?? 0))).not.toContain(true);
  });

  it('says that a WebP goes into an SVG only, and draws the foot alone', async () => {
    const text = readFileSync(juniper, 'utf8').replace(/"films\/juniper-lf-2026-05-26\.png"/, '"phone.webp"');
    writeFileSync(inFolder('webp.hoof'), text);
    copyFileSync(join(import.meta.dirname, 'telling-pictures', 'phone.webp'), inFolder('phone.webp'));
    const { err } = await pngOf(inFolder('webp.hoof'), '--on', '2026-05-26');
    expect(err.join('\n')).toMatch(/phone\.webp is a WebP, which goes into an \.svg only\. The foot is drawn alone\./);
    const svg = await draw(inFolder('webp.hoof'), '--on', '2026-05-26', '-o', inFolder('webp.svg'));
    expect(svg.err).toEqual([]);
    expect(standsAlone(readFileSync(inFolder('webp.svg'), 'utf8')).names).toContain('image');
  }, 30_000);
});

describe('draw, where it cannot', () => {
  it.each<readonly [string, readonly string[], RegExp]>([
    ['no output', [juniper], /-o OUT\.svg or -o OUT\.png/],
    ['another ending', [juniper, '-o', 'x.gif'], /x\.gif: a drawing is an \.svg or a \.png/],
    ['a foot that is none', [juniper, '--foot', 'XX', '-o', 'x.svg'], /--foot takes LF, RF, LH, RH; not XX/],
    ['a view that is none', [juniper, '--view', 'side', '-o', 'x.svg'], /--view takes lateral, front, solar, course/],
    ['no date', [juniper, '--on', '2026-02-30', '-o', 'x.svg'], /--on takes a date such as 2026-05-28; not 2026-02-30/],
    ['an over that is none', [juniper, '--over', 'old', '-o', 'x.svg'], /--over takes normal, or the date of a film/],
    [
      'a theme that is none',
      [juniper, '--theme', 'sepia', '-o', 'x.svg'],
      /--theme takes light, dark, print; not sepia/,
    ],
    ['a part that is none', [juniper, '--without', 'hair', '-o', 'x.svg'], /--without takes film, lettering, bones/],
    ['a width too small', [juniper, '--width', '9', '-o', 'x.png'], /--width takes a number from 100 to 10000 pixels/],
    ['two sizes', [juniper, '--width', '900', '--true-size', '-o', 'x.svg'], /do not go together/],
    ['over on a course', [juniper, '--view', 'course', '--over', 'normal', '-o', 'x.svg'], /--over does not go with/],
    ['all of a film', [juniper, '--all', '-o', 'x.svg'], /--all goes with --view course only/],
    [
      'no film of that day',
      [juniper, '--on', '2026-01-01', '-o', 'x.svg'],
      /no film is as asked for \(2026-01-01\); there are: Left fore/,
    ],
    [
      'no such view',
      [juniper, '--view', 'solar', '-o', 'x.svg'],
      /no film is as asked for \(solar\); there are: Left fore/,
    ],
    [
      'itself laid over',
      [juniper, '--on', '2026-05-26', '--over', '2026-05-26', '-o', 'x.svg'],
      /is the film that is drawn itself/,
    ],
    [
      'no course',
      [join(examples, 'bramble.hoof'), '--view', 'course', '-o', 'x.svg'],
      /A course begins with the second film/,
    ],
    ['several cases', [juniper, join(examples, 'bramble.hoof'), '-o', 'x.svg'], /a drawing is of one case; here are 2/],
    ['no such case', [join(examples, 'nobody.hoof'), '-o', 'x.svg'], /no such file or folder/],
  ])('%s: says so and writes nothing', async (_what, args, says) => {
    const given = args.map((arg, at) => (args[at - 1] === '-o' ? inFolder(arg) : arg));
    const { status, err } = await draw(...given);
    expect([status, err.length]).toEqual([2, 1]);
    expect(err[0]?.replaceAll(`${folder}/`, '')).toMatch(says);
    expect(readdirSync(folder).filter((name) => name.startsWith('x.'))).toEqual([]);
  });

  it('without a scale has no true size, and without a film no drawing', async () => {
    const unscaled = readFileSync(juniper, 'utf8').replaceAll(/^ +scale .*\n/gm, '');
    writeFileSync(inFolder('unscaled.hoof'), unscaled);
    const none = await draw(inFolder('unscaled.hoof'), '--true-size', '-o', inFolder('none.svg'));
    expect([none.status, none.err[0]]).toEqual([
      2,
      expect.stringMatching(/without a scale its true size is not known/),
    ]);
    writeFileSync(inFolder('bare.hoof'), 'hoof 1\n\ncase "Clover"\n');
    const bare = await draw(inFolder('bare.hoof'), '-o', inFolder('none.svg'));
    expect([bare.status, bare.err[0]]).toEqual([2, expect.stringMatching(/no film and no photo to draw/)]);
    const uncut = `hoof 1\n\ncase "Clover"\n  animal horse\n\nvisit 2026-05-01\n${filmText()}\n`;
    writeFileSync(inFolder('uncut.hoof'), uncut);
    const cut = await draw(inFolder('uncut.hoof'), '--cut', '--without', 'film', '-o', inFolder('none.svg'));
    expect([cut.status, cut.err[0]]).toEqual([2, expect.stringMatching(/no plan and no trim that could be drawn/)]);
  });

  it('writes neither over the case nor through a link into another kind of file', async () => {
    const text = readFileSync(juniper, 'utf8');
    writeFileSync(inFolder('own.hoof'), text);
    symlinkSync(inFolder('own.hoof'), inFolder('link.svg'));
    const own = await draw(inFolder('own.hoof'), '-o', inFolder('link.svg'));
    expect([own.status, own.err.at(-1)]).toEqual([2, expect.stringMatching(/is the case itself/)]);
    writeFileSync(inFolder('notes.txt'), 'notes');
    symlinkSync(inFolder('notes.txt'), inFolder('notes.svg'));
    const notes = await draw(inFolder('own.hoof'), '-o', inFolder('notes.svg'));
    expect([notes.status, notes.err.at(-1)]).toEqual([
      2,
      expect.stringMatching(/no drawing of this kind; it was left as it is/),
    ]);
    expect(readFileSync(inFolder('own.hoof'), 'utf8')).toBe(text);
    expect(statSync(inFolder('notes.txt')).size).toBe(5);
  });

  it('replaces no picture of the case, neither itself nor behind a link', async () => {
    mkdirSync(inFolder('films'));
    const film = inFolder('films/juniper-lf-2026-05-26.png');
    copyFileSync(join(examples, 'films', 'juniper-lf-2026-05-26.png'), film);
    writeFileSync(inFolder('pictured.hoof'), readFileSync(juniper, 'utf8'));
    symlinkSync(film, inFolder('to-film.png'));
    const before = readFileSync(film);
    for (const output of [film, inFolder('to-film.png')]) {
      const { status, err } = await draw(inFolder('pictured.hoof'), '--without', 'film', '-o', output);
      expect([status, err.at(-1)]).toEqual([2, expect.stringMatching(/is a picture of the case/)]);
    }
    expect(readFileSync(film).equals(before)).toBe(true);
  });

  it('shows no plan by itself that breaks a limit, nor one while an alarm is open', async () => {
    const text = readFileSync(juniper, 'utf8');
    const last = text.lastIndexOf('heel down');
    const at = last < 0 ? text.lastIndexOf('heel  down') : last;
    const deep = `${text.slice(0, at)}${text.slice(at).replace(/down +[\d.]+ mm/, 'down 15 mm')}`;
    const fever = text.replace(/^(visit 2026-05-27.*)$/m, '$1\n  sign fever');
    for (const [name, changed, why] of [
      ['deep.hoof', deep, /the plan is not drawn, as it cannot be followed/],
      ['fever.hoof', fever, /the plan is not drawn while an alarm is open/],
    ] as const) {
      expect(changed).not.toBe(text);
      writeFileSync(inFolder(name), changed);
      const { status, err } = await draw(inFolder(name), '--cut', '--without', 'film', '-o', inFolder('withheld.svg'));
      expect([name, status, err.at(-1)]).toEqual([name, 2, expect.stringMatching(why)]);
      expect(existsSync(inFolder('withheld.svg'))).toBe(false);
    }
    expect((await draw(juniper, '--cut', '--without', 'film', '-o', inFolder('kept.svg'))).status).toBe(0);
  });
});

describe('an outline to draw on by hand', () => {
  it('is as large as the foot, and has lines alone', async () => {
    const text = await svgOf(juniper, '--foot', 'LF', '--outline');
    const { svg, values, names: tags } = standsAlone(text);
    // The bar is 100 mm of the page: its length in units of the drawing, by what a unit is on the page.
    const [, from, to] = /data-part="bar"[^>]* d="M([\d.]+) [\d.]+L([\d.]+)/.exec(text) ?? [];
    const [, , across] = (svg['viewBox'] ?? '').split(' ').map(Number);
    const unit = Number.parseFloat(svg['width'] ?? '') / (across ?? Number.NaN);
    expect(svg['width']).toMatch(/mm$/);
    expect((Number(to) - Number(from)) * unit).toBeCloseTo(100, 1);
    // Only the bar has letters.
    expect(text.match(/<text/g)).toHaveLength(1);
    expect(text).toContain('>100 mm<');
    expect(tags.filter((tag) => tag === 'title')).toHaveLength(1);
    expect(tags).not.toContain('image');
    for (const none of ['landmark', 'hatch', 'hair', 'measure', 'label'])
      expect(values.filter((value) => value.split(' ').includes(none))).toEqual([]);
    expect(values.filter((value) => value.includes('stroked')).length).toBeGreaterThan(8);
  });

  it('has the film beneath where that is wanted, and goes with nothing that it would not show', async () => {
    expect(read(await svgOf(juniper, '--foot', 'LF', '--outline', '--with-film')).names).toContain('image');
    const out = inFolder('outline.svg');
    expect((await draw(juniper, '--outline', '--cut', '-o', out)).err.join()).toContain(
      '--cut does not go with --outline',
    );
    expect((await draw(juniper, '--with-film', '-o', out)).err.join()).toContain(
      '--with-film goes with --outline only',
    );
    const bare = inFolder('bare.hoof');
    writeFileSync(bare, `hoof 1\n\nvisit 2026-03-04\n${filmText({}, { scale: null })}\n`);
    expect((await draw(bare, '--outline', '-o', out)).err.join()).toContain('without a scale');
  });
});
