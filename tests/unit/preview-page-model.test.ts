import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import type { PageMessage, PageState, SheetsMessage } from '../../src/messages/messages.ts';
import type { FilmLook } from '../../shared/views/film-choice.ts';
import type { Wants } from '../../src/messages/course-messages.ts';
import { bound } from '../../src/preview/bound.ts';
import { filmKey } from '../../shared/views/film-choice.ts';
import { cutKey } from '../../src/preview/cut-choice.ts';
import { cutsWith } from '../../src/preview/tried-cut.ts';
import type { CutSheet } from '../../shared/views/film-sheet.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { noLook, sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const sheets = filmSheets(inspect(text));
const [first, second] = sheets;
const newest = sheets.at(-1);
if (!first || !second || !newest) throw new Error('the example has fewer than two films');

const message = (
  part: Partial<Pick<SheetsMessage, 'uri' | 'version' | 'cursor'>> = {},
  look: Partial<FilmLook> = {},
): SheetsMessage => {
  const { cursor = null } = part;
  return sheetsMessage(
    text,
    { uri: 'file:///a.hoof', ...part },
    { ...noLook, line: cursor, moved: cursor !== null, ...look },
  );
};
const titleOf = (model: PageModel): string | undefined => model.sheet?.title;

function pane() {
  const told: PageMessage[] = [];
  const kept: PageState[] = [];
  const changes: string[] = [];
  const wanted: Wants[] = [];
  const model = new PageModel(freshState, {
    keep: (state) => kept.push(state),
    tell: (one) => {
      if (one.type === 'wants') wanted.push(one.wants);
      else told.push(one);
    },
    changed: (when) => changes.push(when),
  });
  /** The host sends what the page wants. */
  const answer = (part: Parameters<typeof message>[0] = {}): void => {
    const wants = wanted.at(-1);
    model.heard(message(part, { film: wants?.film ?? null, over: wants?.over ?? null, moved: false }));
  };
  return { model, told, wanted, kept, changes, answer };
}

describe('a heel that is tried', () => {
  const onTwoPlanes = text.replace(/(heel +down 1\.5 mm)(?![^]*\1)/, '$1 from 60 mm');
  it('is shown with the place of its own plane, and written as that number alone', () => {
    const { model, told } = pane();
    model.heard(sheetsMessage(onTwoPlanes, { uri: 'file:///a.hoof', cursor: null }, noLook));
    const plan = model.sheet?.cuts.find(({ kind }) => kind === 'plan');
    expect(plan?.size).toMatchObject({ heelDown: 1.5, heelFrom: 60 });
    const key = cutKey(model.sheet?.cuts ?? [], plan as CutSheet);
    model.tryHeel(key, 'from', 75);
    const { sheet } = model;
    const tried = sheet && cutsWith(sheet, model.shown.tried).find(({ kind }) => kind === 'plan');
    expect(tried?.size).toMatchObject({ heelDown: 1.5, heelFrom: 75 });
    expect(tried?.cut).toContain('heel down 1.5 mm from 75 mm');
    model.writeHeel(key, 'from', 75);
    expect(told.at(-1)).toMatchObject({ type: 'heel', line: plan?.line, part: 'from', mm: 75 });
  });
});

