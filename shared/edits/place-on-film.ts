import { sayChoice } from '../language/choice-words.ts';
import { t } from '../language/words.ts';
import { outside, sayRange } from '../notation/in-range.ts';
import { findLandmark, landmarks } from '../notation/landmarks.ts';
import { startWithRemarks } from '../notation/line-bounds.ts';
import type { Edit } from '../notation/problems.ts';
import { pixelSize } from '../notation/ranges.ts';
import {
  isGroup,
  isStatement,
  type Block,
  type Group,
  type Item,
  type PlacedBlock,
  type Span,
  type Statement,
  type Tree,
} from '../notation/tree.ts';
import { columnOf, landmarkColumn, padded } from '../notation/format.ts';
import type { XY } from '../views/film-sheet.ts';
import { placingBounds } from './placing-bounds.ts';
import type { Placement } from './placing-schema.ts';
import { writtenSpread } from './tenth.ts';

/** Which reading of which film; the line is that of the film's header, from 0, and the rest tells whether it is still that film. */
export interface FilmAddress {
  readonly line: number;
  readonly picture: string;
  readonly foot: string;
  readonly view: string;
  /** Null for the landmarks outside any `read`. */
  readonly reader: string | null;
}

export type PlacingEdits = { readonly edits: readonly Edit[] } | { readonly refused: string };

/**
 * The changes of text that write placements into a film, offsets in the whole text, in its order. Nothing else of the text changes: a coordinate is replaced where it stands, a new line is laid out as the
 * formatter would lay it, and a remark behind a line that goes stays as a remark.
 */
export function placeOnFilm(
  { text, blocks }: Tree,
  address: FilmAddress,
  placements: readonly Placement[],
): PlacingEdits {
  const film = filmAt(blocks, address);
  if ('refused' in film) return film;
  const home = readingIn(film.group, address);
  if ('refused' in home) return home;
  const wrong = placements.map((placement) => refusal(placement, address)).find((says) => says !== null);
  if (wrong) return { refused: wrong };
  if (placements.some((placement) => lacksLength(film, placement)))
    return { refused: t('Nothing says how long the marker is. Write its length, then place its two ends.') };
  const parting = placements.map((placement) => partingLine(film.group, placement)).find((says) => says !== null);
  if (parting) return { refused: parting };
  const lineEnd = /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
  const desk: Desk = {
    block: film.placed.block,
    film: film.group,
    reading: home.group,
    depth: home.group === film.group ? 2 : 3,
    lineEnd,
  };
  const edits: Edit[] = [];
  for (const placement of [...placements].sort((a, b) => rank(a) - rank(b))) edits.push(...editsFor(desk, placement));
  const from = film.placed.start;
  // A new line before one that goes comes before it; new lines at one place stay in their order.
  edits.sort((a, b) => a.start - b.start || a.end - b.end);
  return { edits: edits.map(({ start, end, text }) => ({ start: start + from, end: end + from, text })) };
}

interface Desk {
  readonly block: Block;
  readonly film: Group;
  /** The `read` block, or the film itself for the unnamed reader. */
  readonly reading: Group;
  readonly depth: number;
  readonly lineEnd: string;
}

const order: ReadonlyMap<string, number> = new Map(landmarks.map(({ word }, index) => [word, index]));
const indexOf = (name: string): number => order.get(name) ?? Infinity;

/** Scale, ground, bearing, then the landmarks in their order, which is how a film is written. */
function rank(placement: Placement): number {
  switch (placement.kind) {
    case 'marker':
      return -3;
    case 'ground':
      return -2;
    case 'bearing':
      return -1;
    case 'landmark':
      return indexOf(placement.name);
  }
}

function filmAt(
  blocks: readonly PlacedBlock[],
  address: FilmAddress,
): { readonly placed: PlacedBlock; readonly group: Group } | { readonly refused: string } {
  const films = blocks.flatMap((placed) =>
    placed.block.entries
      .filter(isGroup)
      .filter((group) => isThatFilm(group, address))
      .map((group) => ({ placed, group })),
  );
  const there = films.find(({ placed, group }) => placed.line + group.header.line === address.line);
  // Lines above it may have come or gone: one that is alike is the same film, of two nobody knows.
  const [only] = films;
  if (there) return there;
  if (only && films.length === 1) return only;
  return {
    refused: `The film “${address.picture}” is not where it was in the text, so nothing was written. Look at the text, then place it again.`,
  };
}

