import { t } from '../language/words.ts';
import { findLandmark, type PlainView } from '../notation/landmarks.ts';
import { decimal } from '../notation/decimal.ts';
import { isGroup, isStatement, type Entry, type Group, type Span, type Statement } from '../notation/tree.ts';
import type { FootName } from '../notation/choices.ts';
import * as read from './arguments.ts';
import { firstUnread } from './first-unread.ts';
import { cutToSize } from './cut-to-size.ts';
import type { RecordProblem } from './problems.ts';
import { refused } from './refused.ts';
import type { Expectation, Film, Placing, ListedPicture, Reading, Scale, Setup } from './schema.ts';

/** A `film` or `photo` group as a record. Null where its header does not say which foot, view and picture. */
export function bindPicture(group: Group, problems: RecordProblem[]): Film | null {
  const { header } = group;
  const path = read.textOf(header, 'path');
  const foot = read.wordOf(header, 'foot');
  const view = read.wordOf(header, 'view');
  if (!header.whole || !path || !foot || !view) return null;
  const film: Film = {
    kind: header.word === 'photo' ? 'photo' : 'film',
    foot: foot as FootName,
    view: view as Film['view'],
    path,
    taken: null,
    scale: null,
    magnify: null,
    ground: null,
    bearing: null,
    setup: null,
    readings: [],
    unreadAt: firstUnread(group.entries),
    expects: [],
    prose: [],
    head: read.spanOf(header.head),
    at: read.spanOf(group),
    line: header.line,
  };
  const unnamed: Reading = { reader: null, spread: null, placings: [], at: film.head };

  const place = (statement: Statement, reading: Reading): void => {
    const placing = bindPlacing(statement);
    if (!placing) return;
    const earlier = placed(placing.name, reading);
    if (earlier) {
      problems.push({
        code: 'record/duplicate-landmark',
        at: read.spanOf(statement.head),
        message: t(
          '«{0}» is placed twice in this reading; the first placing counts. Remove one of the two, or give the second to another reader with `read`.',
          placing.name,
        ),
        fixes: [{ title: t('Remove this line'), edits: [{ ...read.spanOf(statement), text: '', wholeLine: true }] }],
        related: [{ at: earlier.at, message: t('Placed here first.') }],
      });
      return;
    }
    reading.placings.push(placing);
  };

  for (const entry of group.entries) {
    if (entry.kind === 'prose') film.prose.push({ text: entry.image.slice(1).trim(), at: read.spanOf(entry) });
    else if (isGroup(entry)) {
      const reading = bindReader(entry);
      entry.entries.filter(isStatement).forEach((statement) => place(statement, reading));
      film.readings.push(reading);
    } else if (entry.kind === 'placing') place(entry, unnamed);
    else if (entry.whole) bindWord(film, entry, problems);
  }
  if (unnamed.placings.length > 0 || film.readings.length === 0) film.readings.unshift(unnamed);
  for (const reading of film.readings) reading.placings = cutToSize(reading.placings);
  film.readings = cutToSize(film.readings);
  return film;
}

/** A view has a few dozen landmarks at most, so that looking through them is faster than a map for each reading. */
function placed(name: string, { placings }: Reading): Placing | undefined {
  for (let index = 0; index < placings.length; index++) {
    const placing = placings[index];
    if (placing?.name === name) return placing;
  }
  return undefined;
}

function bindReader(group: Group): Reading {
  const spread = read.spreadOf(group.header, 'spread');
  return {
    reader: read.textOf(group.header, 'reader')?.text ?? '',
    spread: spread ? decimal(spread.number.image) : null,
    placings: [],
    at: read.spanOf(group.header),
  };
}

function bindPlacing(statement: Statement): Placing | null {
  const point = read.pointOf(statement, 'point');
  const landmark = findLandmark(statement.word);
  if (!statement.whole || !point || !landmark) return null;
  const spread = read.spreadOf(statement, 'spread');
  const followed = statement.args.item('followed');
  return {
    name: landmark.word,
    x: point.x,
    y: point.y,
    spread: spread ? decimal(spread.number.image) : null,
    ...(followed && { followed: read.spanOf(followed) }),
    at: read.spanOf(statement),
  };
}