describe('the model of the preview page', () => {
  it('shows the newest film of a case, and asks for the one that the cursor comes into', () => {
    const { model, changes, wanted, answer } = pane();
    model.heard(message());
    expect(titleOf(model)).toBe(newest.title);
    model.heard({ type: 'cursor', uri: 'file:///a.hoof', line: second.line });
    expect(changes).toEqual(['now', 'soon']);
    // What shows stays until the other is there.
    expect(titleOf(model)).toBe(newest.title);
    expect(wanted.at(-1)).toMatchObject({ uri: 'file:///a.hoof', film: filmKey(second), follows: true });
    answer();
    expect(model.sheet).toEqual(second);
  });

  it('shows the film at the cursor with the first message, and asks for nothing', () => {
    const { model, wanted } = pane();
    model.heard(message({ cursor: second.line }));
    expect(model.sheet).toEqual(second);
    const asked = wanted.length;
    model.heard(message({ cursor: second.line, version: 2 }, { film: filmKey(second), moved: false }));
    expect([titleOf(model), wanted.length]).toEqual([second.title, asked]);
  });

  it('passes over what was made before the host knew of the choice, and asks again', () => {
    const { model, wanted, answer, changes } = pane();
    model.heard(message());
    model.chooseFilm(filmKey(second));
    const asked = wanted.length;
    changes.length = 0;
    // On its way when the film was chosen: newer, and of another film.
    model.heard(message({ version: 2 }));
    expect([model.shown.message?.version, titleOf(model), changes]).toEqual([1, newest.title, []]);
    expect(wanted.slice(asked)).toEqual([expect.objectContaining({ film: filmKey(second) })]);
    answer({ version: 2 });
    expect([model.shown.message?.version, titleOf(model)]).toEqual([2, second.title]);
  });

  it('takes what comes where the chosen film is gone, or where nothing shows yet', () => {
    const { model, answer } = pane();
    model.heard(message());
    model.chooseFilm(filmKey(second));
    answer();
    const without = text.replace('2026-03-04', '2026-03-05').replaceAll(second.picture, 'films/other.png');
    model.heard(sheetsMessage(without, { uri: 'file:///a.hoof', version: 3 }));
    expect([model.shown.message?.version, titleOf(model)]).toEqual([3, newest.title]);
    const begun = new PageModel(
      { ...freshState, uri: 'file:///a.hoof', film: filmKey(second) },
      { keep: () => undefined, tell: () => undefined, changed: () => undefined },
    );
    begun.heard(message());
    expect(titleOf(begun)).toBe(newest.title);
  });

  it('says with its first word what it was left with', () => {
    const told: PageMessage[] = [];
    const state = {
      ...freshState,
      uri: 'file:///a.hoof',
      film: filmKey(second),
      over: filmKey(first),
      view: 'course',
    } as const;
    const model = new PageModel(state, {
      keep: () => undefined,
      tell: (one) => told.push(one),
      changed: () => undefined,
    });
    model.begin();
    const wants = { uri: state.uri, film: state.film, over: state.over, follows: true, course: true };
    expect(told).toEqual([{ type: 'ready', wants }]);
    model.remember({ scroll: 7 });
    expect(told).toHaveLength(1);
  });

  it('asks for the film that is laid over', () => {
    const { model, wanted, answer } = pane();
    model.heard(message());
    model.layOver(filmKey(first));
    expect(wanted.at(-1)?.over).toBe(filmKey(first));
    expect(model.shown.message?.over).toBeNull();
    answer();
    expect(model.shown.message?.over?.title).toBe(first.title);
  });

  it('opens placing at a landmark of a film, where an action of the editor asks for it', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'place at', uri: 'file:///b.hoof', line: second.line, landmark: 'sole.heel' });
    model.heard(message({ version: 2 }));
    expect(model.placing.isOn).toBe(false);
    model.heard({ type: 'place at', uri: 'file:///a.hoof', line: second.line, landmark: 'sole.heel' });
    model.heard(message({ version: 3 }, { line: second.line, moved: true }));
    expect([model.placing.isOn, model.sheet, model.placing.state.step]).toEqual([true, second, 'sole.heel']);
  });

  it('opens it once its film comes, from another that is being placed on too', () => {
    const { model, wanted, answer } = pane();
    model.heard(message());
    if (model.sheet) model.placing.open(model.sheet);
    expect(wanted.at(-1)).toMatchObject({ film: filmKey(newest), follows: false });
    model.heard({ type: 'place at', uri: 'file:///a.hoof', line: second.line, landmark: 'sole.heel' });
    model.heard(message({ version: 2 }));
    expect([model.placing.isOn, wanted.at(-1)?.film]).toEqual([false, filmKey(second)]);
    answer({ version: 2 });
    expect([model.placing.isOn, titleOf(model), model.placing.state.step]).toEqual([true, second.title, 'sole.heel']);
  });

  it('does not follow the cursor of another file', () => {
    const { model, wanted } = pane();
    model.heard(message());
    const asked = wanted.length;
    model.heard({ type: 'cursor', uri: 'file:///b.hoof', line: second.line });
    expect([titleOf(model), wanted.length]).toEqual([newest.title, asked]);
  });

  it('moves the text to a film that is chosen, and keeps the choice', () => {
    const { model, told, kept, answer } = pane();
    model.heard(message());
    model.chooseFilm(filmKey(second));
    expect(told).toEqual([{ type: 'reveal', uri: 'file:///a.hoof', line: second.line, how: 'follow' }]);
    expect(kept.at(-1)?.film).toBe(filmKey(second));
    answer();
    expect(model.sheet).toEqual(second);
  });

  it('does what is asked of it by an action alone, as the parts of the page do', () => {
    const { model, told } = pane();
    model.heard(message());
    const { go, toggle } = bound(model);
    go(7);
    toggle('lettering');
    expect(told).toEqual([{ type: 'reveal', uri: 'file:///a.hoof', line: 7, how: 'go' }]);
    expect(model.shown.kept.shows.lettering).toBe(false);
  });

  it('lays a cut over and takes it off again', () => {
    const { model } = pane();
    model.heard(message({ cursor: first.line }));
    const key = ['plan', '2026-03-04', '0'].join('\n');
    model.pressCut(key);
    expect(model.shown.kept.cut).toBe(key);
    model.pressCut(key);
    expect(model.shown.kept.cut).toBe('none');
  });

  it('goes on working where a part of the page takes a single action off it', () => {
    const { model, told } = pane();
    const { go, chooseFilm } = bound(model);
    model.heard(message());
    go(7);
    chooseFilm(filmKey(second));
    expect(told.map((one) => (one.type === 'reveal' ? one.line : null))).toEqual([7, second.line]);
  });

  it('forgets the film and the cut of the last case', () => {
    const { model } = pane();
    model.heard(message());
    model.chooseFilm(filmKey(second));
    model.heard(message({ uri: 'file:///b.hoof', cursor: null }));
    expect(model.shown.kept).toMatchObject({ uri: 'file:///b.hoof', film: null, cut: null });
    expect(titleOf(model)).toBe(newest.title);
  });

  it('keeps what is shown where the server gave no answer, and says so', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'trouble', says: 'The numbers may be old.' });
    expect(titleOf(model)).toBe(newest.title);
    expect(model.shown.trouble).toBe('The numbers may be old.');
    model.heard(message({ version: 2 }));
    expect(model.shown.trouble).toBeNull();
  });
});

