import * as vscode from 'vscode';
import { t } from '../../shared/language/words.ts';
import { printHtml } from './print-html.ts';

/**
 * A page of the editor cannot print. So the drawing is laid on a page of its own in a folder of the extension, and the program that
 * shows such pages opens it. That takes a disk which that program can reach: not in a browser, and not on another machine.
 */
export async function printFromPage(name: string, svg: string, folder: vscode.Uri): Promise<string> {
  if (vscode.env.uiKind === vscode.UIKind.Web || vscode.env.remoteName !== undefined)
    return t('From here no page can be opened for print. Save the drawing (SVG), and print that from your browser.');
  try {
    // The last page is of no more use, and a case is nobody's business.
    await Promise.resolve(vscode.workspace.fs.delete(folder, { recursive: true })).catch(() => undefined);
    await vscode.workspace.fs.createDirectory(folder);
    const page = vscode.Uri.joinPath(folder, `${name}.html`);
    const html = printHtml({ title: name, svg, language: vscode.env.language });
    await vscode.workspace.fs.writeFile(page, new TextEncoder().encode(html));
    return (await vscode.env.openExternal(page))
      ? t('The page for print opens in your browser.')
      : t('No program opened the page for print. Save the drawing (SVG), and print that from your browser.');
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return t(
      'The page for print could not be made ({0}). Save the drawing (SVG), and print that from your browser.',
      why,
    );
  }
}
