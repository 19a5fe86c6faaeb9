import * as vscode from 'vscode';
import { showLine } from './show-line.ts';

/** Offers the plans for the film whose header stands on a line, counted from 0. Arguments of a command may be anything. */
export async function planTrim(uri: unknown, line: unknown): Promise<void> {
  await showLine(uri, line);
  await vscode.commands.executeCommand('editor.action.codeAction', { kind: 'refactor.rewrite', apply: 'never' });
}
