import * as vscode from 'vscode';
import type { OpenPicture, UsePicture } from '../../shared/picture/picture-files.ts';
import { picturePlace, pictureRoots as rootsFor } from '../../shared/picture/picture-place.ts';
import { refusalWords } from '../../shared/picture/refusal-words.ts';
import { toldName } from '../../shared/picture/told-name.ts';
import type { ListedFilm } from '../../shared/views/film-choice.ts';
import type { DecodedPictures } from './decoded-pictures.ts';
import { isAlike } from './editor-files.ts';
import type { KeptLookups } from './kept-lookups.ts';
import type { Picture } from '../messages/messages.ts';
import type { PictureChecks } from './picture-checks.ts';
import { t } from '../../shared/language/words.ts';

/** What finding a picture takes. */
export interface PictureParts {
  readonly files: UsePicture<vscode.Uri>;
  readonly decoded: DecodedPictures;
  readonly checks: PictureChecks;
}

/** The folders that pictures of a case may be in. */
export function pictureRoots(caseFile: vscode.Uri): vscode.Uri[] {
  if (caseFile.scheme === 'untitled') return [];
  const open = (vscode.workspace.workspaceFolders ?? [])
    .map((folder) => folder.uri)
    .filter((uri) => isAlike(uri, caseFile));
  const roots = rootsFor(
    vscode.Uri.joinPath(caseFile, '..').path,
    open.map((root) => root.path),
  );
  return roots.map((path) => open.find((uri) => uri.path === path) ?? vscode.Uri.joinPath(caseFile, '..'));
}

/** What the page may show for each path that the films name. */
export async function findPictures(
  films: readonly ListedFilm[],
  caseFile: vscode.Uri,
  webview: vscode.Webview,
  { kept, ...parts }: PictureParts & { readonly kept: KeptLookups<Picture> },
): Promise<Record<string, Picture>> {
  const paths = films.map((film) => film.picture);
  const about = [caseFile, ...pictureRoots(caseFile)].map(String).join('\n');
  // Of a file that comes into no open folder nobody tells: there what is absent is looked for each time.
  const isWatched = vscode.workspace.getWorkspaceFolder(caseFile) !== undefined;
  return kept.of(
    about,
    paths,
    async (path) => findPicture(path, caseFile, webview, parts),
    ({ kind }) => isWatched || kind === 'found',
  );
}

async function findPicture(
  written: string,
  caseFile: vscode.Uri,
  webview: vscode.Webview,
  { files, decoded, checks }: PictureParts,
): Promise<Picture> {
  const name = toldName(written);
  const absent = (says: string): Picture => ({ kind: 'absent', says });
  if (caseFile.scheme === 'untitled') return absent(refusalWords('unsaved case', written));
  const roots = pictureRoots(caseFile);
  const place = picturePlace(
    written,
    vscode.Uri.joinPath(caseFile, '..').path,
    roots.map((root) => root.path),
  );
  if ('refused' in place) return absent(refusalWords(place.refused, written));
  const uri = caseFile.with({ path: place.path });
  const asItIs = async (picture: OpenPicture): Promise<Picture> => {
    const checked = await checks.of(uri, picture);
    if ('problem' in checked) return absent(t('{0} cannot be shown. {1}', name, checked.problem));
    // The stamp makes a picture that was replaced on the disk another address, so that no old one is shown from a cache.
    const query = `t=${picture.stamp.replaceAll(' ', '-')}`;
    const href = webview.asWebviewUri(uri).with({ query }).toString();
    if (checked.whole) return { kind: 'found', href };
    const says = t(
      'The file of {0} is cut short: what there is of the picture is shown. Copy it again from where it came from.',
      name,
    );
    return { kind: 'found', href, says };
  };
  const decodedFirst = async (picture: OpenPicture): Promise<Picture> => {
    const made = await decoded.of(uri, picture);
    return 'problem' in made
      ? absent(t('{0} cannot be shown. {1}', name, made.problem))
      : { kind: 'found', href: webview.asWebviewUri(made).toString() };
  };
  try {
    const looked = await files(uri, roots, place.shown === 'decoded' ? decodedFirst : asItIs);
    return 'found' in looked ? looked.found : absent(refusalWords(looked.refused, written));
  } catch {
    return absent(refusalWords('unreadable', written));
  }
}
