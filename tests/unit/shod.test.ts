import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { courseCsv } from '../../shared/export/course-csv.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { filmSheets, type FilmSheet } from '../../shared/views/film-sheet.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { normalOver } from '../../shared/views/laid-over.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { animalOn } from '../../shared/trim/case-animal.ts';
import { caseText, filmText } from './plain-foot.ts';
import { nodes } from './drawing-help.ts';
import type { PathNode, Scene } from '../../shared/drawing/scene.ts';

/**
 * The plain foot on a shoe: its bearing plane is the level of y = 1000 px, at 0.1 mm/px, toe to the right. All figures are plane
 * trigonometry on that.
 */
const bearing = 'bearing 0, 1000 .. 4000, 1000';
const rad = Math.PI / 180;

/** The ground under a shoe that is so thick below the toe's contact (x = 2280 px) and raises the heel by so much. */
function under(thickness: number, wedge: number): string {
  const y = (x: number): number => 1000 + thickness * 10 + (2280 - x) * Math.tan(wedge * rad);
  return `ground 0, ${y(0).toFixed(6)} .. 4000, ${y(4000).toFixed(6)}`;
}

interface Worn {
  readonly line?: string;
  readonly thickness?: number;
  readonly wedge?: number;
  readonly more?: readonly string[];
}

const shodFilm = ({ thickness = 10, wedge = 3, more = [bearing] }: Worn = {}): string =>
  filmText({}, { ground: under(thickness, wedge), more });
const shod = (worn: Worn = {}): string =>
  caseText(`  ${worn.line ?? 'shoe LF 10 mm wedge 3 deg'}\n\n${shodFilm(worn)}`);

const told = (text: string) =>
  inspect(text).findings.map(({ code, severity, message }) => ({ code, severity, message }));
const codesOf = (text: string) => told(text).map(({ code }) => code);
const sheetOf = (text: string): FilmSheet => {
  const [sheet] = filmSheets(inspect(text));
  if (!sheet) throw new Error('no film');
  return sheet;
};
const value = (sheet: FilmSheet, name: string): number | undefined =>
  sheet.rows.find(({ measure }) => measure === name)?.value;

describe('Larch, worked out by hand in docs/shod.md', () => {
  const text = readFileSync(new URL('../../examples/larch.hoof', import.meta.url), 'utf8');
  const page = readFileSync(new URL('../../docs/shod.md', import.meta.url), 'utf8');
  const sheet = sheetOf(text);
  const mm = 100 / Math.hypot(8, 294.5);
  const [ground, plane] = [Math.atan(3.5 / 536), Math.atan(24.5 / 535)];
  const margin = Math.atan(27 / 254);

  it('has the wedge, the angles, the thickness and the heel that plane geometry gives', () => {
    const square = Math.cos(ground) / Math.cos(ground + plane);
    const below = (x: number): number =>
      (616 - ((659 - x) * 3.5) / 536 - (561 + ((656.5 - x) * 24.5) / 535)) * square * mm;
    const byHand = {
      'shoe-wedge': (ground + plane) / rad,
      'palmar-angle': (margin + ground) / rad,
      'palmar-angle.bearing': (margin - plane) / rad,
      'heel-height': (79 * Math.cos(plane) - 65 * Math.sin(plane)) * mm,
    };
    for (const [name, is] of Object.entries(byHand)) expect(value(sheet, name), name).toBeCloseTo(is, 9);
    // The contacts were placed a fifth of a pixel off the plane.
    expect(value(sheet, 'shoe-thickness.toe')).toBeCloseTo(below(168.5), 2);
    expect(value(sheet, 'shoe-thickness.heel')).toBeCloseTo(below(574), 2);
  });

  it('turns by what 2 mm over its bearing length come to, against the ground and against the bearing plane', () => {
    const [, plan] = inspect(text).study.cuts.filter(({ cut }) => cut.foot === 'LF');
    const turn = Math.atan(2 / (value(sheet, 'bearing-length') ?? NaN)) / rad;
    const [toGround, toBearing] = [(margin + ground) / rad, (margin - plane) / rad];
    expect(plan?.prediction?.value('palmar-angle')?.value).toBeCloseTo(toGround - turn, 9);
    expect(plan?.bare?.before.get('palmar-angle')?.value).toBeCloseTo(toBearing, 9);
    expect(plan?.bare?.prediction.value('palmar-angle')?.value).toBeCloseTo(toBearing - turn, 9);
    expect(plan?.prediction?.value('shoe-wedge')?.value).toBeCloseTo(value(sheet, 'shoe-wedge') ?? NaN, 9);
    // What stands on the page.
    const [wedge, before, after] = [ground + plane, toGround, toGround - turn].map((one, index) =>
      index === 0 ? one / rad : one,
    );
    for (const figure of [wedge, before, after, toBearing, toBearing - turn, turn])
      expect(page).toContain(`${(figure as number).toFixed(2)}°`);
    for (const figure of [
      value(sheet, 'shoe-thickness.toe'),
      value(sheet, 'shoe-thickness.heel'),
      value(sheet, 'heel-height'),
    ])
      expect(page.replace(/\s+/g, ' ')).toContain(`**${figure?.toFixed(1)} mm**`);
  });

  it('is told nothing of its ground, its shoe or its sole', () => {
    expect(codesOf(text)).toEqual(['trim/no-film', 'film/other-foot']);
  });
});

