import { dayNumber } from '../notation/dates.ts';
import { views } from '../notation/landmarks.ts';
import { startOfLine } from '../notation/line-bounds.ts';
import { isGroup, type Block, type Line, type PlacedBlock, type Tree } from '../notation/tree.ts';
import { feet } from '../notation/choices.ts';
import type { SaidOfFilm } from '../picture/dicom-said.ts';
import type { CaseRecord } from '../record/schema.ts';
import { linesFromFile } from './lines-from-file.ts';
import { quoted } from './quoted.ts';

/** A picture that somebody puts into a case. */
export interface NewPicture {
  /** Of its file, as it was called where it came from; empty where it had none. */
  readonly name: string;
  /** Its path from the case file's folder; null where it lies elsewhere and has to be copied. */
  readonly path: string | null;
  /** What its own file says, where it is a DICOM file. */
  readonly said?: SaidOfFilm | null;
}

export interface NewFilmContext {
  /** `YYYY-MM-DD`. */
  readonly today: string;
  /** The case file's name without its ending. */
  readonly caseName: string;
  /** Names of files that stand in the folder `films` already. */
  readonly taken: readonly string[];
}

export interface NewFilms {
  /**
   * What is replaced, and by which snippet: foot and view are choices in it, and what the picture's file says besides is lines that can
   * be left or deleted as a whole. Offsets in the file.
   */
  readonly start: number;
  readonly end: number;
  readonly snippet: string;
  /** For each picture the path that it is copied to, from the case file's folder; null where it stays where it is. */
  readonly copies: readonly (string | null)[];
}

/**
 * Film blocks for pictures that were put down at a place of the file: behind the films of the visit that the place is in,
 * else at that visit's end. Outside any visit they go into today's, which is made where there is none.
 */
export function newFilms(
  { text, blocks }: Tree,
  record: CaseRecord,
  offset: number,
  pictures: readonly NewPicture[],
  { today, caseName, taken }: NewFilmContext,
): NewFilms {
  const dates = new Map(record.visits.map(({ start, is }) => [start, is.date]));
  const dateOf = ({ start }: PlacedBlock): string | null => dates.get(start) ?? null;
  const isVisit = ({ block }: PlacedBlock): boolean => block.row?.word === 'visit';
  const here = blocks.findLast(({ start }) => start <= offset);
  const visit = here && isVisit(here) ? here : blocks.find((one) => isVisit(one) && dateOf(one) === today);
  const lineEnd = /\r?\n|\r/.exec(text)?.[0] ?? '\n';
  const day = (visit && dateOf(visit)) ?? today;

  const used = new Set(taken.map((name) => name.toLowerCase()));
  const firsts = pictures.map(firstChoices);
  const copies = pictures.map((picture, index) =>
    picture.path === null ? freeName(picture, caseName, day, used, firsts[index]?.foot) : null,
  );
  let stop = 0;
  const lines = pictures.flatMap(({ path, said }, index) => {
    const { foot = null, order = feet, view = null } = firsts[index] ?? {};
    const where = escaped(quoted(copies[index] ?? path ?? ''));
    const header = `  film ${choice(++stop, order, foot)} ${choice(++stop, views, view)} ${where}`;
    const more = linesFromFile(said ?? null, { day, today }).map((line) => `\${${++stop}:${lineEnd}${line}}`);
    return [...(index === 0 ? [] : ['']), header + more.join('')];
  });

  if (visit) {
    const { end, opens } = placeIn(visit.block);
    return put(text, visit.start + end, [...(opens ? [] : ['']), ...lines], lineEnd, copies);
  }
  // Nothing in the file yet but blank lines: it has to say first in which version it is written.
  const whole = text.trim() === '';
  const written = text.trimEnd().length;
  const after = /^[^\r\n]*(?:\r\n|\n|\r)?/.exec(text.slice(written))?.[0].length ?? 0;
  return put(
    text,
    whole ? 0 : written + after,
    [...(whole ? ['hoof 1', ''] : ['']), `visit ${today}`, ...lines],
    lineEnd,
    copies,
  );
}

const letters: Readonly<Record<string, string>> = { left: 'L', right: 'R', fore: 'F', hind: 'H' };

/**
 * What a film's choices begin with: what the name says, as a person gave it, else what the file does. Where that says a side and not
 * which of its two feet, the feet of that side come first. Whatever `said` holds, nothing comes out of it but feet and views.
 */
