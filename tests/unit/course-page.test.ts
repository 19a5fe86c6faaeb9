import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet, type FootCourseSheet } from '../../shared/views/course-sheet.ts';
import { chosenRows } from '../../shared/views/course-stave.ts';
import { listedFilms } from '../../shared/views/listed-films.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import { CourseView } from '../../src/preview/course/course-view.tsx';
import { FilmsTable } from '../../src/preview/course/films-table.tsx';
import { TrendTable } from '../../src/preview/course/trend-table.tsx';
import { CaseStrip } from '../../src/preview/strip/case-strip.tsx';
import { filmsOfVisit, visitOf } from '../../src/preview/strip/visit-choice.ts';
import { sunk } from './moved-foot.ts';
import { courseText, turn, wing } from './course-text.ts';

const inspection = inspect(
  courseText([
    {
      date: '2026-01-01',
      places: { ...wing(14), ...turn(5) },
      more: ['  obel 2', '  weight 500 kg', '  trim LF\n    heel down 4 mm'],
    },
    { date: '2026-01-29', places: { ...wing(10), ...turn(12) } },
    { date: '2026-02-26', places: { ...wing(9.9), ...turn(19) } },
    { date: '2026-03-26', places: { ...wing(9), ...turn(26) } },
    { date: '2026-04-23', places: { ...wing(7), ...turn(33) } },
  ]),
);
const course = courseSheet(inspection);
const foot = course.feet[0] as FootCourseSheet;
const plain = (html: string): string => html.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');
const view = { course, caseName: 'Test', fileName: 'test.hoof', choice: null, line: null, said: null };

describe('the course on the page', () => {
  it('says in words what each measure came to', () => {
    const said = plain(renderToString(h(TrendTable, { rows: chosenRows(foot, ['palmar-angle']) })));
    expect(said).toMatch(
      /Palmar angle 5\.0° ± 0\.\d −1\.4° (clear|within the error) −4\.9° clear Flatter by 0\.1° to 2\.8° each four weeks After/,
    );
    expect(said).not.toMatch(/by chance|times in 100|no doubt/);
  });

  it('has a row for each day with films, the newest first', () => {
    const said = plain(renderToString(h(FilmsTable, { foot, rows: chosenRows(foot, ['palmar-angle']), stop: 1 })));
    const dates = said.match(/2026-\d\d-\d\d/g);
    expect(dates).toEqual(['2026-04-23', '2026-03-26', '2026-02-26', '2026-01-29', '2026-01-01']);
  });

  it('shows the first things first until some are chosen, and all of them by one button', () => {
    const names = (rows: readonly { measure: string }[]) => rows.map(({ measure }) => measure);
    const first = ['palmar-angle', 'sole-depth.tip', 'founder-distance.level', 'grown-out', 'heel-surplus'];
    expect(names(chosenRows(foot, null))).toEqual(first);
    const button = (choice: { foot: null; measures: string[] } | null) =>
      /<button[^>]*aria-pressed="(true|false)"[^>]*>All measures/.exec(
        renderToString(h(CourseView, { ...view, choice })),
      )?.[1];
    expect(button(null)).toBe('false');
    expect(button({ foot: null, measures: names(foot.rows) })).toBe('true');
    expect(chosenRows(foot, [])).toEqual([]);
    expect(plain(renderToString(h(CourseView, { ...view, choice: { foot: null, measures: [] } })))).toContain(
      'No measure is chosen',
    );
  });

  it('can be read and moved by the keyboard: a slider that says what stands at its place', () => {
    const html = renderToString(h(CourseView, { ...view, line: foot.films[1]?.line ?? null }));
    expect(html).toMatch(/role="slider"[^>]* tabindex="0"/i);
    expect(html).toMatch(/aria-valuemax="5"[^>]*aria-valuenow="2"/);
    expect(html).toMatch(/aria-valuetext="2026-01-29: Palmar angle 7\.1° ± 0\.\d, −2\.8° clear/);
  });

  it('says what of a sinking would have been seen where none was, and what was told where one is', () => {
    const said = plain(renderToString(h(CourseView, view)));
    expect(said).toMatch(/Sinking in the capsule : None seen; 2\.\d mm or more would have been\./);
    const sinks = inspect(courseText([0, 5].map((mm, index) => ({ date: `2026-0${index + 1}-01`, places: sunk(mm) }))));
    const told = plain(renderToString(h(CourseView, { ...view, course: courseSheet(sinks) })));
    expect(told).toMatch(
      /The bone lies 5\.0 ± 1\.\d mm lower in the capsule than on 1 January 2026\. Call the vet today\./,
    );
    expect(told).not.toContain('None seen');
  });

  it('says that it is under way, and draws nothing of a foot with one film', () => {
    expect(plain(renderToString(h(CourseView, { ...view, course: null })))).toContain('The course is being computed.');
    const one = courseSheet(inspect(courseText([{ date: '2026-01-01' }])));
    const html = renderToString(h(CourseView, { ...view, course: one }));
    expect(html).toContain('class="plate"');
    expect(html).not.toContain('slider');
  });
});

describe('the strip on the page', () => {
  const visits = visitSheets(inspection);
  const films = listedFilms(inspection).map(({ listed }) => listed);
  const current = visitOf(visits, films[2]?.line ?? null);

  it('tells of each visit how the animal was and what was done, and marks the one that shows', () => {
    const html = renderToString(h(CaseStrip, { message: { visits, films, pictures: {} }, current }));
    const cards = html.match(/<button[^]*?<\/button>/g) ?? [];
    expect(cards).toHaveLength(5);
    expect(plain(cards[0] ?? '')).toContain('2026-01-01 Obel 2, 500 kg Trim left fore: heel down 4 mm');
    expect(cards.map((card) => card.includes('aria-current="true"'))).toEqual([false, false, true, false, false]);
    expect(cards.filter((card) => /tabindex="0"/i.test(card))).toHaveLength(1);
  });

  it('gives the films of a visit, and all where it is not known which', () => {
    expect(filmsOfVisit(films, current)).toEqual([films[2]]);
    expect(filmsOfVisit(films, null)).toEqual(films);
  });
});
