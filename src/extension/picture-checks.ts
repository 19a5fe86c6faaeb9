import * as vscode from 'vscode';
import { plainPicture, type PlainPicture } from '../../shared/picture/plain-picture.ts';

/** A long afternoon has no more pictures than that; what is forgotten is looked at again. */
const MOST = 500;

/**
 * Looks at the header of a picture before a page is given it: a few bytes may claim a picture that no memory holds. Each state of
 * a file is read once.
 */
export class PictureChecks {
  readonly #known = new Map<string, Promise<PlainPicture>>();

  /** Rejects where the file cannot be read. */
  of(picture: vscode.Uri, mtime: number, size: number): Promise<PlainPicture> {
    const key = `${picture.toString()}?${mtime}&${size}`;
    const known = this.#known.get(key);
    if (known) return known;
    if (this.#known.size >= MOST) this.#known.clear();
    const looked = this.#look(picture, key);
    this.#known.set(key, looked);
    return looked;
  }

  async #look(picture: vscode.Uri, key: string): Promise<PlainPicture> {
    try {
      return plainPicture(await vscode.workspace.fs.readFile(picture));
    } catch (error) {
      this.#known.delete(key);
      throw error;
    }
  }
}