function isThatFilm({ row, header }: Group, { picture, foot, view }: FilmAddress): boolean {
  const said = (name: string): string | null => {
    const item = header.args.get(name)?.[0];
    return item?.kind === 'text' ? item.value : item?.kind === 'word' ? item.image : null;
  };
  return (
    (row.word === 'film' || row.word === 'photo') &&
    header.whole &&
    said('path') === picture &&
    said('foot') === foot &&
    said('view') === view
  );
}

function readingIn(film: Group, { reader }: FilmAddress): { readonly group: Group } | { readonly refused: string } {
  if (reader === null) return { group: film };
  const mine = film.entries.filter(isGroup).filter((group) => readerOf(group) === reader);
  const [only] = mine;
  if (only && mine.length === 1) return { group: only };
  return {
    refused: only
      ? `Two readings of this film are both by “${reader}”, so nothing was written. Give one of them another name.`
      : `There is no reading by “${reader}” in this film any more, so nothing was written. Choose the film again.`,
  };
}

function readerOf({ header }: Group): string {
  const item = header.args.get('reader')?.[0];
  return item?.kind === 'text' ? item.value : '';
}

function refusal(placement: Placement, { view }: FilmAddress): string | null {
  if (placement.kind === 'landmark') {
    const landmark = findLandmark(placement.name);
    if (landmark?.view !== view)
      return t('There is no landmark “{0}” in the {1} view, so nothing was written.', placement.name, sayChoice(view));
    return placement.at && !isPlace(placement.at) ? noPlace() : null;
  }
  if (!placement.ends) return null;
  const [from, to] = placement.ends;
  if (!isPlace(from) || !isPlace(to)) return noPlace();
  if (written(from) === written(to))
    return t(
      'The two ends of the {0} are the same point. Place them further apart.',
      placement.kind === 'marker' ? 'marker' : t('{0} line', placement.kind),
    );
  return placement.kind === 'marker' && placement.mm !== null ? markerRefusal(placement.mm, from, to) : null;
}

function markerRefusal(mm: number, from: XY, to: XY): string | null {
  if (!isMarker(mm)) return t('A marker is from 1 mm to 1000 mm long. Write its length, then place its two ends.');
  return outside(mm / Math.hypot(to.x - from.x, to.y - from.y), pixelSize)
    ? t(
        'By these two ends and {0} mm no pixel would have a size that pixels have ({1}). Place the ends of the marker, or write its length.',
        mm,
        sayRange(pixelSize),
      )
    : null;
}

/** A marker that keeps its length, where none is written that it could keep. */
function lacksLength({ placed, group }: { placed: PlacedBlock; group: Group }, placement: Placement): boolean {
  if (placement.kind !== 'marker' || !placement.ends || placement.mm !== null) return false;
  return lengthWritten({ block: placed.block, film: group }) === null;
}

/** The length of the film's marker with its unit, as it is written; null where it has no marker. */
function lengthWritten({ block, film }: Pick<Desk, 'block' | 'film'>): string | null {
  const scale = film.entries
    .filter(isStatement)
    .find(({ kind, word, whole }) => kind === 'statement' && word === 'scale' && whole);
  const length = scale?.args.get('marker')?.[0] && block.lines[scale.line]?.items[1];
  return length ? block.text.slice(length.start, length.end) : null;
}

/** A line of the film may be all that parts a reader's landmarks from those outside any `read`: then it cannot go. */
function partingLine({ entries }: Group, placement: Placement): string | null {
  if (placement.kind === 'landmark' || placement.ends) return null;
  const word = placement.kind === 'marker' ? 'scale' : placement.kind;
  const at = entries.findIndex((one) => isStatement(one) && one.kind === 'statement' && one.word === word && one.whole);
  const [before, after] = [entries[at - 1], entries[at + 1]];
  if (at < 0 || !before || !isGroup(before) || !after || !isStatement(after)) return null;
  if (after.kind !== 'placing' && after.kind !== 'unknown') return null;
  return t(
    'Without the {0} line what stands below it would be the reading by “{1}”, so nothing was written. In the text move what stands below above the first reading, then take it away.',
    word,
    readerOf(before),
  );
}

