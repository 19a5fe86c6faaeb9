import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import * as z from 'zod/mini';
import { largestPicture } from '../../shared/picture/picture-files.ts';
import {
  listFolderRequest,
  readFileRequest,
  readPictureRequest,
  type FileAnswer,
  type FolderEntry,
  type FilePiece,
} from '../../shared/protocol/files.ts';
import { base64Of } from './base64.ts';
import { editorFiles, isPlainWay } from './editor-files.ts';
import { readableFrom } from './may-read.ts';

const fileParams = z.object({ uri: z.string().check(z.maxLength(4096)) });
const bytes = z.number().check(z.int(), z.nonnegative(), z.lte(largestPicture));
const wholeParams = z.extend(fileParams, { most: bytes });
const pieceParams = z.extend(fileParams, { start: bytes, length: bytes });

/** Milliseconds that a picture is kept for its next piece: the editor's file systems give a file as a whole only. */
const KEPT = 2000;

/** Reads for a server that cannot reach the files itself; null, never an error, where it may not or nothing is there. */
export function answerForFiles(client: BaseLanguageClient): void {
  const files = editorFiles(vscode.workspace.fs);
  const pieces = new Pieces();
  client.onRequest<FileAnswer, void>(readFileRequest, (params: unknown) =>
    orNull<Exclude<FileAnswer, null>>(params, async (uri, roots) => {
      const { most } = wholeParams.parse(params);
      const looked = await files(uri, roots, async (file) =>
        file.size > most ? null : base64Of(await file.read(0, file.size)),
      );
      if ('refused' in looked) return looked.refused === 'too large' ? { refused: 'too large' } : null;
      return looked.found ?? { refused: 'too large' };
    }),
  );
  client.onRequest<FilePiece | null, void>(readPictureRequest, (params: unknown) =>
    orNull<FilePiece>(params, async (uri, roots) => {
      const { start, length } = pieceParams.parse(params);
      const looked = await files(uri, roots, async (picture) => ({
        size: picture.size,
        stamp: picture.stamp,
        bytes: base64Of(
          length === 0
            ? new Uint8Array()
            : await pieces.of(`${uri.toString()} ${picture.stamp}`, picture, start, length),
        ),
      }));
      return 'found' in looked ? looked.found : looked;
    }),
  );
  client.onRequest(listFolderRequest, (params: unknown) =>
    orNull(params, async (uri, roots) => ((await isPlainWay(vscode.workspace.fs, uri, roots)) ? list(uri) : null)),
  );
}

async function orNull<T>(
  params: unknown,
  answer: (uri: vscode.Uri, roots: readonly vscode.Uri[]) => Promise<T | null>,
): Promise<T | null> {
  try {
    const uri = vscode.Uri.parse(fileParams.parse(params).uri, true);
    const folders = (vscode.workspace.workspaceFolders ?? []).map((folder) => folder.uri);
    const cases = vscode.workspace.textDocuments
      .filter(({ languageId }) => languageId === 'hoof')
      .map((document) => document.uri);
    const roots = readableFrom(uri, folders, cases).map((path) => uri.with({ path }));
    return roots.length > 0 ? await answer(uri, roots) : null;
  } catch {
    return null;
  }
}

/** The one picture that was read last, for a moment. */
class Pieces {
  #key = '';
  #whole: Promise<Uint8Array> | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  async of(
    key: string,
    picture: { readonly size: number; read(start: number, length: number): Promise<Uint8Array> },
    start: number,
    length: number,
  ): Promise<Uint8Array> {
    if (this.#key !== key || !this.#whole) {
      this.#key = key;
      this.#whole = picture.read(0, picture.size);
    }
    const whole = this.#whole;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.#whole = null), KEPT);
    return (await whole).subarray(start, start + length);
  }
}

async function list(uri: vscode.Uri): Promise<readonly FolderEntry[]> {
  const entries = await vscode.workspace.fs.readDirectory(uri);
  const found = entries.map(async ([name, type]): Promise<FolderEntry | null> => {
    if (type === vscode.FileType.Directory) return { name, kind: 'folder', size: null };
    return type === vscode.FileType.File ? { name, kind: 'file', size: await sizeOf(uri, name) } : null;
  });
  return (await Promise.all(found)).filter((entry) => entry !== null);
}

async function sizeOf(folder: vscode.Uri, name: string): Promise<number | null> {
  try {
    return (await vscode.workspace.fs.stat(vscode.Uri.joinPath(folder, name))).size;
  } catch {
    return null;
  }
}