describe('the contacts of a shod foot', () => {
  it('lie on the bearing plane and are held against it', () => {
    expect(codesOf(shod())).not.toContain('landmark/off-ground');
    const off = caseText(
      `  shoe LF 10 mm wedge 3 deg\n\n${filmText({ 'toe.ground': [28, 11] }, { ground: under(10, 3), more: [bearing] })}`,
    );
    const found = told(off).filter(({ code }) => code === 'landmark/off-ground');
    expect(found.map(({ message }) => message)).toEqual([
      '«toe.ground» lies 11.0 mm above the bearing plane. It should lie on it. Look at this point and at the two ends of the bearing plane, and place what is off again.',
    ]);
  });

  it('are told off it together as a plane that lies wrong, not as a foot held up', () => {
    const [found] = told(shod({ more: ['bearing 0, 1080 .. 4000, 1080'] })).filter(
      ({ code }) => code === 'landmark/off-ground',
    );
    expect(found?.message).toMatch(
      /^Toe and heel of the wall lie 8\.0 mm above the bearing plane\. It is the plane between hoof and shoe/,
    );
  });
});

describe('a shod film without its bearing plane', () => {
  const text = `${shod({ more: [] })}\n  plan LF\n    heel down 1 mm\n`;

  it('is told once what to place, and of nothing that the shoe only seems to do', () => {
    expect(told(text).filter(({ code }) => code !== 'trim/not-predicted')).toEqual([
      {
        code: 'frame/no-bearing',
        severity: 'info',
        message:
          'The foot wears: shoe 10 mm, wedge 3 deg. Place `bearing`, the plane between hoof and shoe: until then heights and the angles of the wall are not measured, and no cut is predicted.',
      },
    ]);
  });

  it('measures to the ground, and between landmarks, and nothing to the bearing plane', () => {
    const sheet = sheetOf(text);
    expect(value(sheet, 'palmar-angle')).toBeCloseTo(Math.atan2(7, 80) / rad + 3, 6);
    expect(value(sheet, 'toe-length')).toBeCloseTo(Math.hypot(28 + 25, 68), 6);
    for (const name of ['heel-height', 'heel-surplus', 'cup.tip', 'wall-angle', 'shoe-wedge'])
      expect(value(sheet, name), name).toBeUndefined();
    expect(sheet.cuts[0]?.after).toBeNull();
  });

  it('is not told once more for each limit of the case', () => {
    const limits = '\nlimits\n  heel-height <= 40 mm\n  grown-out >= 9 mm\n';
    const found = told(caseText(`  shoe LF 10 mm wedge 3 deg\n\n${shodFilm({ more: [] })}`, { limits }));
    expect(found.filter(({ code }) => code === 'limits/absent').map(({ message }) => message)).toEqual([
      expect.stringContaining('grown-out'),
    ]);
  });

  it('says what a cut lacks', () => {
    expect(told(text).find(({ code }) => code === 'trim/not-predicted')?.message).toMatch(
      /lacks `bearing`, the plane between hoof and shoe\.$/,
    );
  });

  it('has no ground where none is placed, as the contacts stand on the shoe', () => {
    const sheet = sheetOf(caseText(`  shoe LF 10 mm\n\n${filmText({}, { ground: null, more: [bearing] })}`));
    expect(value(sheet, 'palmar-angle')).toBeUndefined();
    expect(value(sheet, 'heel-height')).toBeCloseTo(24, 9);
  });

  it.each([
    ['boots, which are pulled off for a film', 'boots LF RF 12 mm', false],
    ['a pad', 'pad LF 5 mm', true],
    ['a cast', 'cast LF "cloth"', true],
    ['the shoe of another foot', 'shoe RF 10 mm', false],
  ])('counts as one with %s: %s', (_what, line, counts) => {
    const film = caseText(`  ${line}\n\n${filmText()}`);
    expect(codesOf(film).includes('frame/no-bearing')).toBe(counts);
    expect(value(sheetOf(film), 'heel-height') === undefined).toBe(counts);
  });
});

