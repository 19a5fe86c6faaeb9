import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { codeLenses } from '../../server/features/code-lenses.ts';
import { hover } from '../../server/features/hover.ts';
import { planActions } from '../../server/features/plan-actions.ts';
import { sheets } from '../../server/features/sheets.ts';
import type { CourseJson, MeasureJson, PlannedJson } from '../../shared/export/json-shapes.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { reportPage } from '../../shared/report/page.ts';
import { alarmsOf, alarmsOpen } from '../../shared/views/alarms.ts';
import { CutsView } from '../../src/preview/cuts-view.tsx';
import { PageModel } from '../../src/preview/page-model.ts';
import { Page } from '../../src/preview/page.tsx';
import { sheetsMessage } from '../told-page.ts';
import { Program } from './command-line-program.ts';
import { courseText } from './course-text.ts';
import { sunk } from './moved-foot.ts';

/** Whatever plans or hands over begins with the alarms that are open, and says nothing where none is. */

const plan = '\n  plan LF\n    heel down 2 mm';
const text = courseText([
  { date: '2026-01-20', places: sunk(0), film: { header: 'film LF lateral "a.png"' }, more: ['  obel 1'] },
  { date: '2026-02-20', places: sunk(6), film: { header: 'film LF lateral "b.png"' }, more: ['  sign fever', plan] },
]);
const calm = courseText([
  { date: '2026-01-20', film: { header: 'film LF lateral "a.png"' }, more: ['  obel 0'] },
  { date: '2026-02-20', film: { header: 'film LF lateral "b.png"' }, more: ['  obel 0', plan] },
]);
const lineOf = (start: string): number => text.split('\n').findLastIndex((line) => line.trim().startsWith(start)) + 1;
const sinks =
  /Left fore: the bone lies 6\.0 ± 1\.\d mm lower in the capsule than on 20 January 2026\. Call the vet today\./;
const fever =
  'Call the vet now: fever, seen on 20 February 2026. No visit of the vet since then is written. Do not trim before. When the vet has been, write: vet seen DATE.';
const documentOf = (of: string): TextDocument => TextDocument.create('file:///a.hoof', 'hoof', 1, of);

describe('the alarms of a case', () => {
  it('have sentence, date and line, in the order of the text where they are as grave', () => {
    expect(alarmsOf(inspect(text))).toEqual([
      {
        code: 'course/sinking',
        severity: 'error',
        date: '2026-02-20',
        line: lineOf('film LF') - 1,
        message: expect.stringMatching(sinks) as string,
      },
      { code: 'visit/call-the-vet', severity: 'error', date: '2026-02-20', line: lineOf('sign') - 1, message: fever },
    ]);
    expect(alarmsOf(inspect(calm))).toEqual([]);
  });

  it('are counted with their lines where there is no room for sentences', () => {
    const alarms = alarmsOf(inspect(text));
    expect(alarmsOpen(alarms)).toBe(`2 alarms are open, lines ${lineOf('film LF')} and ${lineOf('sign')}`);
    expect(alarmsOpen(alarms.slice(0, 1))).toBe(`an alarm is open, line ${lineOf('film LF')}`);
    expect(alarmsOpen([])).toBe('');
  });
});

describe('the editor', () => {
  const open = `2 alarms are open, lines ${lineOf('film LF')} and ${lineOf('sign')}`;

  const offered = (of: string) => {
    const at = of.lastIndexOf('film LF');
    const client = { ...clientAbilities({}), disabledActions: true };
    return planActions(documentOf(of), inspect(of), { start: at, end: at }, undefined, client);
  };

  it('offers no plan while one is open, and says why in its place', () => {
    const actions = offered(text);
    expect(actions.map(({ title }) => title)).toEqual([
      'Plan LF: heel to the live sole plane',
      'Plan LF: heel to a palmar angle of 5°',
      'Plan LF: heel as much as one visit may take',
    ]);
    for (const { disabled, data } of actions) {
      expect(data).toBeUndefined();
      expect(disabled?.reason).toContain('An alarm is open, so no cut is written down: ');
    }
    expect(actions[0]?.disabled?.reason).toMatch(sinks);
    expect(offered(calm).filter(({ disabled }) => disabled?.reason.includes('alarm'))).toEqual([]);
    // This foot has no sole to spare, which is another reason.
    expect(offered(calm)[0]?.disabled?.reason).toContain('Nothing can come off the heel: the sole under the tip');
  });

  it('names them over a plan', () => {
    const lenses = (of: string) =>
      codeLenses(documentOf(of), inspect(of), clientAbilities(undefined)).flatMap(({ range, command }) =>
        command?.title.startsWith('first: ') ? [[range.start.line + 1, command.title]] : [],
      );
    expect(lenses(text)).toEqual([[lineOf('plan'), `first: ${open}`]]);
    expect(lenses(calm)).toEqual([]);
  });

  it('tells them first where the pointer rests on a plan', () => {
    const says = (of: string): string => {
      const shown = hover(documentOf(of), inspect(of), of.lastIndexOf('plan') + 1, {
        docs: null,
        hoverFormat: 'markdown',
      });
      return JSON.stringify(shown?.contents);
    };
    expect(says(text)).toMatch(/"value":"\*\*Left fore: the bone lies[^"]*Call the vet now: fever/);
    expect(says(calm)).not.toMatch(/vet today|vet now/);
  });
});

