import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { filmAt, filmKey, filmOf, filmToShow, landmarkOn } from '../../shared/views/film-choice.ts';
import { listedFilms } from '../../shared/views/listed-films.ts';

const text = `hoof 1
case "Two films"
visit 2026-03-04
  film LF lateral "films/a.png"
    taken 2026-03-03
    read "first"
      p3.tip @ 10, 20
      p3.wing @ 30, 20
    read "second"
      p3.tip @ 11, 21
      p3.wing @ 31, 19
  weight 500 kg
visit 2026-04-01
  film RF lateral "films/b.png"
    p3.tip @ 10, 20
  plan LF
    heel down 5 mm
`;
const inspection = inspect(text);
const films = listedFilms(inspection).map(({ listed }) => listed);
const lineOf = (part: string, after = 0): number =>
  text.split('\n').findIndex((line, index) => index >= after && line.includes(part));
const named = (line: number): string | undefined => filmAt(films, line)?.title;

describe('which film the page shows', () => {
  it('is the one that the cursor is in, and of two readings the one whose landmarks it is at', () => {
    expect(named(lineOf('p3.tip @ 10'))).toContain('first');
    expect(named(lineOf('p3.wing @ 31'))).toContain('second');
    expect(named(lineOf('film RF'))).toContain('Right fore');
  });

  it('is the last one above where the cursor is in none', () => {
    expect(named(0)).toBeUndefined();
    expect(named(lineOf('weight'))).toContain('Left fore');
  });

  it('is the film that a plan is predicted on, where the cursor is in the plan', () => {
    expect(named(lineOf('heel down'))).toContain('Left fore');
  });

  it('stays what was chosen while that film is there, and is never nothing while there is one', () => {
    const second = films.find(({ foot }) => foot === 'RF');
    if (!second) throw new Error('no film of the right fore');
    const moved = false;
    expect(filmToShow(films, { film: filmKey(second), line: 4, moved })).toBe(second);
    expect(filmToShow(films, { film: 'gone', line: lineOf('film RF'), moved })).toBe(second);
    // Without a cursor the newest film.
    expect(filmToShow(films, { film: null, line: null, moved })).toBe(second);
    expect(filmToShow([], { film: null, line: 3, moved })).toBeNull();
    expect(filmOf(films, null)).toBeNull();
  });

  it('is the one that the cursor has come to, whatever was chosen; above all films the chosen one stays', () => {
    const second = films.find(({ foot }) => foot === 'RF');
    if (!second) throw new Error('no film of the right fore');
    const film = filmKey(second);
    expect(filmToShow(films, { film, line: lineOf('p3.wing @ 31'), moved: true })?.reader).toBe('second');
    expect(filmToShow(films, { film, line: 0, moved: true })).toBe(second);
  });

  it('is listed as its sheet has it, with lines of landmarks only where they decide something', () => {
    const sheets = filmSheets(inspection);
    expect(films.map(({ lines: _lines, cuts, ...name }) => ({ ...name, cuts }))).toEqual(
      sheets.map(({ title, foot, view, kind, date, reader, line, endLine, picture, cuts }) => ({
        title,
        foot,
        view,
        kind,
        date,
        reader,
        line,
        endLine,
        picture,
        cuts: cuts.map((cut) => ({ line: cut.line, endLine: cut.endLine })),
      })),
    );
    expect(films.map(({ lines }) => lines)).toEqual([
      [lineOf('p3.tip @ 10'), lineOf('p3.wing @ 30')],
      [lineOf('p3.tip @ 11'), lineOf('p3.wing @ 31')],
      [],
    ]);
    // Counted by hand in the text above, from 0: the plan of the left fore is told of on its one film.
    expect(films.flatMap(({ cuts }) => cuts)).toContainEqual({ line: 15, endLine: 16 });
  });

  it('knows the landmark on a line', () => {
    const first = filmSheets(inspection)[0];
    if (!first) throw new Error('no film');
    expect(landmarkOn(first, lineOf('p3.wing @ 30'))).toBe('p3.wing');
    expect(landmarkOn(first, lineOf('taken'))).toBeNull();
    expect(landmarkOn(first, null)).toBeNull();
  });
});