function firstChoices({ name, path, said }: NewPicture): {
  foot: string | null;
  order: readonly string[];
  view: string | null;
} {
  const named = guessed(name || (path ?? ''));
  const [side, limb] = [letters[said?.side ?? ''], letters[said?.limb ?? '']];
  const fitting = (foot: string): boolean => (!side || foot[0] === side) && (!limb || foot[1] === limb);
  const order = feet.toSorted((a, b) => Number(fitting(b)) - Number(fitting(a)));
  return {
    foot: named.foot ?? ((side && limb && order.find(fitting)) || null),
    order,
    view: named.view ?? views.find((one) => one === said?.view) ?? null,
  };
}

/** Behind which line of a visit a film goes, as the offset of that line's end in the block; and whether that is the header. */
function placeIn(block: Block): { end: number; opens: boolean } {
  const films = block.entries.filter((entry) => isGroup(entry) && ['film', 'photo'].includes(entry.row.word));
  const last = films.at(-1) ?? block.entries.at(-1) ?? block.header;
  const line =
    films.length > 0 && last
      ? lastLineOf(block, last.end)
      : block.lines.findLast(({ start }) => last && start < last.end);
  return { end: line?.end ?? 0, opens: last === block.header };
}

/** The last line of a film that ends at `end`: a remark below the last landmark belongs to its film. */
export function lastLineOf(block: Block, end: number): Line | undefined {
  let index = block.lines.findLastIndex(({ start }) => start < end);
  for (let next = block.lines[index + 1]; next && isRemarkWithin(next, block); index += 1)
    next = block.lines[index + 2];
  return block.lines[index];
}

function isRemarkWithin({ items, prose, comment, start }: Line, { text }: Block): boolean {
  return items.length === 0 && !prose && comment !== null && /^(?: {4}|\t)/.test(text.slice(start, comment.end));
}

/** Lines put behind the line that ends at `at`. */
function put(
  text: string,
  at: number,
  lines: readonly string[],
  lineEnd: string,
  copies: NewFilms['copies'],
): NewFilms {
  const all = `${lines.join(lineEnd)}$0${lineEnd}`;
  if (at === 0 || /[\r\n]/.test(text[at - 1] ?? '')) return { start: at, end: at, snippet: all, copies };
  // The last line has no end of its own. Replaced as a whole: an editor indents what is put behind its first words.
  const start = startOfLine(text, at);
  return { start, end: at, snippet: `${escaped(text.slice(start, at))}${lineEnd}${all}`, copies };
}

/** Foot and view, where the file's name says them as words of their own. */
export function guessed(name: string): { foot: string | null; view: string | null } {
  const words = name
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim();
  const said = / (left|right) (fore|front|hind) /.exec(` ${words} `);
  const short = / (lf|rf|lh|rh) /.exec(` ${words} `)?.[1];
  const foot = short ?? (said ? `${said[1]?.[0]}${said[2] === 'hind' ? 'h' : 'f'}` : null);
  // 'left front' names a foot, and no view.
  const rest = ` ${said ? words.replace(said[0].trim(), '') : words} `;
  const view = Object.entries(viewWords).find(([, pattern]) => pattern.test(rest))?.[0] ?? null;
  return { foot: foot?.toUpperCase() ?? null, view };
}

const viewWords: Readonly<Record<(typeof views)[number], RegExp>> = {
  lateral: / (?:lateral|lateromedial|mediolateral|lm|ml|side) /,
  front: / (?:front|frontal|dorsopalmar|dorsoplantar|dp) /,
  solar: / (?:solar|sole) /,
};

/**
 * `films/juniper-lf-2026-03-04.png`, with a number where that is there already; `used` learns the new one. The foot is guessed from
 * the picture's own name where nobody says it.
 */
export function freeName(
  { name }: Pick<NewPicture, 'name'>,
  caseName: string,
  day: string,
  used: Set<string>,
  foot: string | null = guessed(name).foot,
): string {
  const ending = /\.([a-z0-9]{1,5})$/i.exec(name)?.[1]?.toLowerCase();
  const plain = caseName.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '') || 'film';
  const date = dayNumber(day) === null ? '' : `-${day}`;
  const stem = `${plain}${foot === null ? '' : `-${foot.toLowerCase()}`}${date}`;
  for (let count = 1; ; count++) {
    const one = `${stem}${count === 1 ? '' : `-${count}`}${ending === undefined ? '' : `.${ending}`}`;
    if (used.has(one.toLowerCase())) continue;
    used.add(one.toLowerCase());
    return `films/${one}`;
  }
}

const escaped = (text: string): string => text.replace(/[\\$}]/g, '\\$&');

function choice(place: number, all: readonly string[], first: string | null): string {
  const order = first === null ? all : [first, ...all.filter((one) => one !== first)];
  return `\${${place}|${order.join(',')}|}`;
}