describe('the pane', () => {
  const view = (of: string): string => {
    const { alarms, sheets: films } = sheets(documentOf(of), inspect(of));
    return renderToString(h(CutsView, { alarms, cuts: films.at(-1)?.cuts ?? [], laid: null }));
  };

  it('shows them above the plans, and the slider is described by them', () => {
    const html = view(text);
    expect(html.indexOf('Call the vet today')).toBeGreaterThan(0);
    expect(html.indexOf('Call the vet today')).toBeLessThan(html.indexOf('<input'));
    expect(/<input[^>]*aria-describedby="([^"]*)"/.exec(html)?.[1]).toBe(
      /<div class="alarms" id="([^"]*)"/.exec(html)?.[1],
    );
  });

  const page = (of: string, view: 'film' | 'course'): string => {
    const model = new PageModel(
      {
        uri: null,
        film: null,
        cut: null,
        over: null,
        hidden: [],
        shows: { picture: true, drawing: true, lettering: true },
        scroll: 0,
        view,
      },
      { keep: () => undefined, tell: () => undefined, changed: () => undefined },
    );
    model.heard(sheetsMessage(of));
    return renderToString(h(Page, { placing: model.placing, shown: model.shown, sheet: model.sheet, found: null }));
  };

  it.each(['film', 'course'] as const)('shows them above everything else, whichever is looked at: %s', (view) => {
    const html = page(text, view);
    expect(html).toMatch(/<section class="alarms" aria-label="Open alarms">/);
    expect(html.indexOf('Call the vet today')).toBeLessThan(html.indexOf('2026-01-20'));
    expect(page(calm, view)).not.toContain('alarms');
  });

  it('shows them of a case without a film too', () => {
    const html = page('hoof 1\n\ncase "X"\n  animal pony mare\n\nvisit 2026-03-04\n  obel 4\n', 'film');
    expect(html).toContain('Call the vet today: Obel grade 4');
  });

  it('shows nothing there where none is open', () => {
    expect(view(calm)).toContain('<input');
    expect(view(calm)).not.toMatch(/alarms|aria-describedby/);
  });
});

describe('the report', () => {
  const page = (of: string): string =>
    reportPage([{ file: 'a.hoof', inspection: inspect(of), pictures: new Map() }], '2026-03-01');

  it('begins each case with them', () => {
    const html = page(text);
    const [, part = ''] = html.split('<section class="case">');
    expect(part).toMatch(/^<h2>[^<]*<\/h2>\n<section class="alarms"/);
    expect(part.slice(0, part.indexOf('</section>'))).toMatch(sinks);
    // A sign belongs to no film: it is not said twice.
    expect(html.split(fever)).toHaveLength(2);
    expect(page(calm)).not.toContain('<section class="alarms"');
  });
});

describe('the command line', () => {
  let program: Program;
  const file = (): string => join(program.folder, 'a.hoof');

  beforeAll(async () => {
    program = await Program.build();
    writeFileSync(file(), text);
    writeFileSync(join(program.folder, 'calm.hoof'), calm);
  }, 600_000);
  afterAll(() => program.remove());

  it.each(['plan --foot LF --heel 2', 'measure', 'course'])('begins what %s prints with them', (command) => {
    const [name = '', ...more] = command.split(' ');
    const [first = '', second] = program.shell(`ungula ${name} a.hoof ${more.join(' ')}`).out.split('\n');
    expect(first).toMatch(sinks);
    expect(first).toMatch(new RegExp(`^a\\.hoof:${lineOf('film LF')}: `));
    expect(second).toBe(`a.hoof:${lineOf('sign')}: ${fever}`);
    expect(program.shell(`ungula ${name} calm.hoof ${more.join(' ')}`).out).toMatch(/^calm\.hoof: /);
  });

  it('has them in JSON, also where nothing can be planned', () => {
    const json = <T>(line: string): T => JSON.parse(program.shell(line).out) as T;
    const lines = [lineOf('film LF'), lineOf('sign')];
    const planned = json<PlannedJson>('ungula plan a.hoof --foot LF --heel 2 --format json');
    const unplanned = json<PlannedJson>('ungula plan a.hoof --foot RH --heel 2 --format json');
    const [measured] = json<MeasureJson>('ungula measure a.hoof --format json').cases;
    const [coursed] = json<CourseJson>('ungula course a.hoof --format json').cases;
    expect(unplanned.problem).not.toBeNull();
    for (const one of [planned, unplanned, measured, coursed])
      expect(one?.alarms.map(({ line }) => line)).toEqual(lines);
    expect(planned.alarms[1]).toEqual({
      date: '2026-02-20',
      line: lineOf('sign'),
      severity: 'error',
      code: 'visit/call-the-vet',
      message: fever,
    });
    expect(json<PlannedJson>('ungula plan calm.hoof --foot LF --heel 2 --format json').alarms).toEqual([]);
  });

  it('tells them beside a table of numbers', () => {
    const { out, err } = program.shell('ungula measure a.hoof --format csv');
    expect(out).not.toContain('vet');
    expect(err.join('\n')).toMatch(sinks);
  });
});