describe('the course on the preview page', () => {
  const course = courseSheet(inspect(text));

  it('is asked for when it is shown, and no longer when the film is', () => {
    const { model, wanted, kept } = pane();
    model.heard(message());
    model.show('course');
    expect(wanted.at(-1)?.course).toBe(true);
    expect(kept.at(-1)?.view).toBe('course');
    model.show('film');
    expect(wanted.at(-1)?.course).toBe(false);
  });

  it('is shown of the case on the page only, and let go with it', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'course', uri: 'file:///b.hoof', ...course });
    expect(model.shown.course).toBeNull();
    model.heard({ type: 'course', uri: 'file:///a.hoof', ...course });
    expect(model.shown.course?.feet.map(({ foot }) => foot)).toEqual(['LF']);
    model.heard(message({ version: 2 }));
    expect(model.shown.course).not.toBeNull();
    model.heard(message({ uri: 'file:///b.hoof' }));
    expect(model.shown.course).toBeNull();
  });

  it('keeps the foot and the measures that were chosen, each by itself', () => {
    const { model, kept } = pane();
    model.heard(message());
    model.chooseCourse({ foot: 'RF' });
    model.chooseCourse({ measures: ['toe-length'] });
    expect(kept.at(-1)?.course).toEqual({ foot: 'RF', measures: ['toe-length'] });
  });

  it('goes to the film of a visit in the text, and shows it', () => {
    const { model, told, answer } = pane();
    model.heard(message());
    model.goToVisit(second.line, filmKey(second));
    expect(told.at(-1)).toEqual({ type: 'reveal', uri: 'file:///a.hoof', line: second.line, how: 'go' });
    answer();
    expect(model.sheet).toEqual(second);
  });

  it('tells what is to be saved of the case on the page, and how it went', () => {
    const { model, told } = pane();
    model.save({ kind: 'csv', name: 'a', content: 'b' });
    expect(told).toEqual([]);
    model.heard(message());
    model.save({ kind: 'csv', name: 'a', content: 'b' });
    expect(told.at(-1)).toEqual({ type: 'save', uri: 'file:///a.hoof', kind: 'csv', name: 'a', content: 'b' });
    model.heard({ type: 'said', says: 'Saved as a.csv.' });
    expect(model.shown.said).toBe('Saved as a.csv.');
  });
});
