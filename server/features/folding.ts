import { FoldingRangeKind, type FoldingRange } from 'vscode-languageserver';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { isGroup, type Entry } from '../../shared/notation/tree.ts';

/** Blocks, and within them what makes them long: prose and placed landmarks. All clients fold whole lines, so no more is said. */
export function folding({ tree }: Inspection): FoldingRange[] {
  return tree.blocks.flatMap(({ line, block: { header, entries } }) =>
    [...(header ? [fold(header.line, lastLine(entries, header.line))] : []), ...inside(entries)]
      .filter(({ startLine, endLine }) => endLine > startLine)
      .map((range) => ({ ...range, startLine: range.startLine + line, endLine: range.endLine + line })),
  );
}

const fold = (startLine: number, endLine: number, kind?: FoldingRangeKind): FoldingRange => ({
  startLine,
  endLine,
  ...(kind !== undefined && { kind }),
});

function lastLine(entries: readonly Entry[], otherwise: number): number {
  const last = entries.at(-1);
  if (!last) return otherwise;
  return isGroup(last) ? lastLine(last.entries, last.header.line) : last.line;
}

function* inside(entries: readonly Entry[]): Generator<FoldingRange> {
  for (const entry of entries) {
    if (!isGroup(entry)) continue;
    yield fold(entry.header.line, lastLine(entry.entries, entry.header.line));
    yield* inside(entry.entries);
  }
  // Paragraphs of prose are parted by a blank line; landmarks may be parted by blank lines and remarks as one likes.
  yield* runs(entries, 'prose', (before, line) => line === before + 1, FoldingRangeKind.Comment);
  yield* runs(entries, 'placing', () => true);
}

function* runs(
  entries: readonly Entry[],
  kind: 'prose' | 'placing',
  goesOn: (before: number, line: number) => boolean,
  shownAs?: FoldingRangeKind,
): Generator<FoldingRange> {
  let run: { start: number; end: number } | null = null;
  for (const entry of entries) {
    const line = !isGroup(entry) && entry.kind === kind ? entry.line : null;
    if (run && line !== null && goesOn(run.end, line)) {
      run.end = line;
      continue;
    }
    if (run) yield fold(run.start, run.end, shownAs);
    run = line === null ? null : { start: line, end: line };
  }
  if (run) yield fold(run.start, run.end, shownAs);
}
