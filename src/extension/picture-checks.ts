import type * as vscode from 'vscode';
import type { OpenPicture } from '../../shared/picture/picture-files.ts';
import { plainPicture, type PlainPicture } from '../../shared/picture/plain-picture.ts';

/** A long afternoon has no more pictures than that; what is forgotten is looked at again. */
const MOST = 500;

/**
 * Looks at the headers of a picture, by pieces, before a page is given it: a few bytes may claim a picture that no memory holds. Each state of
 * a file is read once.
 */
export class PictureChecks {
  readonly #known = new Map<string, Promise<PlainPicture>>();

  /** Rejects where the file cannot be read. */
  of(uri: vscode.Uri, picture: OpenPicture): Promise<PlainPicture> {
    const key = `${uri.toString()}?${picture.stamp}`;
    const known = this.#known.get(key);
    if (known) return known;
    if (this.#known.size >= MOST) this.#known.clear();
    const looked = this.#look(picture, key);
    this.#known.set(key, looked);
    return looked;
  }

  async #look(picture: OpenPicture, key: string): Promise<PlainPicture> {
    try {
      return await plainPicture(picture);
    } catch (error) {
      this.#known.delete(key);
      throw error;
    }
  }
}
