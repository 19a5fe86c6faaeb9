import * as vscode from 'vscode';
import type { DecodedPictures } from './decoded-pictures.ts';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import type { Picture } from './messages.ts';
import { picturePath } from './picture-path.ts';

/** The folders that pictures of a case may be in: those that are open, or the case file's own. */
export function pictureRoots(caseFile: vscode.Uri): vscode.Uri[] {
  const open = (vscode.workspace.workspaceFolders ?? [])
    .map((folder) => folder.uri)
    .filter((uri) => isAlike(uri, caseFile));
  if (vscode.workspace.getWorkspaceFolder(caseFile)) return open;
  return caseFile.scheme === 'untitled' ? [] : [vscode.Uri.joinPath(caseFile, '..')];
}

/** What the page may show for each path that the sheets name. */
export async function findPictures(
  sheets: readonly FilmSheet[],
  caseFile: vscode.Uri,
  webview: vscode.Webview,
  decoded: DecodedPictures,
): Promise<Record<string, Picture>> {
  const paths = [...new Set(sheets.map((sheet) => sheet.picture))];
  const found = await Promise.all(
    paths.map(async (path) => [path, await findPicture(path, caseFile, webview, decoded)] as const),
  );
  return Object.fromEntries(found);
}

async function findPicture(
  written: string,
  caseFile: vscode.Uri,
  webview: vscode.Webview,
  decoded: DecodedPictures,
): Promise<Picture> {
  if (caseFile.scheme === 'untitled')
    return { kind: 'absent', says: `Save this case file first: ${written} is looked for beside it.` };
  const roots = pictureRoots(caseFile);
  const place = picturePath(
    written,
    vscode.Uri.joinPath(caseFile, '..').path,
    roots.map((root) => root.path),
  );
  if ('refused' in place) return { kind: 'absent', says: place.refused };
  const uri = caseFile.with({ path: place.path });
  try {
    const { type, mtime } = await vscode.workspace.fs.stat(uri);
    if (type & vscode.FileType.Directory) return { kind: 'absent', says: `${written} is a folder, not a picture.` };
    if (place.shown === 'decoded') {
      const made = await decoded.of(uri, mtime);
      return 'problem' in made
        ? { kind: 'absent', says: `${written} cannot be shown. ${made.problem}` }
        : { kind: 'found', href: webview.asWebviewUri(made).toString() };
    }
    // The time makes a picture that was replaced on the disk another address, so that no old one is shown from a cache.
    return {
      kind: 'found',
      href: webview
        .asWebviewUri(uri)
        .with({ query: `t=${mtime}` })
        .toString(),
    };
  } catch {
    return {
      kind: 'absent',
      says: `${written} is not there. Put the picture at that path, counted from the case file’s folder.`,
    };
  }
}

function isAlike(a: vscode.Uri, b: vscode.Uri): boolean {
  return a.scheme === b.scheme && a.authority === b.authority;
}
