import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { acceptActions } from '../../server/features/accept-actions.ts';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { codeActions } from '../../server/features/code-actions.ts';
import { completion } from '../../server/features/completion.ts';
import { lineAt } from '../../server/features/completion/line-at.ts';
import { symbols } from '../../server/features/symbols.ts';
import { mannKendall } from '../../shared/course/mann-kendall.ts';
import { theilSen } from '../../shared/course/theil-sen.ts';
import { drawStave } from '../../shared/drawing/course/stave.ts';
import { limitAbsent } from '../../shared/findings/rules/limits-absent.ts';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { courseCsv } from '../../shared/export/course-csv.ts';
import { courseSheet, type FootCourseSheet } from '../../shared/views/course-sheet.ts';
import { chosenRows, staveOf, stopsOf } from '../../shared/views/course-stave.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { newestDays } from '../../shared/report/newest-days.ts';
import { judged } from '../../shared/trim/bone-lengths.ts';
import { animalOn } from '../../shared/trim/case-animal.ts';
import { studyCase, usualStudy } from '../../shared/trim/study.ts';
import { reportPage } from '../../shared/report/page.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { shapes } from '../growth/shapes.ts';
import { expectInProportion } from './growing.ts';

const shape = (name: string) => shapes[name] as (size: number) => string;
const client = clientAbilities({ workspace: { workspaceEdit: { documentChanges: true } } }, undefined);
const inspected = (name: string) => (size: number) => {
  const text = shape(name)(size);
  return { inspection: inspect(text), document: TextDocument.create('file:///case.hoof', 'hoof', 1, text), text };
};

/** The course of a foot with so many films, one a day, without the work of measuring them. */
function manyFilms(count: number): FootCourseSheet {
  const { feet } = courseSheet(inspect(shape('a small film a visit')(2000)));
  const [foot] = feet;
  const [row] = chosenRows(foot as FootCourseSheet, null);
  const [point] = row?.points ?? [];
  const [change] = row?.changes ?? [];
  if (!foot || !row || !point || !change) throw new Error('there is no course');
  const days = Array.from({ length: count }, (_, index) => index);
  return {
    ...foot,
    films: days.map((day) => ({
      date: `day ${day}`,
      day,
      line: day,
      view: 'lateral',
      scaleFrom: 'marker',
      doubted: false,
    })),
    rows: [
      {
        ...row,
        points: days.map((day) => ({ ...point, day, date: `day ${day}`, value: 5 + 5 * Math.sin(day * day) })),
        changes: days.slice(1).map((to) => ({ ...change, from: to - 1, to, real: to % 2 === 0 })),
      },
    ],
  };
}

