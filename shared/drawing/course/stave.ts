import { shownDate } from '../../language/dates.ts';
import { t } from '../../language/words.ts';
import { spokenRows } from '../../language/rows.ts';
import { changesTo } from './changes-to.ts';
import { COURSE_RULES } from './course-ink.ts';
import { fitted, widthInEm, wrapped } from '../plate/lettering.ts';
import { group, type Box, type GroupNode, type Scene, type SceneNode } from '../scene.ts';
import { rowMarks, type RowPlace } from './row-marks.ts';
import { seriesOf, type StaveInput, type StaveRow } from './stave-input.ts';
import { timeLine, timeLineHeight } from './time-line.ts';
import { timeScale } from './time-scale.ts';
import { valueDomain, valueScale, valueTicks } from './value-scale.ts';

/** A drawn stave, and where the cursor stops on it. */
export interface Stave {
  readonly scene: Scene;
  /** Pixels from the left of the view, one a stop. */
  readonly stops: readonly number[];
  /** The cursor at one of the stops, on the same view: to be laid over the scene. */
  cursor(stop: number): Scene;
}

/** Size of the letters, CSS pixels. */
const EM = 13;
const ROW = 58;
/** More trims than this would rule the rows like a ledger; the notches tell them still. */
const MANY_TRIMS = 16;
/** Below this width the words stand above their row, not beside it. */
const NARROW = 700;

interface StaveLayout {
  readonly rows: readonly (RowPlace & { readonly row: StaveRow })[];
  /** Where the words of a row begin, and where what the cursor reads begins or ends. */
  readonly wordsWidth: number;
  readonly isNarrow: boolean;
  readonly top: number;
  readonly lineY: number;
  readonly view: Box;
}

export function drawStave(input: StaveInput): Stave {
  const layout = layOut(input);
  const { time } = layout.rows[0] ?? {
    time: timeScale(
      input.stops.map(({ day }) => day),
      { left: 0, right: input.width, em: EM, ahead: false },
    ),
  };
  const { rows, lineY, view } = layout;
  const [first] = rows;
  const left = first?.left ?? 0;
  const right = first?.right ?? input.width;
  const trims = input.trims.length > MANY_TRIMS ? [] : input.trims.map(({ day }) => time.x(day));
  const hairs = rows.flatMap(({ top: from, bottom: to }) =>
    trims.map((x): SceneNode => ({
      kind: 'line',
      from: { x, y: from },
      to: { x, y: to },
      weight: 0.8,
      dash: [1, 5],
      classes: ['trim-hair'],
    })),
  );
  const scene = sceneOf(input, view, [
    ...(input.alone ? [heading(input.alone.heading)] : []),
    group(['trim-hairs'], hairs),
    ...rows.map((place) => drawRow(place, layout)),
    timeLine(time, input.trims, { left, right, y: lineY, em: EM }),
    ...(input.alone ? [key(input.alone.key, layout, input.width)] : []),
  ]);
  return {
    scene,
    stops: input.stops.map(({ day }) => time.x(day)),
    cursor: (stop) => sceneOf(input, view, [drawCursor(stop, input, layout)]),
  };
}

/** Both as one picture. */
export function withCursor(stave: Stave, stop: number): Scene {
  return { ...stave.scene, layers: [...stave.scene.layers, ...stave.cursor(stop).layers] };
}

function layOut({ width, stops, rows, trims, alone }: StaveInput): StaveLayout {
  const isNarrow = width < NARROW;
  const wordsWidth = isNarrow ? 0 : Math.min(0.2 * width, 190);
  const readWidth = isNarrow ? 0 : readingColumn(rows);
  const left = wordsWidth + 40;
  const right = width - readWidth - (isNarrow ? 2 : 12);
  const days = stops.map(({ day }) => day);
  const time = timeScale(
    [...days, ...trims.map(({ day }) => day)].sort((a, b) => a - b),
    {
      left,
      right,
      em: EM,
      ahead: rows.some((row) => seriesOf(row).some(({ trend }) => trend !== null)),
    },
  );
  const head = alone ? 34 : 0;
  const margin = alone ? 24 : 0;
  const top = head + 1.7 * EM;
  const above = isNarrow ? 1.6 * EM : 0;
  const pitch = ROW + above + (isNarrow ? 10 : 16);
  const placed = rows.map((row, index) => {
    const rowTop = top + index * pitch + above;
    const bottom = rowTop + ROW;
    return {
      row,
      left,
      right,
      top: rowTop,
      bottom,
      em: EM,
      time,
      scale: valueScale(valueDomain([row], time.horizon), rowTop, bottom),
    };
  });
  const lineY = top + rows.length * pitch + 2;
  const height = lineY + timeLineHeight(EM) + 4 + (alone ? keyLines(alone.key, width).length * 1.3 * EM + 12 : 0);
  return {
    rows: placed,
    wordsWidth,
    isNarrow,
    top,
    lineY,
    view: { x: -margin, y: -margin / 2, width: width + 2 * margin, height: height + margin },
  };
}

