import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { StoredScale } from '../shared/measures/take.ts';
import { wholeBytes } from '../shared/picture/byte-source.ts';
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
  /** The look that is under way for a picture; one that was begun before the file changed must not have the last word. */
  private readonly looking = new Map<string, symbol>();
  /** Goes up with each answer that comes in, so that what was made without it can be made anew. */
  edition = 0;

  constructor(read: ReadBytes, onNews: () => void) {
    this.read = read;
    this.onNews = onNews;
  }

  /** Of a document that is open, a picture that nobody has looked at is looked at; of others it counts as unknown. */
  of(document: Pick<TextDocument, 'uri'>, { look } = { look: true }): StoredScales {
    return (path) => {
      const uri = beside(document.uri, path);
      if (uri === null) return { lack: `${path} is no path beside the case file.` };
      const known = this.known.get(uri);
      if (known !== undefined) return known;
      if (!look) return null;
      this.known.set(uri, null);
      void this.look(uri, ownCopy(path));
      return null;
    };
  }

  /** Looks at a picture of a file that is not open: nobody is waiting for the news. */
  async learn(document: Pick<TextDocument, 'uri'>, path: string): Promise<void> {
    const uri = beside(document.uri, path);
    if (uri === null || this.known.get(uri)) return;
    const found = await this.found(uri, path);
    if (!this.known.get(uri)) this.known.set(uri, found);
  }

  /** The URIs of pictures beside a document. */
  places(document: Pick<TextDocument, 'uri'>, paths: readonly string[]): string[] {
    return paths.flatMap((path) => beside(document.uri, path) ?? []);
  }

  /** After files have changed on the disk: each is looked at again when it is next asked for. */
  forget(uris: readonly string[]): void {
    let any = false;
    for (const uri of uris) {
      any = this.known.delete(uri) || any;
      this.looking.delete(uri);
    }
    if (any) this.news();
  }

  private async look(uri: string, path: string): Promise<void> {
    const own = Symbol(path);
    this.looking.set(uri, own);
    const found = await this.found(uri, path);
    if (this.looking.get(uri) !== own) return;
    this.looking.delete(uri);
    if (!found) return;
    this.known.set(uri, found);
    this.news();
  }

  /** Null where nobody can look: 'is not there' would be told of a picture that may well be there. */
  private async found(uri: string, path: string): Promise<StoredScale | null> {
    const bytes = await this.read(uri).catch(() => undefined);
    if (bytes === undefined) return null;
    return bytes ? storedScale(wholeBytes(bytes), path) : { lack: `The picture ${path} is not there.` };
  }

  private news(): void {
    this.edition += 1;
    this.onNews();
  }
}

/** A path is a slice of the text that it stands in; kept as it is, it would keep the whole text in memory. */
function ownCopy(path: string): string {
  return JSON.parse(JSON.stringify(path)) as string;
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
