import { describe, expect, it } from 'vitest';
import { sheets } from '../../server/features/sheets.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import { filmKey, type FilmLook } from '../../shared/views/film-choice.ts';
import type { FoundKey } from '../../shared/views/lesson-sheet.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { readHostMessage, readPageMessage, type PageMessage } from '../../src/messages/messages.ts';
import { freshState } from '../../src/preview/fresh-state.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { noLook, sheetsMessage } from '../told-page.ts';
import { filmText, type Places } from './plain-foot.ts';

const lesson = (line: string, body: string): string =>
  `hoof 1\n\ncase "Lesson"\n  animal horse mare\n  ${line}\n\nvisit 2026-03-04\n${body}\n`;
const plan = '\n\n  plan LF\n    heel down 9 mm\n';
const right = (places: Places = {}): FoundKey => ({
  inspection: inspect(`hoof 1\n\nvisit 2026-03-04\n${filmText(places)}${plan}`),
});
/** At 0.1 mm a pixel: the tip 3 mm to the toe and 4 mm down; the upper point of the wall 5 mm along its own line; the sole's last place left out. */
const wall = { x: -11 - 17, y: 52 - 17 };
const size = Math.hypot(wall.x, wall.y);
const off: Places = {
  'p3.tip': [3, 12],
  'wall.upper': [-11 + (5 * wall.x) / size, 52 + (5 * wall.y) / size],
  'sole.heel': undefined,
};
const student = lesson('key "teacher.hoof"', `${filmText(off)}${plan}`);

const ask = (text: string, key: FoundKey, look: Partial<FilmLook> = {}) =>
  sheets({ version: 1 }, inspect(text), { ...noLook, ...look }, key);
const keyOfFirst = (text: string): string => {
  const [film] = ask(text, null).films;
  return film ? filmKey(film) : '';
};

