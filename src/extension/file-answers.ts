import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import * as z from 'zod/mini';
import { listFolderRequest, readFileRequest, type FolderEntry } from '../../shared/protocol/files.ts';
import { base64Of } from './base64.ts';
import { mayRead } from './may-read.ts';

/** Bytes. A radiograph of 4300 by 4300 points in two bytes each has 37 MB; what is larger by far was named by mistake. */
const largest = 64_000_000;

const fileParams = z.object({ uri: z.string().check(z.maxLength(4096)) });

/** Reads for a server that cannot reach the files itself; null, never an error, where it may not or nothing is there. */
export function answerForFiles(client: BaseLanguageClient): void {
  client.onRequest(readFileRequest, (params: unknown) => orNull(params, read));
  client.onRequest(listFolderRequest, (params: unknown) => orNull(params, list));
}

async function orNull<T>(params: unknown, answer: (uri: vscode.Uri) => Promise<T | null>): Promise<T | null> {
  try {
    const uri = vscode.Uri.parse(fileParams.parse(params).uri, true);
    const folders = (vscode.workspace.workspaceFolders ?? []).map((folder) => folder.uri);
    const cases = vscode.workspace.textDocuments
      .filter(({ languageId }) => languageId === 'hoof')
      .map(({ uri }) => uri);
    return mayRead(uri, folders, cases) ? await answer(uri) : null;
  } catch {
    return null;
  }
}

async function read(uri: vscode.Uri): Promise<string | null> {
  const { size, type } = await vscode.workspace.fs.stat(uri);
  if (size > largest || type & vscode.FileType.Directory) return null;
  return base64Of(await vscode.workspace.fs.readFile(uri));
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
