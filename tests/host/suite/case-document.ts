import * as vscode from 'vscode';
import type { CaseFile } from '../expected.ts';

/** A case file in the folder that is open, on whatever file system that lies. */
export function uriOf({ name }: CaseFile): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error('no folder is open');
  return vscode.Uri.joinPath(folder.uri, ...name.split(/[\\/]/));
}

export async function show(file: CaseFile): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(uriOf(file));
  await vscode.window.showTextDocument(document, { preview: false });
  return document;
}
