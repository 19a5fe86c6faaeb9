import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { filmKey } from '../../shared/views/film-choice.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { laidFilm } from '../../shared/views/laid-over.ts';
import { listedFilms } from '../../shared/views/listed-films.ts';
import { LARGEST_SAVED } from '../../src/messages/course-messages.ts';
import {
  filmSheetSchema,
  laidFilmSchema,
  listedFilmSchema,
  readHostMessage,
  readPageMessage,
  readPageState,
} from '../../src/messages/messages.ts';
import { fileNameOf } from '../../src/preview/take/file-name.ts';
import { noLook, sheetsMessage } from '../told-page.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');
const texts = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => [name, readFileSync(join(examples, name), 'utf8')] as const);

const place = {
  type: 'place',
  id: 4,
  uri: 'file:///a.hoof',
  film: { line: 3, picture: 'a.png', foot: 'LF', view: 'lateral', reader: null },
  placements: [
    { kind: 'landmark', name: 'p3.tip', at: { x: 1, y: 2 } },
    { kind: 'landmark', name: 'p3.wing', at: null },
    {
      kind: 'ground',
      ends: [
        { x: 1, y: 2 },
        { x: 3, y: 4 },
      ],
    },
    { kind: 'marker', ends: null, mm: null },
  ],
};

