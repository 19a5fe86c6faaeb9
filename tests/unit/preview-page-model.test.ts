import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import type { PageMessage, PageState, SheetsMessage } from '../../src/messages/messages.ts';
import { bound } from '../../src/preview/bound.ts';
import { filmKey } from '../../src/preview/film-choice.ts';
import { PageModel } from '../../src/preview/page-model.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const sheets = filmSheets(inspect(text));
const [first, second] = sheets;
const newest = sheets.at(-1);
if (!first || !second || !newest) throw new Error('the example has fewer than two films');

const fresh: PageState = {
  uri: null,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
};
const message = (part: Partial<Pick<SheetsMessage, 'uri' | 'version' | 'cursor'>> = {}): SheetsMessage => ({
  type: 'sheets',
  alarms: [],
  uri: 'file:///a.hoof',
  fileName: 'a.hoof',
  caseName: 'Juniper',
  animal: { kind: 'horse', heightMm: 1480 },
  version: 1,
  sheets,
  yardsticks: {},
  visits: [],
  tapes: [],
  pairs: [],
  pictures: {},
  cursor: null,
  ...part,
});

function pane() {
  const told: PageMessage[] = [];
  const kept: PageState[] = [];
  const changes: string[] = [];
  const model = new PageModel(fresh, {
    keep: (state) => kept.push(state),
    tell: (one) => told.push(one),
    changed: (when) => changes.push(when),
  });
  return { model, told, kept, changes };
}

describe('the model of the preview page', () => {
  it('shows the newest film of a case, and the one that the cursor comes into', () => {
    const { model, changes } = pane();
    model.heard(message());
    expect(model.sheet).toBe(newest);
    model.heard({ type: 'cursor', uri: 'file:///a.hoof', line: second.line });
    expect(model.sheet).toBe(second);
    expect(changes).toEqual(['now', 'soon']);
  });

  it('opens placing at a landmark of a film, where an action of the editor asks for it', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'place at', uri: 'file:///b.hoof', line: second.line, landmark: 'sole.heel' });
    expect(model.placing.isOn).toBe(false);
    model.heard({ type: 'place at', uri: 'file:///a.hoof', line: second.line, landmark: 'sole.heel' });
    expect([model.placing.isOn, model.sheet, model.placing.state.step]).toEqual([true, second, 'sole.heel']);
  });

  it('does not follow the cursor of another file', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'cursor', uri: 'file:///b.hoof', line: second.line });
    expect(model.sheet).toBe(newest);
  });

  it('moves the text to a film that is chosen, and keeps the choice', () => {
    const { model, told, kept } = pane();
    model.heard(message());
    model.chooseFilm(filmKey(second));
    expect(model.sheet).toBe(second);
    expect(told).toEqual([{ type: 'reveal', uri: 'file:///a.hoof', line: second.line, how: 'follow' }]);
    expect(kept.at(-1)?.film).toBe(filmKey(second));
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
    expect(model.sheet).toBe(newest);
  });

  it('keeps what is shown where the server gave no answer, and says so', () => {
    const { model } = pane();
    model.heard(message());
    model.heard({ type: 'trouble', says: 'The numbers may be old.' });
    expect(model.sheet).toBe(newest);
    expect(model.shown.trouble).toBe('The numbers may be old.');
    model.heard(message({ version: 2 }));
    expect(model.shown.trouble).toBeNull();
  });
});

describe('the course on the preview page', () => {
  const course = courseSheet(inspect(text));

  it('is asked for when it is shown, and no longer when the film is', () => {
    const { model, told, kept } = pane();
    model.heard(message());
    model.show('course');
    expect(told.at(-1)).toEqual({ type: 'wants', course: true });
    expect(kept.at(-1)?.view).toBe('course');
    model.show('film');
    expect(told.at(-1)).toEqual({ type: 'wants', course: false });
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
    const { model, told } = pane();
    model.heard(message());
    model.goToVisit(second.line, filmKey(second));
    expect(told.at(-1)).toEqual({ type: 'reveal', uri: 'file:///a.hoof', line: second.line, how: 'go' });
    expect(model.sheet).toBe(second);
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