const noPlace = (): string => t('That is no place on a picture, so nothing was written.');
const isPlace = ({ x, y }: XY): boolean => Math.abs(x) <= placingBounds.px && Math.abs(y) <= placingBounds.px;
const isMarker = (mm: number): boolean => mm >= placingBounds.marker.low && mm <= placingBounds.marker.high;

/** Without a zero that says nothing. */
const figure = (value: number): string => String(Math.round(value * 10) / 10 + 0);

const written = ({ x, y }: XY): string => `${figure(x)}, ${figure(y)}`;
const segment = ([from, to]: readonly [XY, XY]): string => `${written(from)} .. ${written(to)}`;
const aligned = ({ x, y }: XY): string => `${padded(figure(x))}, ${padded(figure(y))}`;

function editsFor(desk: Desk, placement: Placement): Edit[] {
  switch (placement.kind) {
    case 'landmark':
      return landmarkEdits(desk, placement);
    case 'ground':
    case 'bearing': {
      const { ends, kind } = placement;
      return statementEdits(desk, kind, 'line', ends && segment(ends), () => null);
    }
    case 'marker': {
      const { ends, mm } = placement;
      const length = mm === null ? lengthWritten(desk) : `${String(Math.round(mm * 100) / 100)} mm`;
      if (ends && length === null) return [];
      const whole = ends && `${length} = ${segment(ends)}`;
      return statementEdits(desk, 'scale', 'marker', whole, (marker, known) =>
        whole === null ? null : { start: known.start, end: marker.end, text: whole },
      );
    }
  }
}

function landmarkEdits(desk: Desk, placement: Extract<Placement, { kind: 'landmark' }>): Edit[] {
  const { name, at, spread, followed } = placement;
  const placings = desk.reading.entries.filter(isStatement).filter(({ kind }) => kind === 'placing');
  const same = placings.filter(({ word }) => word === name);
  const known = same.find(({ whole }) => whole);
  if (known) {
    if (!at) return [removal(desk, known)];
    const point = known.args.get('point')?.[0];
    return point ? [replacement(desk, known, point, at, placement)] : [];
  }
  if (!at) return [];
  // A name that stands there and waits for its place gets it.
  const waiting = same.find(({ line }) => !saysMore(desk.block.lines[line]?.items ?? []));
  const spoken = `${`${name} `.padEnd(landmarkColumn)}@ ${aligned(at)}${spreadWords(spread)}${followedWord(followed)}`;
  if (waiting) return [settled(desk, waiting, waiting.start, spoken)];
  return [
    inserted(
      desk,
      spoken,
      landmarkAnchor(
        desk,
        placings.filter(({ whole }) => whole),
        name,
      ),
    ),
  ];
}

/** Whether a line of a landmark has more than its name and the sign. */
const saysMore = (items: readonly Item[]): boolean =>
  items.slice(1).some((item) => !(item.kind === 'sign' && item.image === '@'));

/** Behind a place: ` +- 0.6`; nothing where none is given. */
const spreadWords = (spread: number | null | undefined): string =>
  spread === null || spread === undefined ? '' : ` +- ${figure(writtenSpread(spread))}`;

const followedWord = (followed: true | undefined): string => (followed ? ' followed' : '');

function replacement(
  desk: Desk,
  statement: Statement,
  point: Span,
  at: XY,
  { spread, followed }: Extract<Placement, { kind: 'landmark' }>,
): Edit {
  const { text } = desk.block;
  // As the formatter has it, figures stand under one another; where a hand laid the line out otherwise, that stays.
  const before = /@( +)$/.exec(text.slice(statement.start, point.start));
  const old = text.slice(point.start, point.end);
  const start = before?.[1] ? point.start - before[1].length : point.start;
  const [x = '', y = ''] = old.split(',').map((part) => part.trim());
  const isLaidOut = before !== null && text.slice(start, point.end) === ` ${padded(x)}, ${padded(y)}`;
  // The spread that is written stays, unless another one or none is asked for, or it was told of a place that was followed.
  const said = statement.args.item('spread', 1);
  const word = statement.args.item('followed');
  const last = word ?? (followed || spread !== undefined ? said : undefined);
  const end = last?.end ?? point.end;
  const kept = followed && spread === undefined && said ? text.slice(point.end, said.end) : spreadWords(spread);
  const added = `${kept}${followedWord(followed)}`;
  return withRemark(
    desk,
    statement,
    isLaidOut
      ? { start, end, text: ` ${aligned(at)}${added}` }
      : { start: point.start, end, text: `${written(at)}${added}` },
  );
}