/** What the cursor reads in a row on one day. */
interface RowReading {
  readonly day: number;
  readonly y: number | null;
  readonly value: string;
  /** How it changed. */
  readonly since: string;
  readonly clear: boolean;
  /** The same measure taken in another way on that day. */
  readonly also: string;
}

/** A reading for each day; the first series that has a value then is read, the others stand beside it. */
function readings(row: StaveRow): ReadonlyMap<number, RowReading> {
  const byDay = new Map<number, RowReading>();
  const alone = row.beside.length === 0;
  for (const { points, changes, sourceWords } of seriesOf(row)) {
    const changesAt = changesTo(changes);
    const own = new Map<number, RowReading>();
    points.forEach(({ day, text: figures, value: y }, index) => {
      const change = changesAt.get(index);
      own.set(day, {
        day,
        y,
        value: alone || sourceWords === '' ? figures : `${figures} ${sourceWords}`,
        since: change
          ? `${change.text} ${change.doubted ? t('scale in doubt') : change.clear ? t('clear') : t('within the error')}${change.shoe ? t(', other shoe') : ''}`
          : '',
        clear: change?.clear === true,
        also: '',
      });
    });
    for (const [day, reading] of own) {
      const before = byDay.get(day);
      byDay.set(day, before ? { ...before, also: [before.also, reading.value].filter(Boolean).join(', ') } : reading);
    }
  }
  return byDay;
}

const absent: Omit<RowReading, 'day'> = spokenRows(
  [{ y: null, value: 'not measured', since: '', clear: false, also: '' }],
  'value',
)[0];

/** Pixels. Bold figures are a little wider. */
const valueWidth = (value: string): number => widthInEm(value) * EM * 1.04;
const sinceWidth = (since: string): number => widthInEm(since) * EM * 0.88;

function readingColumn(rows: readonly StaveRow[]): number {
  return widest([absent, ...rows.flatMap((row) => [...readings(row).values()])], ({ value, since, also }) =>
    Math.max(valueWidth(value), sinceWidth(since), sinceWidth(also)),
  );
}

/** On one line: the widest that the cursor will read. */
function readingLine(row: StaveRow): number {
  return widest([absent, ...readings(row).values()], ({ value, since, also }) => {
    const small = also || since;
    return valueWidth(value) + (small ? sinceWidth(small) + GAP : 0);
  });
}

/** Not by `Math.max(...)`: more films than a call takes arguments are possible. */
function widest<T>(all: readonly T[], width: (one: T) => number): number {
  return all.reduce((most, one) => Math.max(most, width(one)), 0);
}

const GAP = 0.7 * EM;

function sceneOf({ title, description }: StaveInput, view: Box, layers: readonly GroupNode[]): Scene {
  return {
    view,
    title,
    description,
    rules: COURSE_RULES,
    unit: 1,
    onPicture: false,
    ghost: false,
    layers,
    labelBoxes: [],
    cutBoxes: [],
  };
}

function text(
  words: string,
  x: number,
  y: number,
  more: { size?: number; anchor?: 'start' | 'middle' | 'end'; classes?: readonly string[] } = {},
): SceneNode {
  const { size = EM, anchor = 'start', classes = [] } = more;
  return { kind: 'text', at: { x, y }, size, anchor, runs: [{ text: words }], classes };
}

function drawRow(place: StaveLayout['rows'][number], { isNarrow, wordsWidth, view }: StaveLayout): GroupNode {
  const { row, left, right, top, bottom, scale } = place;
  const nodes: SceneNode[] = [
    { kind: 'line', from: { x: left, y: top }, to: { x: left, y: bottom }, weight: 0.8, classes: ['scale'] },
    ...valueTicks(row, scale, 1.05 * EM).flatMap(({ value, text: figures, isLimit }): SceneNode[] => {
      const y = scale(value);
      return [
        { kind: 'line', from: { x: left - 4, y }, to: { x: left, y }, weight: 0.8, classes: ['scale'] },
        text(figures, left - 7, y + 0.33 * EM, {
          size: 0.84 * EM,
          anchor: 'end',
          classes: isLimit ? ['limit-figure'] : ['quiet'],
        }),
      ];
    }),
    ...rowMarks(row, { ...place, right }),
    ...(isNarrow ? narrowWords(row, place, view.x + view.width) : wideWords(row, place, wordsWidth)),
  ];
  return group(['stave-row'], nodes, { measure: row.measure });
}

const unitWords: Readonly<Record<StaveRow['unit'], string>> = { deg: '', mm: 'mm', '%': '%', '1': '' };

/** Where all values of a row were taken in one way that is not a film. */
const takenSo = ({ sourceWords, beside }: StaveRow): string => (beside.length === 0 ? sourceWords : '');