function bindWord(film: Film, statement: Statement, problems: RecordProblem[]): void {
  const problem = refused(statement);
  if (problem) {
    problems.push(problem);
    return;
  }
  switch (statement.word) {
    case 'taken':
      film.taken = read.dateOf(statement, 'date')?.date ?? null;
      break;
    case 'scale':
      film.scale = bindScale(statement);
      break;
    case 'magnify':
      film.magnify = read.numberOf(statement, 'factor');
      break;
    case 'ground':
      film.ground = read.segmentOf(statement, 'line');
      break;
    case 'bearing':
      film.bearing = read.segmentOf(statement, 'line');
      break;
    case 'paste':
      setupOf(film).paste = read.textOf(statement, 'text')?.text ?? '';
      break;
    case 'block':
      setupOf(film).block = read.quantityOf(statement, 'height', 'length');
      break;
    case 'focus':
      setupOf(film).focus = read.quantityOf(statement, 'distance', 'length');
      break;
    case 'beam':
      setupOf(film).beam = read.pointOf(statement, 'centre');
      break;
    case 'standing':
      setupOf(film).standing = read.textOf(statement, 'text')?.text ?? null;
      break;
    case 'expect': {
      const expectation = bindExpectation(statement);
      if (expectation) film.expects.push(expectation);
      break;
    }
  }
}

function setupOf(film: Film): Setup {
  return (film.setup ??= { paste: null, block: null, focus: null, beam: null, standing: null });
}

/** A picture of a view that is not measured. What would be measured from counts for nothing there, and is told. */
export function bindPlainPicture(group: Group, view: PlainView, problems: RecordProblem[]): ListedPicture | null {
  const bound = bindPicture(group, []);
  if (!bound) return null;
  for (const entry of group.entries)
    if (isStatement(entry) && entry.whole && measuredWith.has(entry.word))
      problems.push({
        code: 'record/not-measured',
        at: read.spanOf(entry.head),
        message: t(
          'A {0} is shown and listed, and not measured: «{1}» counts for nothing here. Remove the line, or name one of the views that are measured.',
          view,
          entry.word,
        ),
        fixes: [{ title: t('Remove this line'), edits: [{ ...read.spanOf(entry), text: '', wholeLine: true }] }],
      });
  const { kind, foot, path, taken, setup, prose, head, at, line } = bound;
  return { kind, foot, view, path, taken, setup, prose, head, at, line };
}

const measuredWith: ReadonlySet<string> = new Set(['scale', 'magnify', 'ground', 'bearing', 'expect']);

function bindScale(statement: Statement): Scale {
  const at = read.spanOf(statement);
  const pixel = read.quantityOf(statement, 'pixel', 'resolution');
  const length = read.quantityOf(statement, 'known length', 'length');
  const marker = read.segmentOf(statement, 'marker');
  if (statement.args.has('bone')) return { kind: 'bone', at };
  if (pixel) return { kind: 'pixel', mmPerPx: pixel.base, at };
  return length && marker ? { kind: 'marker', length, marker, at } : { kind: 'dicom', at };
}

export function bindExpectation(statement: Statement): Expectation | null {
  const [measure] = read.wordsOf(statement, 'measure');
  const quantity = read.quantityOf(statement, 'value');
  if (!measure || !quantity) return null;
  return {
    measure: measure.word,
    measureAt: measure.at,
    quantity,
    tolerance: read.spreadQuantityOf(statement, 'tolerance'),
    at: read.spanOf(statement),
  };
}

export function proseIn(entries: readonly Entry[]): { text: string; at: Span }[] {
  return entries.flatMap((entry) =>
    entry.kind === 'prose' ? [{ text: entry.image.slice(1).trim(), at: read.spanOf(entry) }] : [],
  );
}
