import { CodeActionKind, type CodeAction, type CodeActionContext, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { whyNever } from '../shared/findings/accepted.ts';
import type { Finding } from '../shared/findings/finding.ts';
import type { Inspection } from '../shared/findings/inspect.ts';
import { columnIn } from '../shared/notation/format.ts';
import { isGroup, type Block, type Entry, type Group, type Span, type Tree } from '../shared/notation/tree.ts';
import { findRow, type Place } from '../shared/notation/vocabulary.ts';
import type { ClientAbilities } from './client-abilities.ts';
import { mostFindings, wantsQuickFixes, workspaceEdit } from './code-actions.ts';
import { diagnosticOf } from './diagnostics.ts';
import { rangeOf } from './ranges.ts';

/** For each of the first findings in the range that may be lived with: the line that says so, with its reason still to be written. */
export function acceptActions(
  document: TextDocument,
  { findings, tree }: Inspection,
  range: Span,
  context: CodeActionContext | undefined,
  client: ClientAbilities,
): CodeAction[] {
  if (!wantsQuickFixes(context)) return [];
  const seen = new Set<string>();
  const touched = findings.filter(
    ({ at, code, accepted }) =>
      at.start <= range.end && at.end >= range.start && accepted === undefined && whyNever(code) === undefined,
  );
  return touched.slice(0, mostFindings).flatMap((finding) => {
    const { code } = finding;
    const place = placeFor(finding, tree);
    if (!place) return [];
    const measure = measureFor(finding, place.within, findings);
    const about = measure === null ? code : `${code} ${measure}`;
    const key = `${place.offset} ${about}`;
    if (seen.has(key)) return [];
    seen.add(key);
    const title = `Accept ${about} here, because…`;
    return [
      {
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnosticOf(document, finding, client)],
        edit: insertion(document, place, about, client),
      },
    ];
  });
}

interface AcceptPlace {
  /** The end of the line behind which the new one goes. */
  readonly offset: number;
  readonly indent: string;
  readonly column: number;
  /** The block that it is accepted in. */
  readonly within: Span;
}

/** The innermost block around the finding that takes acceptances, and in it the end of the lines that are its own. */
function placeFor({ at }: Finding, tree: Tree): AcceptPlace | null {
  const placed = tree.blocks.findLast(({ start }) => start <= at.start);
  const { block } = placed ?? {};
  if (!placed || !block?.header || !block.row) return null;
  const local = at.start - placed.start;
  let around: { word: Place; headerLine: number; entries: readonly Entry[]; start: number; end: number } = {
    word: block.row.word,
    headerLine: block.header.line,
    entries: block.entries,
    start: block.header.start,
    end: block.entries.at(-1)?.end ?? block.header.end,
  };
  for (let inner = groupAt(around.entries, local); inner; inner = groupAt(around.entries, local))
    around = {
      word: inner.row.word,
      headerLine: inner.header.line,
      entries: inner.entries,
      start: inner.start,
      end: inner.end,
    };
  if (!findRow('accept')?.in.includes(around.word)) return null;
  const own = around.entries;
  const from = own.findLastIndex((entry) => entry.start <= local && !isGroup(entry));
  const next = own.findIndex((entry, index) => index > from && isGroup(entry));
  const last = own[(next < 0 ? own.length : next) - 1];
  const line = !last || isGroup(last) ? around.headerLine : last.line;
  const isHeader = line === around.headerLine;
  return {
    offset: placed.start + lineEnd(block, line),
    indent: indentOf(block, line) + (isHeader ? '  ' : ''),
    column: columnIn(around.word),
    within: { start: placed.start + around.start, end: placed.start + around.end },
  };
}

function groupAt(entries: readonly Entry[], offset: number): Group | undefined {
  return entries.filter(isGroup).find(({ start, end }) => start <= offset && offset <= end);
}

function lineEnd({ lines, text }: Block, number: number): number {
  const line = lines[number];
  return line ? line.start + text.slice(line.start, line.end).replace(/(?:\r\n|\n|\r)$/, '').length : text.length;
}

function indentOf({ lines, text }: Block, number: number): string {
  return /^[^\S\r\n]*/.exec(text.slice(lines[number]?.start ?? 0))?.[0].replace('\ufeff', '') ?? '';
}

/** A measure is named only where the block tells the code of more than one. */
function measureFor({ code, measure }: Finding, { start, end }: Span, findings: readonly Finding[]): string | null {
  if (measure === undefined) return null;
  const others = findings.some(
    (one) => one.code === code && one.measure !== measure && one.at.start >= start && one.at.start <= end,
  );
  return others ? measure : null;
}

function insertion(
  document: TextDocument,
  { offset, indent, column }: AcceptPlace,
  about: string,
  client: ClientAbilities,
): WorkspaceEdit {
  const line = `\n${indent}${'accept '.padEnd(column)}${about} because `;
  if (!client.snippetEdits || !client.versionedEdits)
    return workspaceEdit(document, { title: '', edits: [{ start: offset, end: offset, text: `${line}""` }] }, client);
  const { uri, version } = document;
  const range = rangeOf(document, { start: offset, end: offset });
  // Clients write the line ends of the document for those of a snippet.
  const snippet = { kind: 'snippet' as const, value: `${line}"$0"` };
  return { documentChanges: [{ textDocument: { uri, version }, edits: [{ range, snippet }] }] };
}
