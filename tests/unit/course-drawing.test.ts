import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawFourFeet } from '../../shared/drawing/course/four-feet.ts';
import { drawStave, withCursor, type Stave } from '../../shared/drawing/course/stave.ts';
import { timeScale } from '../../shared/drawing/course/time-scale.ts';
import type { StaveInput, StaveRow } from '../../shared/drawing/course/stave-input.ts';
import { widthInEm } from '../../shared/drawing/plate/lettering.ts';
import type { Box, GroupNode, LineNode, Scene, SceneNode, TextNode } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { courseSheet, type FootCourseSheet } from '../../shared/views/course-sheet.ts';
import { chosenRows, fourFeetOf, staveOf, staveKey } from '../../shared/views/course-stave.ts';
import { courseText, turn, wing } from './course-text.ts';
import { nodes, readXml } from './drawing-help.ts';

it('names a day once, also where a course has two of them', () => {
  for (const days of [
    [20_000, 20_001],
    [20_000, 20_002],
    [20_000, 20_200],
  ])
    for (const ahead of [false, true]) {
      const names = timeScale(days, { left: 0, right: 700, em: 12, ahead }).ticks.map(({ text }) => text);
      expect(names.length).toBeGreaterThan(0);
      expect(new Set(names.map((name) => name.replace(/ \d{4}$/, ''))).size).toBe(names.length);
    }
});

const has = (node: SceneNode, name: string): boolean => node.classes?.includes(name) === true;
const all = (scene: Scene): SceneNode[] => scene.layers.flatMap(nodes);
const within = (node: SceneNode, name: string): SceneNode[] => nodes(node).filter((one) => has(one, name));
const lines = (of: readonly SceneNode[]): LineNode[] => of.filter((node) => node.kind === 'line');
const rowOf = (scene: Scene, measure: string): SceneNode => {
  const found = all(scene).find((node) => has(node, 'stave-row') && node.data?.measure === measure);
  if (!found) throw new Error(`no row of ${measure}`);
  return found;
};
const height = ({ from, to }: LineNode): number => Math.abs(from.y - to.y);

const day = (date: string): number => dayNumber(date) ?? 0;

/** Values that are easy to measure on the drawing: 10 apart from first to last, errors of 1 to 4. */
const row = (part: Partial<StaveRow> = {}): StaveRow => ({
  measure: 'palmar-angle',
  words: 'Palmar angle',
  unit: 'deg',
  usual: { low: 2, high: 10 },
  usualText: '2° to 10°',
  note: null,
  source: 'film',
  sourceWords: '',
  beside: [],
  points: [
    { day: day('2026-01-01'), value: 14, error: 1, text: '14.0° ± 0.5', state: 'high' },
    { day: day('2026-02-01'), value: 8, error: 2, text: '8.0° ± 1.0', state: 'within' },
    { day: day('2026-04-01'), value: 4, error: 4, text: '4.0° ± 2.0', state: 'within' },
  ],
  changes: [
    { from: 0, to: 1, clear: true, text: '−6.0°' },
    { from: 1, to: 2, clear: false, text: '−4.0°' },
  ],
  trend: null,
  ...part,
});
const input = (part: Partial<StaveInput> = {}): StaveInput => ({
  width: 1000,
  stops: row().points.map(({ day: one }, index) => ({
    day: one,
    date: ['2026-01-01', '2026-02-01', '2026-04-01'][index] ?? '',
  })),
  trims: [],
  rows: [row()],
  title: 'Course',
  description: 'three films',
  ...part,
});

