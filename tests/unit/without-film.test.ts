import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { courseOf } from '../../shared/course/course.ts';
import { drawStave } from '../../shared/drawing/course/stave.ts';
import { courseCsv } from '../../shared/export/course-csv.ts';
import { coursedCase } from '../../shared/export/course-data.ts';
import { jsonShapes } from '../../shared/export/json-shapes.ts';
import { measuredCase, measuredRows } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { reportPage } from '../../shared/report/page.ts';
import { courseSheet, type FootCourseSheet } from '../../shared/views/course-sheet.ts';
import { chosenRows, staveKey, staveOf, stopsOf } from '../../shared/views/course-stave.ts';
import { tapeSheets } from '../../shared/views/tape-sheet.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import { CourseView } from '../../src/preview/course/course-view.tsx';
import { NoFilmReading } from '../../src/preview/hand-view.tsx';
import { nodes } from './drawing-help.ts';
import { filmText } from './plain-foot.ts';

/**
 * What a hand is taken to be good to is 2 mm, one standard deviation (a tape round the coronet of five limbs: J Equine Vet Sci
 * 2022;115:104028, its abstract). So a change of two tapes has 2 × √2 = 2.83 mm, and is clear from 1.96 × 2.83 = 5.54 mm on.
 */

const tape = (date: string, lines: readonly string[], foot = 'LF'): string =>
  [`visit ${date}`, `  tape ${foot}`, ...lines.map((line) => `    ${line}`)].join('\n');
const caseOf = (...visits: readonly string[]): string =>
  `hoof 1\n\ncase "Test"\n  animal pony mare\n\n${visits.join('\n\n')}\n`;

const taped = caseOf(
  tape('2026-01-01', ['toe-length 88 mm', 'heel-height 27 mm', 'toe-height 68 mm', 'grown-out 5 mm']),
  tape('2026-01-29', ['toe-length 84 mm', 'grown-out 13 mm']),
  tape('2026-02-26', ['toe-length 7.7 cm', 'grown-out 21 mm']),
);
const only = (text: string): FootCourseSheet => {
  const [foot] = courseSheet(inspect(text)).feet;
  if (!foot) throw new Error('no course');
  return foot;
};

describe('the course of what a hand took', () => {
  it('goes from tape to tape, by the spread that is taken of a hand', () => {
    const row = only(taped).rows.find(({ measure }) => measure === 'toe-length');
    expect(row?.source).toBe('hand');
    expect(row?.points.map(({ value, sd }) => [value, sd])).toEqual([
      [88, 2],
      [84, 2],
      [77, 2],
    ]);
    expect(row?.changes.map(({ difference, clear }) => [difference, clear])).toEqual([
      [-4, false],
      [-7, true],
    ]);
    expect(row?.overall).toMatchObject({ difference: -11, clear: true });
    expect(row?.trend?.text).toMatch(/^Shorter by .* each four weeks; three values by hand are too few to be sure$/);
  });

  it('has the share of heel to toe where both heights are taken', () => {
    const row = only(taped).rows.find(({ measure }) => measure === 'heel-toe-share');
    // 27 of 68; 2 mm of either come to 100 × √((2/68)² + (27 × 2/68²)²).
    expect(row?.points[0]?.value).toBeCloseTo(39.706, 3);
    expect(row?.points[0]?.sd).toBeCloseTo(3.1645, 3);
  });

  it('says when new wall reaches the ground: 8 mm each 28 days, 77 mm to go to', () => {
    const row = only(taped).rows.find(({ measure }) => measure === 'grown-out');
    // From 21 mm on 26 February 56 mm are left: 196 days, which is 10 September.
    expect(row?.growOut).toMatchObject({ by: 'tape', toeLength: 77, date: '2026-09-10' });
  });

  it('leaves out what no hand can take, another unit, and a number that no hoof has', () => {
    const odd = caseOf(
      tape('2026-01-01', ['palmar-angle 5 deg', 'toe-length 9 deg', 'heel-height 4 in', 'toe-length 9 mm']),
    );
    expect(only(odd).rows.map(({ measure }) => measure)).toEqual(['heel-height']);
    expect(courseOf(inspect(caseOf(tape('2026-01-01', ['palmar-angle 5 deg']))).study)).toEqual([]);
  });
});

const filmed = (date: string, extra = ''): string => `visit ${date}\n${filmText()}${extra}`;
const photo = filmText({}, { header: 'photo LF lateral "p.png"' });
const mixed = caseOf(
  filmed('2026-01-01', '\n\n  tape LF\n    toe-length 90 mm'),
  `visit 2026-01-29\n${photo}\n\n  tape LF\n    toe-length 80 mm`,
  filmed('2026-02-26').replace('film LF lateral "', 'film LF lateral "b'),
);