describe('the course of very many films', () => {
  const series = (count: number) => {
    const times = Array.from({ length: count }, (_, index) => index + (index % 3));
    return { times, values: times.map((time) => Math.sin(time * time)) };
  };
  it('has its trend in proportion to them', () => {
    expectInProportion(series, 2500, ({ times, values }) => theilSen(times, values));
    expectInProportion(series, 2500, ({ times, values }) => mannKendall(times, values));
  });
  it('is written and drawn in proportion to them', () => {
    expectInProportion(manyFilms, 2000, (foot) => courseCsv([{ file: 'a', name: 'b', feet: [foot] }]));
    expectInProportion(manyFilms, 2000, (foot) =>
      drawStave(staveOf(foot, foot.rows, { width: 900, caseName: 'a', alone: false })),
    );
  });
  it('is drawn of more films than a call takes arguments', () => {
    const foot = manyFilms(130_000);
    expect(drawStave(staveOf(foot, foot.rows, { width: 900, caseName: 'a', alone: true })).stops).toHaveLength(130_000);
  });
  it('is shown of its newest days, and the changes lead to the same films', () => {
    const foot = manyFilms(2500);
    const shown = newestDays(foot);
    expect(stopsOf(shown)).toEqual(stopsOf(foot).slice(-1000));
    const dates = ({ rows: [row] }: FootCourseSheet) =>
      row?.changes.map(({ from, to }) => [row.points[from]?.date, row.points[to]?.date]);
    expect(dates(shown)).toEqual(dates(foot)?.slice(-999));
    const few = manyFilms(1000);
    expect(newestDays(few)).toBe(few);
  });
  it('is told on the terminal however many lines that are', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'ungula-growth-'));
    try {
      const file = join(folder, 'case.hoof');
      writeFileSync(file, shape('a small film a visit')(6_400_000));
      let out = '';
      const status = await commandLine(['course', '--all', file], {
        out: (text) => (out += text),
        err: () => undefined,
      });
      expect(status).toBe(0);
      expect(out.split('\n').length).toBeGreaterThan(130_000);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe('the sizes of bones and the weights of very many visits', () => {
  it('are held against each other in proportion to them', () => {
    const sizes = (count: number) =>
      Array.from({ length: count }, (_, index) => ({
        mm: [60 + (index % 7), 50, index % 5 === 0 ? null : 40],
        covariance: [1e-4, 0, 0, 0, 1e-4, 0, 0, 0, 1e-4],
      }));
    expectInProportion(sizes, 500, judged);
  });
  it('are looked up by the day in proportion to them', () => {
    const animal = (count: number) => ({
      kind: null,
      heightMm: null,
      born: null,
      grownFrom: null,
      bonesGrownFrom: null,
      weights: Array.from({ length: count }, (_, day) => ({ day, kg: 400 + (day % 90) })),
    });
    expect(animalOn(animal(9), 4).weightKg).toBe(404);
    expect(animalOn(animal(9), -1).weightKg).toBeUndefined();
    expectInProportion(animal, 5000, (one) => one.weights.map(({ day }) => animalOn(one, day / 2)));
  });
});

describe('a report of very many films', () => {
  it('draws the newest, lists the others with what is out, and loses no finding', () => {
    const inspection = inspect(shape('a small film a visit')(150_000));
    const films = inspection.study.films.length;
    const page = reportPage([{ file: 'x.hoof', inspection, pictures: new Map() }], '2026-03-05');
    expect(films).toBeGreaterThan(250);
    expect(page.match(/<article class="film">/g)).toHaveLength(100);
    expect(page).toContain(
      `Of ${films} films the newest 100 are drawn below. The other ${films - 100} are listed here`,
    );
    const [, older = ''] = /<section class="older">(.*?)<\/section>/s.exec(page) ?? [];
    expect(older.match(/<th scope="row">/g)).toHaveLength(films - 100);
    expect(older).toContain('<th scope="row">Left fore, lateral film, 1990-01-01</th>');
    // Each finding that lies on a film is told once and with its line, whether the film is drawn or not.
    for (const { at } of inspection.findings.slice(0, 40)) {
      const line = inspection.tree.text.slice(0, at.start).split('\n').length;
      expect(page).toContain(`x.hoof, line ${line}, `);
    }
  });
});

describe('in proportion to the text', () => {
  it.each<[string, string, number, (inspection: Inspection) => unknown]>([
    ['one film read by many', 'readings with much to say', 25_000, filmSheets],
    ['films and tapes of one visit', 'films and tapes in one visit', 150_000, filmSheets],
  ])('sheets: %s', (_, name, size, work) => {
    expectInProportion(inspected(name), size, ({ inspection }) => work(inspection));
  });

  it.each(['shortest lines', 'shortest open texts', 'shortest visits', 'lines of a zero byte'])(
    'findings and layout: %s',
    (name) => {
      expectInProportion(shape(name), 25_000, (text) => [inspect(text), format(text)]);
    },
  );

  it.each(['acceptances', 'statements said again', 'placings of one landmark'])('findings: %s', (name) => {
    expectInProportion(shape(name), 100_000, (text) => inspect(text));
  });

  it('films that take their scale from the bones on the others', () => {
    expectInProportion(inspected('scale bone on every second film'), 60_000, ({ inspection }) => {
      const { films } = studyCase(inspection.study.record);
      expect(films[1]?.bone).toMatchObject({ from: 'foot', films: Math.ceil(films.length / 2) });
    });
  });

  it('limits that each film is held to', () => {
    expectInProportion(inspected('limits and films'), 150_000, ({ inspection: { study } }) => {
      for (const film of study.films) {
        const told = film.readings.flatMap((reading) => [...(limitAbsent.onReading?.(film, reading, study) ?? [])]);
        expect(told.map(({ measure }) => measure)).toEqual(['p3-back']);
      }
    });
  });

  it('a keystroke behind limits, which stay where every visit behind it moves', () => {
    const told = (size: number) => {
      const text = shape('limits and films')(size);
      const memory = new BlockMemory();
      inspect(text, usualStudy, memory);
      const at = text.indexOf('\n', text.indexOf('visit '));
      return { text, typed: `${text.slice(0, at)} ${text.slice(at)}`, memory };
    };
    expectInProportion(told, 100_000, ({ text, typed, memory }) => {
      for (const one of [typed, text]) inspect(one, usualStudy, memory);
    });
  });

  it('the layout of remarks among statements', () => {
    expectInProportion(shape('remarks and statements'), 100_000, format);
  });

  it('the outline of many trims', () => {
    expectInProportion(inspected('trims'), 60_000, ({ document, inspection }) => symbols(document, inspection));
  });

  it('actions over a whole file, which are those of its first findings', () => {
    expectInProportion(inspected('expected values'), 30_000, ({ document, inspection, text }) => {
      const range = { start: 0, end: text.length };
      const actions = [
        ...codeActions(document, inspection, range, undefined, client),
        ...acceptActions(document, inspection, range, undefined, client),
      ];
      expect(actions.length).toBeLessThanOrEqual(200);
    });
  });

  // Each run of a piece could go on to the end but for its last sign: an expression is tried anew from each of its characters.
  it.each([
    ['abcdefgh', ','],
    ['ab.cd-', '='],
    ['1,2,', 'x'],
    ['1.1-', '='],
    ['äöü', ','],
    ['....', 'a'],
  ])('completion behind %s, time and again, and %s', (piece, end) => {
    expectInProportion(
      (size) => `  weight ${piece.repeat(size / piece.length)}${end}`,
      12_000,
      (line) => lineAt(line, line.length),
    );
  });

  it('completion of a code where thousands are told', () => {
    const told = (size: number) => {
      const text = `${shape('expected values')(size)}    accept \n`;
      return { text, inspection: inspect(text), document: TextDocument.create('file:///case.hoof', 'hoof', 1, text) };
    };
    expectInProportion(told, 100_000, ({ document, inspection, text }) =>
      completion(document, inspection, text.length - 1, { client, now: new Date(0) }),
    );
  });
});