describe('a lesson before its key is shown', () => {
  const told = ask(student, right());
  const { sheet } = told;

  it('has places and no value: no row, no range, no finding of places, nothing of a cut, nothing to propose from', () => {
    expect(Object.keys(sheet?.placed ?? {})).toContain('p3.tip');
    expect(sheet?.rows).toEqual([]);
    expect(sheet?.unmeasured).toEqual([]);
    expect(sheet?.notes.filter(({ code }) => /^(?:range|landmark|trim)\//.test(code))).toEqual([]);
    expect(sheet?.cuts).toHaveLength(1);
    expect(sheet?.cuts[0]).toMatchObject({ delta: null, after: null, rows: [], broken: [], notes: [] });
    expect(told).toMatchObject({ keepsBack: true, over: null, before: null, pairs: [], alarms: [] });
    // The same case without the line has all of it.
    const plain = ask(student.replace('  key "teacher.hoof"\n', ''), null);
    expect(plain.sheet?.rows.length).toBeGreaterThan(20);
    expect(plain.sheet?.cuts[0]?.rows.length).toBeGreaterThan(0);
    expect(plain).toMatchObject({ keepsBack: false, lesson: null });
  });

  it('says what it is held against, and nothing of it', () => {
    expect(told.lesson).toEqual({ key: 'teacher.hoof', isShown: false, placed: 24, says: null, marks: null });
  });

  it('has no value either while a place is dragged', () => {
    const live = sheet && liveSheet(sheet, [{ kind: 'landmark', name: 'p3.tip', at: { x: 2000, y: 840 } }]);
    expect(live?.placed['p3.tip']).toMatchObject({ x: 2000, y: 840 });
    expect(live?.rows).toEqual([]);
  });

  it('keeps values back where the key cannot be had, and tells a film that the key has not read', () => {
    const gone = ask(student, { refused: 'not there' });
    expect(gone.sheet?.rows).toEqual([]);
    expect(gone.lesson?.says).toContain('is not there');
    expect(ask(student, null)).toMatchObject({ keepsBack: true, lesson: { says: null, marks: null } });
    const other = student.replace('x.png', 'y.png');
    const free = ask(other, right());
    expect(free).toMatchObject({ keepsBack: false, lesson: null });
    expect(free.sheet?.rows.length).toBeGreaterThan(20);
  });

  it('is so too for a program that asks for all sheets', () => {
    const all = sheets({ version: 1 }, inspect(student), null, right());
    expect(all.sheets.map(({ rows }) => rows)).toEqual([[]]);
  });
});

describe('a lesson whose key is shown', () => {
  const told = ask(student, right(), { shown: [keyOfFirst(student)] });
  const marks = told.lesson?.marks;
  const point = (name: string) => marks?.points.find(({ landmark }) => landmark === name);

  it('has its values, and how far each place lies, the furthest first', () => {
    expect(told.keepsBack).toBe(false);
    expect(told.sheet?.rows.length).toBeGreaterThan(20);
    expect(marks?.points.slice(0, 2).map(({ landmark, state }) => [landmark, state])).toEqual([
      ['p3.tip', 'off'],
      ['sole.heel', 'missing'],
    ]);
    // 3 and 4 are 5, by Pythagoras; 1.4 mm is what a hand's 0.5 mm allows: 1.96 times the root of 2 of it.
    expect(point('p3.tip')).toMatchObject({
      distance: '5.0 mm',
      way: '4.0 mm too low and 3.0 mm too far to the toe',
      allowed: '1.4 mm',
      key: { x: 2000, y: 840 },
      own: { x: 2030, y: 880 },
    });
    expect(point('sole.heel')).toMatchObject({ distance: '', way: '', own: null });
    expect(marks?.summary).toContain('23 of 25 places agree');
  });

  it('holds a point of a straight line against the line, and draws to the nearest place on it', () => {
    const upper = point('wall.upper');
    expect(upper?.state).toBe('agrees');
    expect(
      Math.hypot((upper?.key.x ?? 0) - (upper?.own?.x ?? 0), (upper?.key.y ?? 0) - (upper?.own?.y ?? 0)),
    ).toBeLessThan(0.01);
  });

  it('goes by the tolerance that the key writes', () => {
    const key = `hoof 1\n\nvisit 2026-03-04\n${filmText().replace(/(p3\.tip .*)/, '$1 +- 20')}\n`;
    const wide = ask(student, { inspection: inspect(key) }, { shown: [keyOfFirst(student)] }).lesson?.marks;
    // 1.96 times the root of 2 of 20 px, at 0.1 mm a pixel: 5.5 mm.
    expect(wide?.points.find(({ landmark }) => landmark === 'p3.tip')).toMatchObject({
      state: 'agrees',
      allowed: '5.5 mm',
    });
  });

  it('tells of each measure whether it differs clearly', () => {
    // Sole under the tip: 12 - 1 = 11 mm, where the key has 16 - 1 = 15.
    const sole = marks?.measures.find(({ measure }) => measure === 'sole-depth.tip');
    expect(sole).toMatchObject({ state: 'off', own: '11.0 mm', key: '15.0 mm', difference: '4.0 mm too small' });
    expect(marks?.measures.find(({ measure }) => measure === 'toe-length')?.state).toBe('agrees');
  });

  it('brings the plan of the key', () => {
    expect(marks?.cuts.map(({ kind, cut }) => [kind, cut])).toEqual([['plan', 'heel down 9 mm']]);
    expect(marks?.cuts[0]?.rows.length).toBeGreaterThan(0);
  });

  it('draws rings and ways on the plate, apart by shape', () => {
    if (!told.sheet || !marks) throw new Error('no marks');
    const key = marks.points.map(({ words, state, key: at, own }) => ({ words, state, at, own }));
    const svg = sceneToSvg(drawPlate({ ...plateOf(told.sheet, null), key }));
    expect(svg.match(/key-mark is-agrees/g)).toHaveLength(23);
    expect(svg.match(/key-mark is-off/g)).toHaveLength(1);
    expect(svg.match(/class="key-way/g)).toHaveLength(1);
    expect(svg).toMatch(/key-mark is-missing"[^]*?key-ring stroked"[^>]*stroke-dasharray/);
  });
});

describe('a lesson whose key is a reading in the same file', () => {
  const rowan = `    read "Rowan"\n      p3.tip @ 2000, 840\n      p3.wing @ 1200, 770\n`;
  const text = lesson('key by "Rowan"', `${filmText(off)}\n${rowan}`);
  const own: FoundKey = { inspection: inspect(text) };

  it('lists the key only once it is shown', () => {
    const before = ask(text, own);
    expect(before.films.map(({ reader }) => reader)).toEqual([null]);
    const after = ask(text, own, { shown: [before.films[0] ? filmKey(before.films[0]) : ''] });
    expect(after.films.map(({ reader }) => reader)).toEqual([null, 'Rowan']);
    expect(after.lesson?.marks?.summary).toContain('1 of 2 places agree');
    expect(after.lesson?.key).toBe('the reading by Rowan');
  });

  it('gives the student something to begin with where the key alone has read the film', () => {
    const bare = lesson('key by "Rowan"', `  film LF lateral "x.png"\n    scale 0.1 mm/px\n${rowan}`);
    const inspection = inspect(bare);
    const begun = ask(bare, { inspection });
    expect(begun.films.map(({ reader }) => reader)).toEqual([null]);
    expect(begun.sheet?.placed).toEqual({});
    const film = { line: begun.sheet?.line ?? 0, picture: 'x.png', foot: 'LF', view: 'lateral', reader: null } as const;
    const made = placeOnFilm(inspection.tree, film, [{ kind: 'landmark', name: 'p3.tip', at: { x: 2010, y: 850 } }]);
    if (!('edits' in made)) throw new Error(made.refused);
    const [edit] = made.edits;
    const written = edit ? bare.slice(0, edit.start) + edit.text + bare.slice(edit.end) : '';
    const [, reading] = /(p3\.tip[^]*?)read "Rowan"/.exec(written) ?? [];
    expect(reading).toContain('2010');
    // Another film's key is nothing of this one.
    expect(
      inspect(lesson('key by "Ash"', `  film LF lateral "x.png"\n${rowan}`)).study.films[0]?.readings,
    ).toHaveLength(1);
  });
});

describe('the page and a lesson', () => {
  it('is told of it through the messages, whole', () => {
    for (const look of [noLook, { ...noLook, shown: [keyOfFirst(student)] }]) {
      const message = JSON.parse(JSON.stringify(sheetsMessage(inspect(student), {}, look, right()))) as unknown;
      expect(readHostMessage(message)).toEqual(message);
      expect(message).toHaveProperty('lesson.isShown', look !== noLook);
    }
    const wants = { uri: 'file:///a', film: null, over: null, follows: true, course: false, shown: ['a film'] };
    expect(readPageMessage({ type: 'wants', wants })).toEqual({ type: 'wants', wants });
    expect(readPageMessage({ type: 'wants', wants: { ...wants, shown: [7] } })).toBeNull();
  });

  it('asks for the key of the film that it shows, of this case alone, and hides it again', () => {
    const told: PageMessage[] = [];
    const model = new PageModel(freshState, { keep: () => {}, tell: (one) => told.push(one), changed: () => {} });
    const shownNow = () => told.findLast(({ type }) => type === 'wants');
    model.heard(sheetsMessage(inspect(student), { uri: 'file:///one.hoof' }, noLook, right()));
    model.showKey(true);
    expect(shownNow()).toMatchObject({ wants: { uri: 'file:///one.hoof', shown: [keyOfFirst(student)] } });
    model.heard(sheetsMessage(inspect(student), { uri: 'file:///two.hoof' }, noLook, right()));
    expect(shownNow()).not.toHaveProperty('wants.shown');
    // The first is as it was left.
    model.heard(sheetsMessage(inspect(student), { uri: 'file:///one.hoof' }, noLook, right()));
    expect(shownNow()).toMatchObject({ wants: { shown: [keyOfFirst(student)] } });
    model.showKey(false);
    expect(shownNow()).not.toHaveProperty('wants.shown');
  });
});
