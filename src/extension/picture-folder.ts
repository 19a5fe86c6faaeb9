import * as vscode from 'vscode';
import type { PictureFolder } from './decoded-pictures.ts';

/** A folder of the extension's own by the editor's file systems. */
export function pictureFolder(folder: vscode.Uri): PictureFolder {
  const { fs } = vscode.workspace;
  const uriOf = (name: string): vscode.Uri => vscode.Uri.joinPath(folder, name);
  return {
    uriOf,
    has: async (name) => {
      try {
        return ((await fs.stat(uriOf(name))).type & vscode.FileType.File) !== 0;
      } catch {
        return false;
      }
    },
    write: async (name, bytes) => {
      const half = uriOf(`${crypto.randomUUID()}.half`);
      try {
        await fs.writeFile(half, bytes);
        await fs.rename(half, uriOf(name), { overwrite: true });
      } catch (error) {
        await fs.delete(half).then(undefined, () => undefined);
        throw error;
      }
    },
    list: async () => {
      try {
        const entries = await fs.readDirectory(folder);
        return await Promise.all(
          entries.map(async ([name]) => ({ name, written: (await fs.stat(uriOf(name))).mtime })),
        );
      } catch {
        return [];
      }
    },
    remove: async (name) => fs.delete(uriOf(name), { recursive: true }),
  };
}