/** A statement of the film that may be said once; the first that is whole counts. */
function statementEdits(
  desk: Desk,
  word: 'ground' | 'bearing' | 'scale',
  argument: string,
  said: string | null,
  within: (argument: Item, first: Item) => Edit | null,
): Edit[] {
  const mine = desk.film.entries.filter(isStatement).filter((one) => one.kind === 'statement' && one.word === word);
  // A word that stands there and waits for its place gets it.
  const known = mine.find(({ whole }) => whole) ?? mine.find(({ line }) => desk.block.lines[line]?.items.length === 1);
  const laidOut = `${`${word} `.padEnd(columnOf('film'))}${said}`;
  if (!known)
    return said === null
      ? []
      : [inserted({ ...desk, reading: desk.film, depth: 2 }, laidOut, statementAnchor(desk, word))];
  if (said === null) return [removal(desk, known)];
  const part = known.args.get(argument)?.[0];
  const first = desk.block.lines[known.line]?.items[1];
  const inside = part && first ? within(part, first) : null;
  if (inside) return [withRemark(desk, known, inside)];
  return [first ? settled(desk, known, first.start, said) : settled(desk, known, known.start, laidOut)];
}

/** The rest of a statement from `start` on, said anew. */
function settled(desk: Desk, statement: Statement, start: number, text: string): Edit {
  return withRemark(desk, statement, { start, end: statement.end, text });
}

/** A remark behind the line keeps its column as long as there is room. */
function withRemark(desk: Desk, statement: Statement, edit: Edit): Edit {
  const remark = desk.block.lines[statement.line]?.comment;
  if (!remark) return edit;
  const between = desk.block.text.slice(edit.end, remark.start);
  const blanks = /^(.*?)( +)$/s.exec(between);
  if (!blanks?.[2]) return edit;
  const grown = edit.text.length - (edit.end - edit.start);
  const room = Math.max(blanks[2].length - grown, Math.min(2, blanks[2].length));
  return { start: edit.start, end: remark.start, text: edit.text + (blanks[1] ?? '') + ' '.repeat(room) };
}

/** The whole line goes; what was remarked behind it stays. */
function removal(desk: Desk, statement: Statement): Edit {
  const line = desk.block.lines[statement.line];
  if (!line) return { start: statement.start, end: statement.end, text: '' };
  if (line.comment) return { start: statement.start, end: line.comment.start, text: '' };
  return { start: line.start, end: line.end, text: '' };
}

/** After a statement or, where `before` is set, before it. */
interface Anchor {
  readonly statement: Statement;
  readonly before?: true;
}

function landmarkAnchor({ film, reading }: Desk, placings: readonly Statement[], name: string): Anchor {
  const index = indexOf(name);
  let low: Statement | null = null;
  let high: Statement | null = null;
  for (const one of placings) {
    const at = indexOf(one.word);
    if (at < index && (!low || at > indexOf(low.word))) low = one;
    if (at > index && (!high || at < indexOf(high.word))) high = one;
  }
  if (low) return { statement: low };
  if (high) return { statement: high, before: true };
  return reading === film ? statementAnchor({ film }, 'landmark') : { statement: reading.header };
}

const opening = ['taken', 'scale', 'magnify', 'ground', 'bearing'];

/** Behind the last of what a film begins with and that stands before `word`. */
function statementAnchor({ film }: Pick<Desk, 'film'>, word: string): Anchor {
  const earlier = word === 'landmark' ? opening : opening.slice(0, opening.indexOf(word));
  let anchor = film.header;
  for (const entry of film.entries) {
    // What follows a reader's name would be that reader's.
    if (isGroup(entry)) break;
    if (isStatement(entry) && earlier.includes(entry.word)) anchor = entry;
  }
  return { statement: anchor };
}

function inserted({ block, depth, lineEnd }: Desk, said: string, { statement, before }: Anchor): Edit {
  const line = block.lines[statement.line];
  const text = `${'  '.repeat(depth)}${said}`;
  const start = line ? (before ? startWithRemarks(block.text, line.start) : line.end) : block.text.length;
  // The last line of a file may have no end of its own.
  const open = !before && start > 0 && !/[\r\n]$/.test(block.text.slice(0, start));
  return { start, end: start, text: open ? `${lineEnd}${text}` : `${text}${lineEnd}` };
}
