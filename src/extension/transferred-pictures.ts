import * as vscode from 'vscode';
import { isPictureName } from '../../shared/picture/file-endings.ts';
import { largestPicture } from '../../shared/picture/picture-files.ts';
import { endingOf } from './picture-mime.ts';
import { t } from '../../shared/language/words.ts';

export interface TransferredPicture {
  /** The file's name; for bytes without a file a made-up name with the right ending. */
  readonly name: string;
  /** Where the file is, if known. */
  readonly uri: vscode.Uri | null;
  read(): Promise<Uint8Array>;
}

/** The pictures among what was dropped or pasted, each once, in the order in which they came. */
export async function transferredPictures(transfer: vscode.DataTransfer): Promise<TransferredPicture[]> {
  const found = new Map<string, TransferredPicture>();
  for (const uri of urisIn((await transfer.get('text/uri-list')?.asString()) ?? '')) {
    const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    if (isPictureName(name)) found.set(uri.toString(), { name, uri, read: () => plainFile(uri) });
  }
  for (const [mime, item] of transfer) {
    const file = item.asFile();
    const name = file && nameOf(file.name, mime);
    if (!file || !name) continue;
    const uri = file.uri ?? null;
    // A picture that came as a URI already is the same picture again.
    if (uri ? found.has(uri.toString()) : [...found.values()].some((one) => one.name === file.name)) continue;
    found.set(uri?.toString() ?? `${found.size} ${name}`, { name, uri, read: async () => file.data() });
  }
  return [...found.values()];
}

/** A file may lie anywhere, but must be a plain one no larger than a picture can be. */
export async function plainFile(uri: vscode.Uri): Promise<Uint8Array> {
  const { type, size } = await vscode.workspace.fs.stat(uri);
  if ((type & vscode.FileType.File) === 0) throw new Error(t('it is no file'));
  if (size > largestPicture) throw new Error(t('it is larger than any film'));
  return vscode.workspace.fs.readFile(uri);
}

/** Pictures are never fetched: an address on the web is no picture here. */
function urisIn(list: string): vscode.Uri[] {
  return list.split(/\r?\n/).flatMap((line) => {
    if (line === '' || line.startsWith('#')) return [];
    try {
      const uri = vscode.Uri.parse(line, true);
      return /^(?:https?|data|blob|about)$/.test(uri.scheme) ? [] : [uri];
    } catch {
      return [];
    }
  });
}

/** What is on a clipboard is called `image.png` or nothing at all; that name tells of nothing. */
function nameOf(name: string, mime: string): string | null {
  if (isPictureName(name)) return name;
  const ending = endingOf(mime);
  return ending === null ? null : `.${ending}`;
}