describe('film, photo and hand', () => {
  it('are never compared with each other', () => {
    const rows = only(mixed).rows.filter(({ measure }) => measure === 'toe-length');
    expect(rows.map(({ source, points }) => [source, points.map(({ date }) => date)])).toEqual([
      ['film', ['2026-01-01', '2026-02-26']],
      ['photo', ['2026-01-29']],
      ['hand', ['2026-01-01', '2026-01-29']],
    ]);
    expect(rows.map(({ changes }) => changes.map(({ difference }) => Math.round(difference * 1e6) / 1e6))).toEqual([
      [0],
      [],
      [-10],
    ]);
    expect(stopsOf(only(mixed)).map(({ date }) => date)).toEqual(['2026-01-01', '2026-01-29', '2026-02-26']);
  });

  it('stand in one row of the chart, each with a mark of its own, and a key that says which', () => {
    const foot = only(mixed);
    const rows = chosenRows(foot, ['toe-length']);
    const { scene } = drawStave(staveOf(foot, rows, { width: 900, caseName: 'Test', alone: true }));
    const all = scene.layers.flatMap(nodes);
    const count = (name: string): number => all.filter((node) => node.classes?.includes(name)).length;
    expect(count('stave-row')).toBe(1);
    expect([count('value-bar'), count('value-square'), count('value-ring')]).toEqual([2, 1, 2]);
    expect(staveKey(rows)).toMatch(
      /upright stroke is a film.*square on its corner is a photo.*ring is a value by hand.*never joined/,
    );
    expect(staveKey(chosenRows(only(taped), ['toe-length']))).not.toMatch(/film|photo/);
  });

  it('stand apart in what other programs read', () => {
    const inspection = inspect(mixed);
    const json = jsonShapes.course.parse({ ungula: 1, cases: [coursedCase('a.hoof', inspection, null)] }).cases[0];
    expect(json?.feet['LF']?.['toe-length']?.n).toBe(2);
    expect(json?.photos['LF']?.['toe-length']?.n).toBe(1);
    expect(json?.byHand['LF']?.['toe-length']).toMatchObject({ n: 2, changes: [{ difference: -10, real: true }] });
    const [head = '', ...rows] = courseCsv([{ file: 'a', name: 'b', feet: [only(mixed)] }])
      .trimEnd()
      .split('\r\n');
    const source = head.split(',').indexOf('source');
    const ofToe = rows.filter((row) => row.includes(',toe-length,')).map((row) => row.split(',')[source]);
    expect(ofToe).toEqual(['film', 'film', 'photo', 'hand', 'hand']);
    const measured = jsonShapes.measure.parse({ ungula: 1, cases: [measuredCase('a', inspection)] }).cases[0];
    expect(measured?.visits[0]?.tapes).toEqual([
      { foot: 'LF', line: expect.any(Number) as number, measures: { 'toe-length': { value: 90, unit: 'mm', sd: 2 } } },
    ]);
    expect(measured?.visits[1]?.films[0]?.kind).toBe('photo');
    expect(new Set(measuredRows('a', inspection.study).map((row) => row.source))).toEqual(
      new Set(['film', 'photo', 'hand']),
    );
    expect(coursedCase('a', inspect(taped), null)).toMatchObject({ films: {}, feet: {} });
  });
});

describe('a case without a film', () => {
  const inspection = inspect(taped);
  const plain = (html: string): string => html.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');

  it('shows in the pane what was taken at the visit, and the course', () => {
    const visits = visitSheets(inspection);
    const read = (visit: number | null): string =>
      plain(
        renderToString(
          h(NoFilmReading, { tapes: tapeSheets(inspection), visit: visit === null ? null : (visits[visit] ?? null) }),
        ),
      );
    expect(read(1)).toMatch(/Left fore, by hand, 2026-01-29 .* Toe length 84\.0 mm ± 2\.0 −4\.0 mm, within the error/);
    // Of no visit the newest.
    expect(read(null)).toContain('2026-02-26');
    expect(read(0)).toContain('By hand, left fore: toe length 88 mm');
    const course = courseSheet(inspection);
    const view = { course, caseName: 'Test', fileName: 'a.hoof', choice: null, line: null, said: null };
    const said = plain(renderToString(h(CourseView, view)));
    expect(said).toContain('Left fore, day to day');
    expect(said).toContain('Toe length by hand');
  });

  it('has visits, tables and a chart in the report', () => {
    const page = reportPage([{ file: 'a.hoof', inspection, pictures: new Map() }], '2026-03-01');
    expect(page).toContain('<h3>Visits</h3>');
    expect(page).toContain('<caption>Left fore, by hand, 2026-01-29</caption>');
    expect(page).toMatch(/<figure class="course">.*value-ring/s);
  });
});
