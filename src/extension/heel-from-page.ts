import * as vscode from 'vscode';
import type { CaseServer } from './case-server.ts';
import type { PageMessage } from './messages.ts';
import { t } from './words.ts';

/** Writes the heel cut that the slider was left at into its plan, as one undo step; null, or why nothing was written. */
export async function heelFromPage(
  { uri, version, line, mm }: Extract<PageMessage, { type: 'heel' }>,
  document: vscode.TextDocument | null,
  server: CaseServer,
): Promise<string | null> {
  const stale = t('The heel cut was not written: the text has changed meanwhile. Move the slider again.');
  if (document?.uri.toString() !== uri || version === null) return stale;
  try {
    const open = document.isClosed ? await vscode.workspace.openTextDocument(document.uri) : document;
    if (open.version !== version) return stale;
    const found = await server.heel(open.uri, version, line, mm);
    if (!found || open.version !== version) return stale;
    const edit = new vscode.WorkspaceEdit();
    edit.replace(open.uri, found.range, found.text);
    if (await vscode.workspace.applyEdit(edit)) return null;
    return t('The heel cut was not written: this file cannot be changed. Save a copy of it, and plan there.');
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return t(
      'The heel cut was not written ({0}). Run “Ungula: Restart language server”, then move the slider again.',
      why,
    );
  }
}