describe('messages between the extension and the page', () => {
  it.each(texts)('lets every sheet of %s through as it is', (_name, text) => {
    const inspection = inspect(text);
    const sheets = filmSheets(inspection);
    // An example may have neither film nor photo; its visits go to the page all the same.
    expect(sheets.length > 0).toBe(/^ {2}(?:film|photo) /m.test(text));
    const pictures = {
      'films/a.png': { kind: 'found', href: 'vscode-resource:/a.png' },
      'films/b.png': { kind: 'absent', says: 'gone' },
    } as const;
    const shown = sheetsMessage(inspection).sheet;
    const keys = listedFilms(inspection).map(({ listed }) => filmKey(listed));
    const over = keys.find((key) => shown && key !== filmKey(shown)) ?? null;
    const message = sheetsMessage(inspection, { pictures, version: 3, cursor: 0 }, { ...noLook, over });
    expect(message.sheet === null).toBe(sheets.length === 0);
    expect(message.over === null).toBe(over === null);
    expect(readHostMessage(JSON.parse(JSON.stringify(message)))).toEqual(JSON.parse(JSON.stringify(message)));
    // A field that the schema does not name would be lost on the way without a sound.
    for (const sheet of sheets)
      expect(Object.keys(filmSheetSchema.parse(sheet)).sort()).toEqual(Object.keys(sheet).sort());
    for (const { listed } of listedFilms(inspection))
      expect(Object.keys(listedFilmSchema.parse(listed)).sort()).toEqual(Object.keys(listed).sort());
    for (const laid of sheets.map(laidFilm))
      expect(Object.keys(laidFilmSchema.parse(laid)).sort()).toEqual(Object.keys(laid).sort());
  });

  it.each(texts)('lets the course of %s through as it is', (_name, text) => {
    const message = JSON.parse(
      JSON.stringify({ type: 'course', uri: 'file:///a.hoof', ...courseSheet(inspect(text)) }),
    );
    expect(readHostMessage(message)).toEqual(message);
  });

  it.each([
    null,
    7,
    'sheets',
    {},
    { type: 'other' },
    { type: 'cursor', uri: 'file:///a.hoof', line: -1 },
    { type: 'cursor', uri: 'file:///a.hoof', line: 0.5 },
    { type: 'sheets', uri: 'file:///a.hoof', sheets: [{}] },
    { type: 'nothing' },
    { type: 'nothing', says: 'a'.repeat(10_000_001) },
    { type: 'course', uri: 'file:///a.hoof', feet: Array.from({ length: 100_001 }, () => ({})) },
  ])('does not believe %j from the extension', (data) => {
    expect(readHostMessage(data)).toBeNull();
  });

  it('lets a placing and its answer through as they are', () => {
    expect(readPageMessage(JSON.parse(JSON.stringify(place)))).toEqual(place);
    const placed = { type: 'placed', id: 4, uri: 'file:///a.hoof', version: null, says: 'Nothing was written.' };
    expect(readHostMessage(placed)).toEqual(placed);
  });

  it.each([
    undefined,
    { type: 'reveal' },
    { type: 'reveal', uri: 'file:///a.hoof', line: '3', how: 'go' },
    { type: 'reveal', uri: 'file:///a.hoof', line: 3, how: 'run' },
    { type: 'reveal', uri: 'file:///a.hoof', line: Number.NaN, how: 'go' },
    { type: 'openExternal', uri: 'https://example.org' },
    { type: 'history', uri: 'file:///a.hoof', how: 'back' },
    { type: 'place', id: 1, uri: 'file:///a.hoof', film: { line: 3 }, placements: [] },
    { type: 'place', id: 1, uri: 'file:///a.hoof', film: place.film, placements: [{ kind: 'wall' }] },
    {
      type: 'place',
      id: 1,
      uri: 'file:///a.hoof',
      film: place.film,
      placements: [{ kind: 'landmark', name: 'p3.tip', at: { x: Number.NaN, y: 2 } }],
    },
    { type: 'wants' },
    { type: 'ready' },
    { type: 'wants', wants: { uri: null, film: 7, over: null, follows: true, course: false } },
    { type: 'wants', wants: { uri: null, film: 'a'.repeat(100_001), over: null, follows: true, course: false } },
    { type: 'reveal', uri: 'a'.repeat(100_001), line: 3, how: 'go' },
    { type: 'reveal', uri: 'file:///a.hoof', line: 1e9, how: 'go' },
    { type: 'heel', uri: 'file:///a.hoof', version: 1, line: 2, mm: 1e6 },
    { type: 'marker', mm: 0.5 },
    { type: 'marker', mm: 1001 },
    { type: 'marker', mm: '80' },
    { type: 'begin', what: 'workbench.action.quit' },
    { type: 'save', uri: 'file:///a.hoof', kind: 'exe', name: 'course', content: '' },
    { type: 'save', uri: 'file:///a.hoof', kind: 'svg', name: '../course', content: '<svg/>' },
    { type: 'save', uri: 'file:///a.hoof', kind: 'svg', name: '', content: '<svg/>' },
  ])('does not believe %j from the page', (data) => {
    expect(readPageMessage(data)).toBeNull();
  });

  it('reads what the page sends', () => {
    const wants = { uri: 'file:///a.hoof', film: 'film\nLF', over: null, follows: true, course: false };
    for (const type of ['ready', 'wants']) expect(readPageMessage({ type, wants })).toEqual({ type, wants });
    const reveal = { type: 'reveal', uri: 'file:///a.hoof', line: 3, how: 'follow' };
    expect(readPageMessage(reveal)).toEqual(reveal);
    const print = { type: 'save', uri: 'file:///a.hoof', kind: 'print', name: 'juniper', content: '<svg/>' };
    expect(readPageMessage(print)).toEqual(print);
    const marker = { type: 'marker', mm: 80 };
    expect([readPageMessage(marker), readHostMessage(marker)]).toEqual([marker, marker]);
  });

  it('takes what is to be saved up to its bound, and nothing larger', () => {
    const save = {
      type: 'save',
      uri: 'file:///a.hoof',
      kind: 'png',
      name: fileNameOf('O’Malley’s “Juniper”', 'Left fore', 'course'),
    };
    expect(save.name).toBe('o-malley-s-juniper-left-fore-course');
    const largest = { ...save, content: 'A'.repeat(LARGEST_SAVED) };
    expect(readPageMessage(largest)).toEqual(largest);
    expect(readPageMessage({ ...save, content: 'A'.repeat(LARGEST_SAVED + 1) })).toBeNull();
  });

  it.each(['', '···', '🐴', '-x', 'Žofie', '  ', 'a'.repeat(200)])(
    'makes of %j a name that may be saved under',
    (name) => {
      const save = { type: 'save', uri: 'file:///a.hoof', kind: 'csv', name: fileNameOf(name), content: '' };
      expect(readPageMessage(save)).toEqual(save);
    },
  );

  it('reads a state that the page kept, and none that something else left', () => {
    const state = {
      uri: 'file:///a.hoof',
      film: null,
      cut: 'plan\n2026-03-04\n0',
      over: 'normal',
      hidden: ['bones'],
      shows: { picture: true, drawing: false, lettering: true },
      scroll: 12,
    };
    expect(readPageState(state)).toEqual(state);
    const course = { ...state, view: 'course', course: { foot: 'LF', measures: ['toe-length'] } };
    expect(readPageState(course)).toEqual(course);
    const placing = { film: null, wanted: [], step: null, skipped: [], sights: {}, lights: {}, snaps: false };
    const told = { ...state, placing: { ...placing, marker: 80, toes: { 'a.png': 'left' } } };
    expect(readPageState(told)).toEqual(told);
    // An earlier version assumed a length: what it kept is none that anybody has written.
    expect(readPageState({ ...state, placing: { ...placing, markerMm: 100 } })).toEqual({ ...state, placing });
    expect(readPageState({ ...state, view: 'none' })).toBeNull();
    expect(readPageState({ ...state, shows: {} })).toBeNull();
    expect(readPageState(undefined)).toBeNull();
  });
});

