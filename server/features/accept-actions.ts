import { t } from '../../shared/language/words.ts';
import {
  CodeActionKind,
  type CodeAction,
  type CodeActionContext,
  type Range,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { whyNever } from '../../shared/findings/engine/accepted.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { columnIn } from '../../shared/notation/format.ts';
import { endOfLine, indentWithin, startOfLine } from '../../shared/notation/line-bounds.ts';
import { isGroup, type Entry, type Group, type Span, type Tree } from '../../shared/notation/tree.ts';
import { findRow, type Container } from '../../shared/notation/vocabulary.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { mostFindings, wantsQuickFixes, workspaceEdit } from './code-actions.ts';
import { diagnosticOf } from './diagnostics.ts';
import { rangeOf } from '../text/ranges.ts';

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
    const title = t('Accept {0} here, because…', about);
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
  /** In the line behind which the new one goes. */
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
  let around: { word: Container; headerLine: number; entries: readonly Entry[]; start: number; end: number } = {
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
  const neighbour = last && !isGroup(last) ? last : null;
  return {
    offset: placed.start + (neighbour?.start ?? around.start),
    indent: indentWithin(block.text, around.start, (neighbour ?? own[0])?.start),
    column: columnIn(around.word),
    within: { start: placed.start + around.start, end: placed.start + around.end },
  };
}

function groupAt(entries: readonly Entry[], offset: number): Group | undefined {
  return entries.filter(isGroup).find(({ start, end }) => start <= offset && offset <= end);
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
  const text = document.getText();
  const end = endOfLine(text, offset);
  const line = `${indent}${'accept '.padEnd(column)}${about} because `;
  if (!client.snippetEdits || !client.versionedEdits)
    return workspaceEdit(document, { title: '', edits: [{ start: end, end, text: `\n${line}""` }] }, client);
  const { range, value } = asSnippet(document, end, `${line}"$0"`);
  const { uri, version } = document;
  return {
    documentChanges: [{ textDocument: { uri, version }, edits: [{ range, snippet: { kind: 'snippet', value } }] }],
  };
}

/**
 * A line put as a snippet behind the one that ends at `end`. Editors indent every line of a snippet by what the line begins
 * with that it is put into, up to that place; so it is put where a line begins. The last line of a file may have no end to put
 * it behind, and is then said again. Clients write the line ends of the document for those of a snippet.
 */
function asSnippet(document: TextDocument, end: number, line: string): { range: Range; value: string } {
  const text = document.getText();
  if (end < text.length) {
    const next = end + (text.startsWith('\r\n', end) ? 2 : 1);
    return { range: rangeOf(document, { start: next, end: next }), value: `${line}\n` };
  }
  const start = startOfLine(text, end);
  const said = text.slice(start, end).replace(/[\\$}]/g, '\\$&');
  return { range: rangeOf(document, { start, end }), value: `${said}\n${line}` };
}
