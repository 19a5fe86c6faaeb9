import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { StoredScale } from '../shared/measures/take.ts';
import { storedScale } from '../shared/picture/stored-scale.ts';
import type { StoredScales } from '../shared/trim/study.ts';
import type { ReadBytes } from './files.ts';

/**
 * What the pictures of open cases say of their scale. Looking is slow and inspecting is not: the first time a picture
 * is asked for, the answer is null, and `onNews` tells when it is known.
 */
export class StoredScaleBook {
  private readonly read: ReadBytes;
  private readonly onNews: () => void;
  private readonly known = new Map<string, StoredScale | null>();
  /** Goes up with each answer that comes in, so that what was made without it can be made anew. */
  edition = 0;

  constructor(read: ReadBytes, onNews: () => void) {
    this.read = read;
    this.onNews = onNews;
  }

  of(document: TextDocument): StoredScales {
    return (path) => {
      const uri = beside(document.uri, path);
      if (uri === null) return { lack: `${path} is no path beside the case file.` };
      const known = this.known.get(uri);
      if (known !== undefined) return known;
      this.known.set(uri, null);
      void this.look(uri, path);
      return null;
    };
  }

  /** After files have changed on the disk: each is looked at again when it is next asked for. */
  forget(uris: readonly string[]): void {
    let any = false;
    for (const uri of uris) any = this.known.delete(uri) || any;
    if (any) this.news();
  }

  private async look(uri: string, path: string): Promise<void> {
    // Where nobody can look the answer stays null: 'is not there' would be told of a picture that may well be there.
    const bytes = await this.read(uri).catch(() => undefined);
    if (bytes === undefined) return;
    this.known.set(uri, bytes ? storedScale(bytes, path) : { lack: `The picture ${path} is not there.` });
    this.news();
  }

  private news(): void {
    this.edition += 1;
    this.onNews();
  }
}

/** A relative path as a URI beside the document; null for anything that is not one. */
export function beside(document: string, path: string): string | null {
  if (path === '' || path.startsWith('/') || /^[a-z][a-z0-9+.-]*:/i.test(path) || path.includes('\\')) return null;
  try {
    return new URL(path.split('/').map(encodeURIComponent).join('/'), document).href;
  } catch {
    return null;
  }
}
