import type * as vscode from 'vscode';
import type { OpenPicture } from '../../shared/picture/picture-files.ts';
import type { Decoder } from './platform.ts';

/** What is used of the editor's file systems; files by their names in the folder. */
export interface PictureFolder {
  uriOf(name: string): vscode.Uri;
  has(name: string): Promise<boolean>;
  /** Writes the whole file or nothing: another window may read it at the same time. */
  write(name: string, bytes: Uint8Array): Promise<void>;
  /** The files with the time each was written, ms; empty where there is no folder. */
  list(): Promise<readonly { readonly name: string; readonly written: number }[]>;
  remove(name: string): Promise<void>;
}

type Made = { readonly name: string } | { readonly problem: string };

/** Milliseconds: a week. */
const OLD = 7 * 24 * 60 * 60 * 1000;

/**
 * Pictures that a page cannot show as they are (DICOM, TIFF), made into PNG files in a folder of the extension's own. All windows
 * share it: a name stands for one state of one picture, so what one window has made another may show, and no window takes away
 * what is not old. Should a file go while it is shown, it is made again at the next look.
 */
export class DecodedPictures {
  readonly #folder: PictureFolder;
  readonly #decoder: Decoder;
  readonly #made = new Map<string, Promise<Made>>();

  constructor(folder: PictureFolder, decoder: Decoder) {
    this.#folder = folder;
    this.#decoder = decoder;
  }

  /** The PNG of a picture as it is now; each state of it is decoded once. */
  async of(uri: vscode.Uri, picture: OpenPicture): Promise<vscode.Uri | { readonly problem: string }> {
    const name = `${await fingerprint(`${uri.toString()}?${picture.stamp}`)}.png`;
    const known = this.#made.get(name) ?? this.#begin(name, picture);
    const made = await known;
    if ('problem' in made) return made;
    if (await this.#folder.has(name)) return this.#folder.uriOf(name);
    const again = await (this.#made.get(name) === known ? this.#begin(name, picture) : this.#made.get(name));
    return again && 'problem' in again ? again : this.#folder.uriOf(name);
  }

  /** Removes files so old that hardly a window still shows them. */
  async sweep(now: number): Promise<void> {
    for (const { name, written } of await this.#folder.list())
      if (now - written > OLD) await this.#folder.remove(name).catch(() => undefined);
  }

  #begin(name: string, picture: OpenPicture): Promise<Made> {
    const making = this.#make(name, picture);
    this.#made.set(name, making);
    return making;
  }

  async #make(name: string, picture: OpenPicture): Promise<Made> {
    try {
      if (await this.#folder.has(name)) return { name };
      const shown = await this.#decoder.showable(await picture.read(0, picture.size));
      if ('problem' in shown) return shown;
      await this.#folder.write(name, shown.bytes);
      return { name };
    } catch (error) {
      this.#made.delete(name);
      return { problem: error instanceof Error ? error.message : String(error) };
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
