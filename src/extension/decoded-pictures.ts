import * as vscode from 'vscode';
import type { Decoder } from './surroundings.ts';

/** Pictures that a page cannot show as they are (DICOM, TIFF), made into PNG files in a folder of the extension's own. */
export class DecodedPictures {
  readonly folder: vscode.Uri;
  readonly #decoder: Decoder;
  readonly #made = new Map<string, Promise<vscode.Uri | { readonly problem: string }>>();

  constructor(folder: vscode.Uri, decoder: Decoder) {
    this.folder = folder;
    this.#decoder = decoder;
  }

  /** The PNG of a picture as it was at `mtime`; each state of it is decoded once. */
  of(picture: vscode.Uri, mtime: number): Promise<vscode.Uri | { readonly problem: string }> {
    const key = `${picture.toString()}?${mtime}`;
    const known = this.#made.get(key) ?? this.#make(picture, key);
    this.#made.set(key, known);
    return known;
  }

  async #make(picture: vscode.Uri, key: string): Promise<vscode.Uri | { readonly problem: string }> {
    try {
      const shown = await this.#decoder.showable(await vscode.workspace.fs.readFile(picture));
      if ('problem' in shown) return shown;
      const file = vscode.Uri.joinPath(this.folder, `${await fingerprint(key)}.png`);
      await vscode.workspace.fs.writeFile(file, shown.bytes);
      return file;
    } catch (error) {
      this.#made.delete(key);
      return { problem: error instanceof Error ? error.message : String(error) };
    }
  }

  /** Forgets and removes what was made: it can be made again at any time. */
  async clear(): Promise<void> {
    this.#made.clear();
    try {
      await vscode.workspace.fs.delete(this.folder, { recursive: true });
    } catch {
      // Nothing had been made.
    }
  }
}

async function fingerprint(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(digest)]
    .slice(0, 12)
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');
}
