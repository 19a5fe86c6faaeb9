import * as vscode from 'vscode';
import type { DecodedPictures } from './decoded-pictures.ts';
import type { FilmSheet } from '../../shared/report/film-sheet.ts';
import type { Picture } from './messages.ts';
import type { PictureChecks } from './picture-checks.ts';
import { picturePath } from './picture-path.ts';
import { toldName } from './told-name.ts';
import { t } from './words.ts';

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
  checks: PictureChecks,
): Promise<Record<string, Picture>> {
  const paths = [...new Set(sheets.map((sheet) => sheet.picture))];
  const found = await Promise.all(
    paths.map(async (path) => [path, await findPicture(path, caseFile, webview, decoded, checks)] as const),
  );
  return Object.fromEntries(found);
}

async function findPicture(
  written: string,
  caseFile: vscode.Uri,
  webview: vscode.Webview,
  decoded: DecodedPictures,
  checks: PictureChecks,
): Promise<Picture> {
  const name = toldName(written);
  const absent = (says: string): Picture => ({ kind: 'absent', says });
  if (caseFile.scheme === 'untitled') return absent(t('Save this case file first: {0} is looked for beside it.', name));
  const roots = pictureRoots(caseFile);
  const place = picturePath(
    written,
    vscode.Uri.joinPath(caseFile, '..').path,
    roots.map((root) => root.path),
  );
  if ('refused' in place) return absent(place.refused);
  const uri = caseFile.with({ path: place.path });
  try {
    const { type, mtime, size } = await vscode.workspace.fs.stat(uri);
    if (type & vscode.FileType.Directory)
      return absent(t('{0} is a folder, not a picture. Write the path of a picture in it.', name));
    if (size > LARGEST)
      return absent(
        t(
          '{0} is a file of {1} MB, more than any film has. Save a smaller copy, and write its path.',
          name,
          Math.round(size / 1e6),
        ),
      );
    if (place.shown === 'decoded') {
      const made = await decoded.of(uri, mtime);
      return 'problem' in made
        ? absent(t('{0} cannot be shown. {1}', name, made.problem))
        : { kind: 'found', href: webview.asWebviewUri(made).toString() };
    }
    const checked = await checks.of(uri, mtime, size);
    if ('problem' in checked) return absent(t('{0} cannot be shown. {1}', name, checked.problem));
    // The time makes a picture that was replaced on the disk another address, so that no old one is shown from a cache.
    const href = webview
      .asWebviewUri(uri)
      .with({ query: `t=${mtime}` })
      .toString();
    if (checked.whole) return { kind: 'found', href };
    const says = t(
      'The file of {0} is cut short: what there is of the picture is shown. Copy it again from where it came from.',
      name,
    );
    return { kind: 'found', href, says };
  } catch {
    return absent(t('{0} is not there. Put the picture at that path, counted from the case file’s folder.', name));
  }
}

/** Bytes. A film of 60 million pixels, two bytes each, has 120 MB. */
const LARGEST = 200_000_000;

function isAlike(a: vscode.Uri, b: vscode.Uri): boolean {
  return a.scheme === b.scheme && a.authority === b.authority;
}