describe('the stave', () => {
  it('has a stroke a film, as tall as its error on the scale of the values', () => {
    const drawn = rowOf(drawStave(input()).scene, 'palmar-angle');
    const strokes = within(drawn, 'film-stroke');
    const errors = strokes.map((stroke) => lines(within(stroke, 'error'))[0]);
    const bars = strokes.map((stroke) => lines(within(stroke, 'value-bar'))[0]?.from.y ?? Number.NaN);
    // 10° from the first film to the last.
    const perDegree = ((bars[2] ?? 0) - (bars[0] ?? 0)) / 10;
    expect(perDegree).toBeGreaterThan(0.5);
    expect(errors.map((line) => line && height(line) / perDegree)).toEqual(
      [2, 4, 8].map((one) => expect.closeTo(one, 9) as number),
    );
    errors.forEach((line, index) =>
      expect(((line?.from.y ?? 0) + (line?.to.y ?? 0)) / 2).toBeCloseTo(bars[index] ?? 0, 9),
    );
  });

  it('has its films on a straight scale of time, where the cursor stops', () => {
    const { stops, scene } = drawStave(input());
    const [a = 0, b = 0, c = 0] = stops;
    expect((c - a) / (b - a)).toBeCloseTo(90 / 31, 9);
    const drawn = within(rowOf(scene, 'palmar-angle'), 'error').map((node) => (node.kind === 'line' ? node.from.x : 0));
    expect(drawn).toEqual(stops);
  });

  it('has a notch in the line of time at each trim, and nowhere else', () => {
    const stave = drawStave(input({ trims: [{ day: day('2026-02-01'), words: 'Trim' }] }));
    const depths = (scene: Scene): { x: number; y: number }[] => {
      const lived = all(scene).find((node) => has(node, 'lived'));
      if (lived?.kind !== 'path') throw new Error('there is no line of time');
      const corners = lived.segments.flatMap((part) =>
        part[0] === 'M' || part[0] === 'L' ? [{ x: part[1], y: part[2] }] : [],
      );
      const top = Math.min(...corners.map(({ y }) => y));
      const bottom = Math.max(...corners.map(({ y }) => y));
      return corners.filter(({ y }) => y > top && y < bottom);
    };
    expect(depths(stave.scene).map(({ x }) => x)).toEqual([stave.stops[1]]);
    expect(depths(drawStave(input()).scene)).toEqual([]);
    // Two trims within a few days run into one another and stay two notches.
    const near = drawStave(
      input({ trims: [day('2026-02-01'), day('2026-02-02')].map((one) => ({ day: one, words: 'Trim' })) }),
    );
    expect(depths(near.scene).length).toBeGreaterThanOrEqual(2);
  });

  it('marks a clear change by an arrow and its figure, one within the error by dots alone', () => {
    const drawn = rowOf(drawStave(input()).scene, 'palmar-angle');
    const figures = within(drawn, 'figure').flatMap((node) =>
      node.kind === 'text' ? node.runs.map(({ text }) => text) : [],
    );
    expect(figures).toEqual(['−6.0°']);
    expect([
      within(drawn, 'arrow').length,
      within(drawn, 'clear').length,
      within(drawn, 'within-error').length,
    ]).toEqual([1, 1, 1]);
    expect(within(drawn, 'within-error')[0]).toHaveProperty('dash');
    expect(within(drawn, 'clear')[0]).not.toHaveProperty('dash');
    const [arrow] = within(drawn, 'arrow');
    const tips =
      arrow?.kind === 'path'
        ? arrow.segments.flatMap((part) => (part[0] === 'M' || part[0] === 'L' ? [part[2]] : []))
        : [];
    // One corner below two: it points down, as the value goes.
    expect(tips.filter((y) => y === Math.max(...tips))).toHaveLength(1);
  });

  it('hatches the usual range between its ends, and no further', () => {
    const drawn = rowOf(drawStave(input()).scene, 'palmar-angle');
    const limits = lines(within(drawn, 'limit')).map(({ from }) => from.y);
    const [hatching] = within(drawn, 'hatching');
    const ys = hatching?.kind === 'path' ? hatching.segments.flatMap((part) => (part[0] === 'Z' ? [] : [part[2]])) : [];
    expect(limits).toHaveLength(2);
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(Math.min(...limits) - 1e-9);
    expect(Math.max(...ys)).toBeLessThanOrEqual(Math.max(...limits) + 1e-9);
  });

  describe('with a trend', () => {
    const trend = {
      slope: -0.1,
      low: -0.15,
      high: -0.05,
      middle: { day: day('2026-02-01'), value: 8 },
      carried: true,
      words: 'Falls',
    };
    const rays = (scene: Scene): LineNode[] => lines(all(scene).filter((node) => has(node, 'ray')));

    it('carries on from the last film by strokes as tall as its interval, ever fainter', () => {
      const stave = drawStave(input({ rows: [row({ trend })] }));
      const [a = 0, , c = 0] = stave.stops;
      const perDay = (c - a) / 90;
      const bars = lines(within(rowOf(stave.scene, 'palmar-angle'), 'value-bar')).map(({ from }) => from.y);
      const perDegree = ((bars[2] ?? 0) - (bars[0] ?? 0)) / 10;
      const drawn = rays(stave.scene);
      expect(drawn.length).toBeGreaterThan(5);
      // Those that end at the edge of the row are cut there.
      const [first] = drawn;
      const since = ((first?.from.x ?? 0) - (stave.stops[1] ?? 0)) / perDay;
      expect(first && height(first)).toBeCloseTo(0.1 * since * perDegree, 6);
      for (const [index, { from, weight = 0 }] of drawn.entries()) {
        expect(from.x).toBeGreaterThan(c);
        if (index > 0) expect(weight).toBeLessThan(drawn[index - 1]?.weight ?? 0);
      }
    });

    it('is sparse where so few films cannot carry it, and not there without one', () => {
      const full = rays(drawStave(input({ rows: [row({ trend })] })).scene).length;
      const few = rays(drawStave(input({ rows: [row({ trend: { ...trend, carried: false } })] })).scene).length;
      expect(few).toBeGreaterThan(0);
      expect(few).toBeLessThan(full * 0.6);
      expect(rays(drawStave(input()).scene)).toEqual([]);
    });
  });

  it('reads at the cursor what the film of that day says, and that a measure is not there', () => {
    const other = row({
      measure: 'toe-length',
      points: [{ day: day('2026-02-01'), value: 80, error: 1, text: '80.0 mm ± 0.5', state: 'none' }],
      changes: [],
    });
    const stave = drawStave(input({ rows: [row(), other] }));
    const said = (stop: number): string[] =>
      all(stave.cursor(stop)).flatMap((node) => (node.kind === 'text' ? node.runs.map(({ text }) => text) : []));
    expect(said(0)).toEqual(['2026-01-01', '14.0° ± 0.5', 'not measured']);
    expect(said(1)).toEqual(['2026-02-01', '8.0° ± 1.0', '−6.0° clear', '80.0 mm ± 0.5']);
    expect(said(2)).toEqual(['2026-04-01', '4.0° ± 2.0', '−4.0° within the error', 'not measured']);
    const line = lines(all(stave.cursor(1)).filter((node) => has(node, 'cursor-line')))[0];
    expect(line?.from.x).toBe(stave.stops[1]);
  });

  it('stands alone as a sound drawing with its heading and its key', () => {
    const scene = withCursor(
      drawStave(input({ alone: { heading: 'Juniper & <friends>', key: staveKey([{ source: 'film' }]) } })),
      1,
    );
    const svg = sceneToSvg(scene, { standalone: true });
    expect(readXml(svg)).toContain('style');
    expect(svg).toContain('Juniper &amp; &lt;friends&gt;');
    expect(svg).toContain('Each upright stroke is a film');
    expect(svg).not.toContain('var(');
  });

  it('can be drawn of nothing', () => {
    const none = drawStave(input({ rows: [], stops: [] }));
    expect(readXml(sceneToSvg(none.scene))).toContain('svg');
    expect(readXml(sceneToSvg(none.cursor(0)))).toContain('svg');
  });
});