describe('what a foot wears', () => {
  it('is measured between the two planes', () => {
    const sheet = sheetOf(shod());
    const wedge = Math.tan(3 * rad);
    expect(value(sheet, 'shoe-wedge')).toBeCloseTo(3, 6);
    expect(value(sheet, 'shoe-thickness.toe')).toBeCloseTo(10, 6);
    expect(value(sheet, 'shoe-thickness.heel')).toBeCloseTo(10 + (28 + 110) * wedge, 6);
    expect(value(sheetOf(caseText(filmText())), 'shoe-wedge')).toBeUndefined();
  });

  it.each([
    ['as written', 'shoe LF 10 mm wedge 3 deg', null],
    ['measured at the heel', 'shoe LF 17 mm wedge 3 deg', null],
    ['worn down a little', 'shoe LF 12 mm wedge 3 deg', null],
    ['with a pad that has no thickness', 'shoe LF 4 mm wedge 3 deg\n  pad LF "leather"', null],
    ['with a pad', 'shoe LF 5 mm wedge 3 deg\n  pad LF 5 mm', null],
    [
      'too thin',
      'shoe LF 6 mm wedge 3 deg',
      /is 10\.0 mm thick at the toe and 17\.2 mm at the heel; what is written is: shoe 6 mm, wedge 3 deg\./,
    ],
    ['too thick', 'shoe LF 30 mm wedge 3 deg', /is 10\.0 mm thick/],
    ['of another wedge', 'shoe LF 10 mm wedge 6 deg', /raises the heel by 3\.0°/],
    ['of the other wedge', 'shoe LF wedge -3 deg', /raises the heel by 3\.0°/],
    ['of neither', 'shoe LF "plain"', null],
  ])('is held against its line: %s', (_what, line, words) => {
    const found = told(shod({ line })).filter(({ code }) => code === 'shoe/disagrees');
    expect(found.map(({ severity }) => severity)).toEqual(words === null ? [] : ['hint']);
    if (words !== null) expect(found[0]?.message).toMatch(words);
  });

  it('lies above the ground', () => {
    const [found, ...more] = told(shod({ thickness: -12, wedge: 0 })).filter(({ code }) => code === 'shoe/disagrees');
    expect(more).toEqual([]);
    expect(found).toMatchObject({ severity: 'warning' });
    expect(found?.message).toMatch(
      /^The bearing plane lies below the ground: 12\.0 mm at the toe and 12\.0 mm at the heel\./,
    );
  });
});

describe('a palmar angle that is out of its range on a shoe', () => {
  it('says how much of it the shoe makes', () => {
    const found = told(shod({ line: 'shoe LF 10 mm wedge 8 deg', wedge: 8 })).find(
      ({ code }) => code === 'range/palmar-angle',
    );
    // atan(7 / 80) = 5.0°, and 8° of wedge.
    expect(found?.message).toMatch(
      /13\.0 ± .*over 10°.* Of it 8\.0° are the wedge of what the foot wears: bare it would be 5\.0°\./,
    );
  });
});

describe('from a bare film to a shod one', () => {
  const later = `visit 2026-04-01\n  shoe LF 10 mm wedge 3 deg\n\n${shodFilm()}\n`;
  const trim = '  trim LF\n    heel down 1 mm\n';
  const text = caseText(`${filmText()}\n\n${trim}\n${later}`);

  it('says of the palmar angle what the shoe makes of it, and of nothing else that it has changed', () => {
    const [foot] = courseSheet(inspect(text)).feet;
    const clear = foot?.rows.flatMap(({ measure, changes }) =>
      changes.filter((one) => one.clear).map(({ text: by, shoe }) => [measure, by, shoe]),
    );
    const shoe = '+3.0° of it by what the foot wears: shoe 10 mm, wedge 3 deg';
    // The bone angle, between two points that lie near each other, is not known well enough to be clear.
    expect(clear).toEqual(['palmar-angle', 'middle-angle', 'axis-angle'].map((name) => [name, '+3.0°', shoe]));
  });

  it('has the part of the shoe in the CSV, and says where it is not known', () => {
    const column = (of: string) => {
      const { feet } = courseSheet(inspect(of));
      const [head = '', ...rows] = courseCsv([{ file: 'a', name: 'b', feet }])
        .trimEnd()
        .split('\r\n');
      const at = head.split(',').indexOf('difference_by_shoe');
      const cells = (measure: string) =>
        rows.filter((row) => row.includes(`,${measure},`)).map((row) => row.split(',')[at]);
      return { angle: cells('palmar-angle'), length: cells('toe-length') };
    };
    const { angle, length } = column(text);
    expect([angle[0], length]).toEqual(['', ['', '']]);
    expect(Number(angle[1])).toBeCloseTo(3, 6);
    const unplaced = `visit 2026-04-01\n  shoe LF 10 mm\n\n${shodFilm({ more: [] })}\n`;
    expect(column(caseText(`${filmText()}\n\n${unplaced}`)).angle).toEqual(['', 'unknown']);
  });

  it('holds a trim against what the bare foot measures', () => {
    const found = told(text).find(({ code }) => code === 'trim/outcome');
    // atan(7 / 80) = 5.0°; 1 mm over 138 mm turns by 0.4°.
    expect(found?.message).toMatch(/palmar angle 4\.6° predicted, 5\.0° found \(within the error\)/);
    expect(found?.message).toMatch(/ All is to the bearing plane, as if both were bare\.$/);
  });

  it('has no trend over films with and without the wedge', () => {
    const visits = ['2026-03-04', '2026-04-01', '2026-05-01', '2026-06-01'].map((date, index) =>
      index === 3
        ? `visit ${date}\n  shoe LF 10 mm wedge 6 deg\n\n${shodFilm({ wedge: 6 })}`
        : `visit ${date}\n${filmText()}`,
    );
    const [foot] = courseSheet(inspect(`hoof 1\n\ncase "X"\n  animal horse mare\n\n${visits.join('\n\n')}\n`)).feet;
    const trend = (name: string) => foot?.rows.find(({ measure }) => measure === name)?.trend;
    expect(trend('palmar-angle')).toBeNull();
    expect(trend('heel-height')).not.toBeNull();
  });
});

