import { cutKinds } from '../notation/choices.ts';
import { parse } from '../notation/parse.ts';
import { isGroup, type BlockContents, type Entry, type Line, type Statement } from '../notation/tree.ts';

/** A piece of a case that two people may change without meeting: a block, or a line with the remarks above it. */
export interface VersionPart {
  /** The same in every version of the case: of two parts within one block none has the same. */
  readonly key: string;
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
  const named = new Names();
  return parse(text).blocks.map(({ block }): VersionPart => {
    const { header, lines, entries } = block;
    const first = header ? header.line + 1 : 0;
    const { parts, tail } = partsIn(entries, { lines, text: block.text }, { first, end: lines.length });
    return {
      key: named.once(header ? keyOfHeader(header) : 'start'),
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
  const named = new Names();
  let from = first;
  const parts = entries
    .toSorted((a, b) => lineOf(a) - lineOf(b))
    .map((entry): VersionPart => {
      const next = lastLineOf(entry) + 1;
      const begin = from;
      from = next;
      if (!isGroup(entry) || isCut(entry.row.word))
        return {
          key: named.once(isGroup(entry) ? keyOfHeader(entry.header) : keyOfLine(entry)),
          day: null,
          lead: piece(block, begin, next),
          inner: [],
          tail: '',
        };
      const below = entry.header.line + 1;
      const inside = partsIn(entry.entries, block, { first: below, end: next });
      return {
        key: named.once(keyOfHeader(entry.header)),
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
function keyOfHeader(header: Statement): string {
  if (header.word === 'case' || header.word === 'hoof' || header.word === 'limits') return header.word;
  const { args } = header;
  const names = header.word === 'visit' ? ['date'] : [...args].map(([name]) => name);
  const said = names.flatMap((name) => (args.get(name) ?? []).map((item) => imageOf(item)));
  return [header.word, ...said].join(' ');
}

/** What a line is about: a landmark's name, a word; of a word that may stand many times, and of prose, all that the line says. */
function keyOfLine(entry: Exclude<Entry, { kind: 'group' }>): string {
  if (entry.kind === 'prose') return `| ${entry.image.trim()}`;
  if (entry.kind === 'unknown' || entry.row?.repeats)
    return `${entry.word} ${[...entry.args.values()].flat().map(imageOf).join(' ')}`;
  return entry.word;
}

function imageOf(item: unknown): string {
  return typeof item === 'object' && item !== null && 'image' in item && typeof item.image === 'string'
    ? item.image
    : JSON.stringify(item, (name, value: unknown) => (name === 'start' || name === 'end' ? undefined : value));
}

function dayOf(header: Statement): string | null {
  const image = imageOf(header.args.item('date'));
  return /^\d{4}-\d{2}-\d{2}$/.test(image) ? image : null;
}

/** Tells apart what has one name, by its place among those. */
class Names {
  readonly #count = new Map<string, number>();

  once(name: string): string {
    const before = this.#count.get(name) ?? 0;
    this.#count.set(name, before + 1);
    return before === 0 ? name : `${name} #${before + 1}`;
  }
}
