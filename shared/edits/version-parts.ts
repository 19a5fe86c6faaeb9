import { cutKinds } from '../notation/choices.ts';
import { parse } from '../notation/parse.ts';
import { isGroup, type BlockContents, type Entry, type Line, type Statement } from '../notation/tree.ts';

/** A piece of a case that two people may change without meeting: a block, or a line with the remarks above it. */
export interface VersionPart {
  /** What it is about, as far as it says so itself. Several parts of one block may be about one thing. */
  readonly about: string;
  /** What of its kind is the same thing when it is changed: the word of a line that may stand many times, else as `about`. */
  readonly kind: string;
  /** Of a visit, YYYY-MM-DD; null of anything else, and where it is no day. */
  readonly day: string | null;
  /** Of a block its header with what stands above it; of a line all. */
  readonly lead: string;
  readonly inner: readonly VersionPart[];
  /** What stands in the block behind its last line that says something. */
  readonly tail: string;
}

export const textOf = ({ lead, inner, tail }: VersionPart): string => lead + inner.map(textOf).join('') + tail;

/** The parts of a case in the order of the text; together they are the text, to the letter. */
export function versionParts(text: string): VersionPart[] {
  return parse(text).blocks.map(({ block }): VersionPart => {
    const { header, lines, entries } = block;
    const first = header ? header.line + 1 : 0;
    const { parts, tail } = partsIn(entries, { lines, text: block.text }, { first, end: lines.length });
    return {
      ...one(header ? aboutHeader(header) : 'start'),
      day: header?.word === 'visit' ? dayOf(header) : null,
      lead: piece({ lines, text: block.text }, 0, first),
      inner: parts,
      tail,
    };
  });
}

type LinedText = Pick<BlockContents, 'lines'> & { readonly text: string };

function partsIn(
  entries: readonly Entry[],
  block: LinedText,
  { first, end }: { readonly first: number; readonly end: number },
): { readonly parts: VersionPart[]; readonly tail: string } {
  let from = first;
  const parts = entries
    .toSorted((a, b) => lineOf(a) - lineOf(b))
    .map((entry): VersionPart => {
      const next = lastLineOf(entry) + 1;
      const begin = from;
      from = next;
      if (!isGroup(entry) || isCut(entry.row.word))
        return {
          ...(isGroup(entry) ? one(aboutHeader(entry.header)) : aboutLine(entry)),
          day: null,
          lead: piece(block, begin, next),
          inner: [],
          tail: '',
        };
      const below = entry.header.line + 1;
      const inside = partsIn(entry.entries, block, { first: below, end: next });
      return {
        ...one(aboutHeader(entry.header)),
        day: null,
        lead: piece(block, begin, below),
        inner: inside.parts,
        tail: inside.tail,
      };
    });
  return { parts, tail: piece(block, from, end) };
}

/** Heel and toe of a cut are judged together: nobody has meant half of one and half of another. */
const isCut = (word: string): boolean => (cutKinds as readonly string[]).includes(word);

const lineOf = (entry: Entry): number => (isGroup(entry) ? entry.header.line : entry.line);

const lastLineOf = (entry: Entry): number =>
  isGroup(entry) ? Math.max(entry.header.line, ...entry.entries.map(lastLineOf)) : entry.line;

function piece({ lines, text }: LinedText, from: number, to: number): string {
  if (from >= to) return '';
  const start = lines[from]?.start ?? text.length;
  const last: Line | undefined = lines[to - 1];
  return text.slice(start, last ? last.end : text.length);
}

/** What a block is about: a visit its day, a film its foot, view and picture, a reading its reader. A title may change. */
function aboutHeader(header: Statement): string {
  if (header.word === 'case' || header.word === 'hoof' || header.word === 'limits') return header.word;
  const { args } = header;
  const names = header.word === 'visit' ? ['date'] : [...args].map(([name]) => name);
  const said = names.flatMap((name) => (args.get(name) ?? []).map((item) => imageOf(item)));
  return [header.word, ...said].join(' ');
}

type Named = Pick<VersionPart, 'about' | 'kind'>;

const one = (about: string): Named => ({ about, kind: about });

/**
 * What a line is about: a landmark's name, a word. Of a word that may stand many times, and of prose, it is all that the line says, but
 * for what is said of one thing once: a foot has one pulse, a finding is accepted for one reason.
 */
function aboutLine(entry: Exclude<Entry, { kind: 'group' }>): Named {
  if (entry.kind === 'prose') return { about: `| ${entry.image.trim()}`, kind: '|' };
  if (entry.kind !== 'unknown' && !entry.row?.repeats) return one(entry.word);
  const names = saidOnce[entry.word];
  const items = names ? names.flatMap((name) => entry.args.get(name) ?? []) : [...entry.args.values()].flat();
  return { about: `${entry.word} ${items.map(imageOf).join(' ')}`, kind: entry.word };
}

/** Of words that may stand many times, the arguments of which there is one line each. */
const saidOnce: Readonly<Record<string, readonly string[]>> = {
  accept: ['finding', 'measure'],
  expect: ['measure'],
  lameness: ['feet'],
  landing: ['feet'],
  pulse: ['feet'],
  sole: ['feet'],
};

function imageOf(item: unknown): string {
  return typeof item === 'object' && item !== null && 'image' in item && typeof item.image === 'string'
    ? item.image
    : JSON.stringify(item, (name, value: unknown) => (name === 'start' || name === 'end' ? undefined : value));
}

function dayOf(header: Statement): string | null {
  const image = imageOf(header.args.item('date'));
  return /^\d{4}-\d{2}-\d{2}$/.test(image) ? image : null;
}