describe('letters on the stave', () => {
  const boxOf = ({ at, size, anchor, runs }: TextNode): Box & { readonly words: string } => {
    const words = runs.map(({ text }) => text).join('');
    const width = widthInEm(words) * size;
    const x = anchor === 'start' ? at.x : anchor === 'end' ? at.x - width : at.x - width / 2;
    return { x, y: at.y - 0.72 * size, width, height: 0.72 * size, words };
  };
  const meetings = (scene: Scene): string[] => {
    const boxes = all(scene).flatMap((node) => (node.kind === 'text' ? [boxOf(node)] : []));
    return boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height)
        .map((b) => `${a.words} meets ${b.words}`),
    );
  };
  const everyStop = (stave: Stave): string[] =>
    [0, stave.stops.length >> 1, stave.stops.length - 1].flatMap((stop) => meetings(withCursor(stave, stop)));

  const visit = fc.record({
    gap: fc.integer({ min: 1, max: 90 }),
    rise: fc.integer({ min: -20, max: 200 }).map((tenths) => tenths / 10),
    sole: fc.integer({ min: -60, max: 140 }).map((tenths) => tenths / 10),
    wall: fc.integer({ min: 20, max: 700 }).map((tenths) => tenths / 10),
    trimmed: fc.boolean(),
  });
  const visits = fc.array(visit, { minLength: 2, maxLength: 12 });
  type Visit = typeof visit extends fc.Arbitrary<infer V> ? V : never;
  const courseFrom = (of: readonly Visit[]): FootCourseSheet => {
    let at = day('2025-01-05');
    const text = courseText(
      of.map(({ gap, rise, sole, wall, trimmed }) => {
        at += gap;
        return {
          date: new Date(at * 86_400_000).toISOString().slice(0, 10),
          places: { ...wing(rise), 'sole.tip': [0, sole], ...turn(wall) },
          more: trimmed ? ['  trim LF\n    heel down 4 mm'] : [],
        };
      }),
    );
    const [foot] = courseSheet(inspect(text)).feet;
    if (!foot) throw new Error('there is no course');
    return foot;
  };
  const widths = fc.integer({ min: 420, max: 1500 });

  it('do not meet, wherever the cursor stands and however wide the pane is', () => {
    fc.assert(
      fc.property(visits, widths, fc.boolean(), (of, width, alone) => {
        const foot = courseFrom(of);
        const rows = chosenRows(foot, null);
        expect(everyStop(drawStave(staveOf(foot, rows, { width, caseName: 'Juniper', alone })))).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it('do not meet on the panels of the feet', () => {
    fc.assert(
      fc.property(visits, visits, widths, (left, right, width) => {
        const feet = [courseFrom(left), { ...courseFrom(right), foot: 'RH' as const }];
        const four = fourFeetOf({ feet }, 'palmar-angle', width);
        expect(four && meetings(drawFourFeet(four))).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });
});

describe('the panels of the feet', () => {
  const sheet = courseSheet(
    inspect(
      courseText([
        { date: '2026-01-01', places: wing(14), more: ['  film RH lateral "r.png"'] },
        { date: '2026-02-01', places: wing(10) },
      ]),
    ),
  );
  const [foot] = sheet.feet;
  if (!foot) throw new Error('there is no course');
  const later = {
    ...foot,
    foot: 'RF' as const,
    rows: foot.rows.map((one) => ({ ...one, points: one.points.slice(1), changes: [] })),
  };
  const panelOf = (scene: Scene, part: string): GroupNode => {
    const found = scene.layers.find(({ data }) => data?.part === part);
    if (!found) throw new Error(`no panel of ${part}`);
    return found;
  };

  it('share one scale of time and one of values', () => {
    const four = fourFeetOf({ feet: [foot, later] }, 'palmar-angle', 900);
    if (!four) throw new Error('there are two feet');
    const scene = drawFourFeet(four);
    const bars = (part: string): { x: number; y: number }[] =>
      lines(within(panelOf(scene, part), 'value-bar')).map(({ from }) => from);
    const [, second] = bars('LF');
    const [only] = bars('RF');
    const left = (part: string): number => lines(within(panelOf(scene, part), 'scale'))[0]?.from.x ?? 0;
    expect((only?.x ?? 0) - left('RF')).toBeCloseTo((second?.x ?? 0) - left('LF'), 9);
    expect(only?.y).toBeCloseTo(second?.y ?? 0, 9);
  });

  it('are there for two feet and more, and say which has no film', () => {
    expect(fourFeetOf({ feet: [foot] }, 'palmar-angle', 900)).toBeNull();
    const four = fourFeetOf({ feet: [foot, { ...later, foot: 'LH' }] }, 'palmar-angle', 900);
    const said = four ? sceneToSvg(drawFourFeet(four)) : '';
    expect(said.match(/nothing yet/g)).toHaveLength(2);
  });
});