describe('a wish to place from the page', () => {
  const tip = (x: number, y: number) => ({ kind: 'landmark', name: 'p3.tip', at: { x, y } });
  const long = 'x'.repeat(100_001);

  it('is let through up to its bounds', () => {
    const far = { ...place, placements: [tip(100_000, -100_000)] };
    expect(readPageMessage(far)).toEqual(far);
    const heel = { type: 'heel', uri: 'file:///a.hoof', version: 1, line: 3, mm: 60 };
    expect(readPageMessage(heel)).toEqual(heel);
  });

  it.each<[string, object]>([
    ['a place beyond any picture', { placements: [tip(100_001, 0)] }],
    ['a place without end', { placements: [tip(Infinity, 0)] }],
    ['a place that is no number', { placements: [tip(NaN, 0)] }],
    ['one landmark twice', { placements: [tip(1, 2), tip(3, 4)] }],
    [
      'more than a film holds',
      { placements: Array.from({ length: 201 }, (_, n) => ({ ...tip(1, 2), name: `x${n}` })) },
    ],
    ['a name without end', { placements: [{ ...tip(1, 2), name: long }] }],
    ['a foot that is none', { film: { ...place.film, foot: 'XX' } }],
    ['a view that is none', { film: { ...place.film, view: 'above' } }],
    ['a reader without end', { film: { ...place.film, reader: long } }],
    ['a picture without end', { film: { ...place.film, picture: long } }],
    ['a line beyond any file', { film: { ...place.film, line: 10_000_001 } }],
    ['a file without end', { uri: long }],
    ['a count that is none', { id: 0.5 }],
  ])('is passed over with %s', (_, change) => {
    expect(readPageMessage(place)).not.toBeNull();
    expect(readPageMessage({ ...place, ...change })).toBeNull();
  });

  it('is passed over where it lowers the heel by more than a plan may', () => {
    const heel = { type: 'heel', uri: 'file:///a.hoof', version: 1, line: 3 };
    expect(readPageMessage({ ...heel, mm: 60.1 })).toBeNull();
    expect(readPageMessage({ ...heel, part: 'from', mm: 90 })).toEqual({ ...heel, part: 'from', mm: 90 });
    expect(readPageMessage({ ...heel, part: 'from', mm: 300.1 })).toBeNull();
    expect(readPageMessage({ type: 'history', uri: long, how: 'undo' })).toBeNull();
  });
});
