import { isOfPath, type FileRefusal } from '../../shared/picture/picture-files.ts';
import type { PathRefusal } from '../../shared/picture/picture-place.ts';
import { pictureUri } from '../../shared/picture/picture-uri.ts';
import type { PicturesMissing } from '../../shared/trim/study.ts';
import { isWithin, keyOf } from '../workspace/file-key.ts';
import type { Files } from './files.ts';
import type { AllowedPicture, AskingDocument } from './stored-scales.ts';

/** A picture that was looked for. When its file changes, a new object replaces this one. */
interface PictureLook {
  /** Key of the file alone, without its roots. */
  readonly file: string;
  /** The same of the case that asked first, and its URI. */
  readonly caseFile: string;
  readonly caseUri: string;
  readonly place: AllowedPicture;
  readonly looked: Promise<void>;
  /** Null until it is known, and where nobody can look; a word where something else is there. */
  isThere: boolean | FileRefusal | null;
  /** An open document waits for the answer. */
  awaited: boolean;
}

/** Milliseconds from a change of the text until its missing pictures are looked for again. */
const PAUSE = 1000;

/**
 * Which pictures of cases are not there. Looking takes a moment and inspecting does not wait: the first time a picture is asked
 * for, none is missing, and `news` tells when one is. Beside a case that is itself no file, as one that is shown
 * of an older state, nothing is looked for.
 */
export class MissingPictures {
  private readonly filesAt: (uri: string) => Files;
  private readonly folders: () => readonly string[];
  private readonly news: () => void;
  private readonly known = new Map<string, PictureLook>();
  /** Where the pictures of a document are, by their paths as written; null for a path that names none. */
  private places = new WeakMap<AskingDocument, Map<string, string | null>>();
  private readonly soon = new WeakSet<AskingDocument>();
  /** Goes up with each answer that changes something. */
  edition = 0;

  constructor(filesAt: (uri: string) => Files, folders: () => readonly string[], news: () => void) {
    this.filesAt = filesAt;
    this.folders = folders;
    this.news = news;
  }

  /** Of an open document, a picture that nobody has looked for is looked for; of others it counts as there. */
  of(document: AskingDocument, { look } = { look: true }): PicturesMissing {
    return (path) => {
      const key = this.keyFor(document, path, look);
      if (key === null) return this.refusedBy(document, path);
      const known = this.known.get(key);
      if (known && look) known.awaited = true;
      const isThere = known?.isThere ?? null;
      return typeof isThere === 'string' ? isThere : isThere === false;
    };
  }

  /** Why a path names no picture by itself. Of a document that is no file of an open folder's kind the folders are not known. */
  private refusedBy(document: AskingDocument, path: string): false | PathRefusal {
    const scheme = (uri: string): string => uri.slice(0, uri.indexOf(':'));
    const own = scheme(document.uri);
    if (own !== 'file' && !this.folders().some((folder) => scheme(folder) === own)) return false;
    const place = pictureUri(path, document.uri, this.folders());
    return 'refused' in place && isOfPath(place.refused) && place.refused;
  }

  /** Looks for the picture of a file that is not open: nobody is waiting for the news. */
  async learn(document: AskingDocument, path: string): Promise<void> {
    const key = this.keyFor(document, path, true);
    for (;;) {
      const asked = key === null ? undefined : this.known.get(key);
      await asked?.looked;
      if (key === null || this.known.get(key) === asked) return;
    }
  }

  /** Call when files or folders have changed on the disk: what lies there is looked for again when next asked for. */
  forget(uris: readonly string[]): void {
    const files = uris.map(keyOf);
    let any = false;
    for (const [key, { file, caseFile, caseUri, place }] of this.known)
      if (files.some((one) => isWithin(file, one) || isWithin(caseFile, one))) {
        any = true;
        this.known.set(key, this.looking(place, caseUri));
      }
    if (any) this.tell();
  }

  /** Call when a document is closed: what was looked for on its behalf is let go. A case on the disk is read again, and asks anew. */
  close(document: AskingDocument): void {
    for (const key of this.places.get(document)?.values() ?? [])
      if (key !== null && this.known.get(key)?.caseUri === document.uri) this.known.delete(key);
  }

  /** Call when the open folders change: other files may be looked for now. */
  forgetAll(): void {
    this.known.clear();
    this.places = new WeakMap();
    this.tell();
  }

  /** After a document was opened, changed or saved: not every client tells of pictures that come. */
  lookAgainSoon(document: AskingDocument): void {
    if (this.soon.has(document)) return;
    this.soon.add(document);
    setTimeout(() => {
      this.soon.delete(document);
      void this.lookAgain(document);
    }, PAUSE);
  }

  private async lookAgain(document: AskingDocument): Promise<void> {
    let any = false;
    for (const key of this.places.get(document)?.values() ?? []) {
      const asked = key === null ? undefined : this.known.get(key);
      if (!asked || asked.isThere === true || asked.isThere === null) continue;
      const isThere = await this.found(asked.place);
      if (isThere === asked.isThere || this.known.get(key as string) !== asked) continue;
      asked.isThere = isThere;
      any = true;
    }
    if (any) this.tell();
  }

  /** Typing asks for the same paths each time: where a path leads is worked out once. */
  private keyFor(document: AskingDocument, path: string, look: boolean): string | null {
    const own = this.places.get(document) ?? new Map<string, string | null>();
    this.places.set(document, own);
    let key = own.get(path);
    if (key !== undefined && (key === null || !look || this.known.has(key))) return key;
    const place = pictureUri(path, document.uri, this.folders());
    key = 'refused' in place ? null : JSON.stringify([keyOf(place.uri), ...place.roots]);
    // A path is a slice of the text that it stands in; kept as it is, it would keep the whole text in memory.
    own.set(JSON.parse(JSON.stringify(path)) as string, key);
    if ('uri' in place && key !== null && look && !this.known.has(key))
      this.known.set(key, this.looking(place, document.uri));
    return key;
  }

  private looking(place: AllowedPicture, caseUri: string): PictureLook {
    const look: PictureLook = {
      file: keyOf(place.uri),
      caseFile: keyOf(caseUri),
      caseUri,
      place,
      isThere: null,
      awaited: false,
      looked: Promise.resolve().then(async () => {
        const found = await this.found(place);
        // Hardly a picture is missing, so the case itself is looked for only then.
        const isMissing = found === false && (await this.found({ uri: caseUri, roots: place.roots })) === true;
        look.isThere = found === false && !isMissing ? null : found;
        if ((look.isThere === false || typeof look.isThere === 'string') && look.awaited) this.tell();
      }),
    };
    return look;
  }

  /** Null where nobody can look. */
  private async found({ uri, roots }: AllowedPicture): Promise<boolean | FileRefusal | null> {
    try {
      return await this.filesAt(uri).isThere(uri, roots);
    } catch {
      return null;
    }
  }

  private tell(): void {
    this.edition += 1;
    this.news();
  }
}
