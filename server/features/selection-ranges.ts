import type { SelectionRange } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { isGroup, type Block, type Entry, type Item, type Span } from '../../shared/notation/tree.ts';
import { rangeOf } from '../text/ranges.ts';
import { statementOn } from '../text/spot.ts';

/** What a selection grows to from each place: word, argument, line, group, block, file. As many as places, as the protocol wants. */
export function selectionRanges(
  document: TextDocument,
  inspection: Inspection,
  offsets: readonly number[],
): SelectionRange[] {
  return offsets.map((offset) => selectionRange(document, inspection, offset));
}

function selectionRange(document: TextDocument, { tree }: Inspection, offset: number): SelectionRange {
  let grown: SelectionRange = { range: rangeOf(document, { start: 0, end: tree.text.length }) };
  let outer: Span = { start: 0, end: tree.text.length };
  const placed = tree.blocks.findLast(({ start }) => start <= offset);
  if (!placed) return grown;
  for (const { start, end } of around(placed.block, offset - placed.start)) {
    const span = { start: start + placed.start, end: end + placed.start };
    const holds = span.start <= offset && offset <= span.end;
    const within = outer.start <= span.start && span.end <= outer.end;
    if (!holds || !within || (span.start === outer.start && span.end === outer.end)) continue;
    grown = { range: rangeOf(document, span), parent: grown };
    outer = span;
  }
  return grown;
}

/** Outermost first. */
function* around(block: Block, offset: number): Generator<Span> {
  const { header, entries } = block;
  if (header) yield { start: header.start, end: Math.max(header.end, entries.at(-1)?.end ?? 0) };
  yield* groupsAt(entries, offset);
  const number = block.lines.findLastIndex(({ start }) => start <= offset);
  const line = block.lines[number];
  if (!line) return;
  const [first] = line.items;
  const last = line.items.at(-1);
  for (const free of [line.prose, line.comment])
    if (free) {
      yield free;
      yield* wordIn(block.text, free, offset);
    }
  if (!first || !last) return;
  yield { start: first.start, end: last.end };
  const item =
    line.items.find(({ start, end }) => start <= offset && offset < end) ??
    line.items.find(({ end }) => end === offset);
  if (!item) return;
  const argument = [...(statementOn(block, number)?.statement.args.values() ?? [])].find((items) =>
    items.includes(item),
  );
  if (argument) yield { start: argument[0]?.start ?? item.start, end: argument.at(-1)?.end ?? item.end };
  yield item;
  yield* piecesOf(item, block.text, offset);
}

function* groupsAt(entries: readonly Entry[], offset: number): Generator<Span> {
  const group = entries.find((entry) => isGroup(entry) && entry.start <= offset && offset <= entry.end);
  if (!group || !isGroup(group)) return;
  yield group;
  yield* groupsAt(group.entries, offset);
}

function* piecesOf(item: Item, text: string, offset: number): Generator<Span> {
  switch (item.kind) {
    case 'text': {
      const words = { start: item.start + 1, end: item.end - 1 };
      yield words;
      return yield* wordIn(text, words, offset);
    }
    case 'number':
      yield* item.unit ? [item.number, item.unit] : [];
      return;
    case 'point':
      yield* [item.x, item.y];
      return;
    case 'segment':
      for (const [x, y] of [item.from, item.to]) yield* [{ start: x.start, end: y.end }, x, y];
  }
}

function* wordIn(text: string, { start, end }: Span, offset: number): Generator<Span> {
  for (const { index, 0: word } of text.slice(start, end).matchAll(/[\p{L}\p{N}]+(?:['’-][\p{L}\p{N}]+)*/gu)) {
    const at = start + index;
    if (at > offset) return;
    if (offset <= at + word.length) return yield { start: at, end: at + word.length };
  }
}