function wideWords(row: StaveRow, { top, bottom }: RowPlace, width: number): SceneNode[] {
  const { words, usualText, unit, note } = row;
  const lines = wrapped(words, width / EM - 0.5).slice(0, 2);
  const usual = usualText ? t('usual {0}', usualText) : [takenSo(row), unitWords[unit]].filter(Boolean).join(', ');
  const below = note === null ? [usual] : wrapped(note, width / (0.88 * EM) - 0.5);
  const said = below.filter((line) => line !== '').slice(0, 3 - lines.length + 1);
  const height = (lines.length + said.length) * 1.25 * EM;
  let y = (top + bottom) / 2 - height / 2 + 0.95 * EM;
  const nodes: SceneNode[] = [];
  for (const line of lines) {
    nodes.push(text(line, 0, y, { classes: ['words'] }));
    y += 1.25 * EM;
  }
  for (const line of said) {
    nodes.push(text(fitted(line, width / (0.88 * EM)), 0, y, { size: 0.88 * EM, classes: ['quiet'] }));
    y += 1.2 * EM;
  }
  return nodes;
}

/** The cursor's reading stands at the right end of the same line. */
function narrowWords(row: StaveRow, { top }: RowPlace, width: number): SceneNode[] {
  const { words, usualText, note } = row;
  const y = top - 0.5 * EM;
  const room = (width - readingLine(row)) / EM - 1;
  const said = fitted(words, Math.max(room, 6));
  const nodes = [text(said, 0, y, { classes: ['words'] })];
  const beside = note ?? (usualText ? t('usual {0}', usualText) : takenSo(row));
  const from = widthInEm(said) + 0.7;
  if (beside !== '' && widthInEm(beside) * 0.88 <= room - from)
    nodes.push(text(beside, from * EM, y, { size: 0.88 * EM, classes: ['quiet'] }));
  return nodes;
}

function heading(words: string): GroupNode {
  return group(['heading'], [text(words, 0, 18, { size: 1.25 * EM })]);
}

function keyLines(words: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && widthInEm(longer) * 0.88 * EM <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function key(words: string, { lineY }: StaveLayout, width: number): GroupNode {
  const y = lineY + timeLineHeight(EM) + 1.6 * EM;
  return group(
    ['key'],
    keyLines(words, width).map((line, index) =>
      text(line, 0, y + index * 1.3 * EM, { size: 0.88 * EM, classes: ['quiet'] }),
    ),
  );
}

function drawCursor(stop: number, { stops }: StaveInput, { rows, isNarrow, top, lineY, view }: StaveLayout): GroupNode {
  const at = stops[stop];
  const [first] = rows;
  if (!at || !first) return group(['cursor'], []);
  const x = first.time.x(at.day);
  const half = (widthInEm(at.date) * EM) / 2;
  const dateX = Math.min(Math.max(x, view.x + half), view.x + view.width - half);
  // Where the words stand above their row, the line leaves them clear.
  const stretches = isNarrow ? rows.map((row) => [row.top - 2, row.bottom + 2] as const) : [[top - 4, lineY] as const];
  const nodes: SceneNode[] = [
    ...stretches.map(([from, to]): SceneNode => ({
      kind: 'line',
      from: { x, y: from },
      to: { x, y: to },
      weight: 1,
      classes: ['cursor-line'],
    })),
    text(shownDate(at.date), dateX, top - 0.75 * EM, { anchor: 'middle', classes: ['cursor-date'] }),
  ];
  for (const { row, scale, top: rowTop, bottom, right } of rows) {
    const { y: level, value, since, clear, also } = readings(row).get(at.day) ?? absent;
    if (level !== null)
      nodes.push({
        kind: 'circle',
        centre: { x, y: scale(level) },
        radius: 6.5,
        weight: 1.1,
        classes: ['cursor-ring'],
      });
    const valueClasses = [level === null ? 'quiet' : 'reading'];
    const small = { size: 0.88 * EM, classes: [clear ? 'clear-word' : 'quiet'] };
    if (isNarrow) {
      const y = rowTop - 0.5 * EM;
      const end = view.x + view.width;
      // On one line there is room for one thing beside the value.
      const more = also || since;
      nodes.push(text(value, end - (more ? sinceWidth(more) + GAP : 0), y, { anchor: 'end', classes: valueClasses }));
      if (more) nodes.push(text(more, end, y, { ...small, ...(also && { classes: ['quiet'] }), anchor: 'end' }));
    } else {
      const lines = [value, since, also].filter((line) => line !== '').length;
      let y = (rowTop + bottom) / 2 + (0.35 - 0.45 * (lines - 1)) * EM;
      nodes.push(text(value, right + 12, y, { classes: valueClasses }));
      y += 1.25 * EM;
      if (since) nodes.push(text(since, right + 12, y, small));
      if (since) y += 1.25 * EM;
      if (also) nodes.push(text(also, right + 12, y, { size: 0.88 * EM, classes: ['quiet'] }));
    }
  }
  return group(['cursor'], nodes);
}
