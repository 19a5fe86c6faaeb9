import { CodeActionKind, type CodeAction, type CodeActionContext, type WorkspaceEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import type { Fix } from '../../shared/notation/problems.ts';
import type { Span } from '../../shared/notation/tree.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { diagnosticOf } from './diagnostics.ts';
import { textEditOf } from '../text/ranges.ts';

/** Nobody looks through the fixes of more findings; of a whole file there may be ten thousands. */
export const mostFindings = 50;

/** The fixes of the first findings that the range touches, for the text as it is now and not as it was when they were told. */
export function codeActions(
  document: TextDocument,
  { findings }: Inspection,
  range: Span,
  context: CodeActionContext | undefined,
  client: ClientAbilities,
): CodeAction[] {
  if (!wantsQuickFixes(context)) return [];
  return findings
    .filter(({ at, fixes }) => fixes.length > 0 && at.start <= range.end && at.end >= range.start)
    .slice(0, mostFindings)
    .flatMap((finding) =>
      finding.fixes.map((fix): CodeAction => ({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnosticOf(document, finding, client)],
        edit: workspaceEdit(document, fix, client),
        ...(finding.fixes.length === 1 && finding.accepted === undefined && { isPreferred: true }),
      })),
    );
}

export function wantsQuickFixes(context: CodeActionContext | undefined): boolean {
  return !context?.only || context.only.some((kind) => kind === '' || kind === CodeActionKind.QuickFix);
}

/** The edits of a fix on the document's current version, with the line ends that the document has. */
export function workspaceEdit(document: TextDocument, fix: Fix, { versionedEdits }: ClientAbilities): WorkspaceEdit {
  const lineEnd = /\r\n|\n|\r/.exec(document.getText())?.[0] ?? '\n';
  const edits = fix.edits.map((edit) => textEditOf(document, { ...edit, text: edit.text.replace(/\r?\n/g, lineEnd) }));
  const { uri, version } = document;
  return versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits }] }
    : { changes: { [uri]: edits } };
}