describe('the plate of a shod foot', () => {
  const scene = drawPlate(plateOf(sheetOf(`${shod()}\n  plan LF\n    heel down 4 mm\n`), null, {}));
  const part = (of: Scene, name: string) =>
    of.layers.flatMap((one) => nodes(one)).filter(({ data }) => data?.part === name);

  it('has a bar from the bearing plane down to the ground, and says what it is', () => {
    const [bar, ...more] = part(scene, 'shoe') as PathNode[];
    expect(more).toEqual([]);
    const ends = bar?.segments.flatMap((segment) => (segment[0] === 'Z' ? [] : [[segment[1], segment[2]]])) ?? [];
    const heelX = 2000 - 1100;
    const ground = (x: number): number => 1100 + (2280 - x) * Math.tan(3 * rad);
    const corners = [
      [heelX, 1000],
      [2280, 1000],
      [2280, ground(2280)],
      [heelX, ground(heelX)],
    ];
    corners.forEach(([x, y], index) => {
      expect(ends[index]?.[0]).toBeCloseTo(x ?? NaN, 3);
      expect(ends[index]?.[1]).toBeCloseTo(y ?? NaN, 3);
    });
    const words = scene.layers
      .flatMap((one) => nodes(one))
      .flatMap((node) => (node.kind === 'text' ? node.runs.map(({ text }) => text) : []));
    expect(words).toContain('shoe, 10.0 to 17.2 mm');
    expect(part(drawPlate(plateOf(sheetOf(caseText(filmText())), null, {})), 'shoe')).toEqual([]);
  });

  it('opens the palmar angle from the ground and the wall’s from the bearing plane', () => {
    const sweep = (measure: string): number => {
      const arc = scene.layers
        .flatMap((one) => nodes(one))
        .filter((node) => node.data?.measure === measure)
        .flatMap((node) => nodes(node))
        .find((node) => node.kind === 'arc');
      return arc?.kind === 'arc' ? Math.abs(arc.to - arc.from) / rad : NaN;
    };
    expect(sweep('palmar-angle')).toBeCloseTo(Math.atan2(7, 80) / rad + 3, 6);
    expect(sweep('wall-angle')).toBeCloseTo(Math.atan2(35, 28) / rad, 6);
  });

  it('lays a cut at the bearing plane, where it lies on the bare foot', () => {
    const plan = '\n  plan LF\n    heel down 4 mm\n';
    const [bare, worn] = [caseText(filmText()) + plan, shod() + plan].map((text) => {
      const sheet = sheetOf(text);
      return drawPlate(plateOf(sheet, { href: 'a.png', width: 4000, height: 1400 }, { cut: sheet.cuts[0] ?? null }));
    });
    const line = (of: Scene | undefined) => (of ? part(of, 'cut.ground') : []);
    expect(line(bare).length).toBe(1);
    expect(line(worn)).toEqual(line(bare));
  });

  it('lays the normal foot over it as over the bare foot, standing on its own bearing plane', () => {
    const over = (text: string) => normalOver(sheetOf(text), animalOn(inspect(text).study.animal, null)).over;
    const [bare, worn] = [over(caseText(filmText())), over(shod())];
    expect(worn?.ground).toEqual([worn?.placed.get('heel.ground'), worn?.placed.get('toe.ground')]);
    expect(worn?.ground).toEqual(bare?.ground);
  });
});
