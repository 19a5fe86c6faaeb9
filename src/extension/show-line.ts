import * as vscode from 'vscode';

/** Brings a line of a case, counted from 0, to the front. Arguments of a command may be anything. */
export async function showLine(uri: unknown, line: unknown): Promise<void> {
  if (typeof uri !== 'string' || typeof line !== 'number' || !Number.isInteger(line) || line < 0) return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri, true));
  const at = new vscode.Position(Math.min(line, document.lineCount - 1), 0);
  const start = document.lineAt(at).firstNonWhitespaceCharacterIndex;
  const selection = new vscode.Selection(at.with({ character: start }), at.with({ character: start }));
  // Where the text shows already, and not over the preview.
  const viewColumn = vscode.window.visibleTextEditors.find((one) => one.document === document)?.viewColumn;
  await vscode.window.showTextDocument(document, { selection, ...(viewColumn && { viewColumn }) });
}
