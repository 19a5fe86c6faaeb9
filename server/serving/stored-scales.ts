import { DidChangeWatchedFilesNotification, WatchKind, type Connection } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { StoredScale } from '../../shared/measures/take.ts';
import { shownAsTheyAre } from '../../shared/picture/file-endings.ts';
import { pictureUri, type PictureUri } from '../../shared/picture/picture-uri.ts';
import { refusalWords } from '../../shared/picture/refusal-words.ts';
import type { StoredScales } from '../../shared/trim/study.ts';
import type { Files } from './files.ts';
import { described } from './guard.ts';
import { isWithin, keyOf } from '../workspace/file-key.ts';

interface ScaleListener {
  /** Called when a scale has become known, or is no longer known. */
  news(): void;
  /** Called with the URIs of pictures that were changed, removed or added. */
  changed(uris: readonly string[]): void;
}

/** A picture that was asked for. When the picture changes, a new object replaces this one. */
interface ScaleLookup {
  readonly uri: string;
  /** Key of the file alone, without its roots. */
  readonly file: string;
  readonly looked: Promise<void>;
  scale: StoredScale | null;
  /** The file's stamp when reading began; undefined until it is known. */
  stamp: string | null | undefined;
  /** An open document waits for the answer. */
  awaited: boolean;
}

/** Where a picture is that the policy allows. */
export type AllowedPicture = Extract<PictureUri, { uri: string }>;
/** A case as it asks for its pictures. */
export type AskingDocument = Pick<TextDocument, 'uri'>;

/** Milliseconds from a change of the text until its pictures are looked at again, so that typing costs nothing. */
const PAUSE = 1000;

/**
 * What the pictures of cases say of their scale. Looking is slow and inspecting is not: the first time a picture is asked
 * for, the answer is null, and `news` tells when it is known.
 */
export class StoredScaleBook {
  private readonly filesAt: (uri: string) => Files;
  private readonly folders: () => readonly string[];
  private readonly told: ScaleListener;
  /** By file and roots: a link may be followed from one case and not from another. */
  private readonly known = new Map<string, ScaleLookup>();
  /** The pictures that each document asked for in its last inspection. */
  private readonly askedBy = new WeakMap<AskingDocument, Set<string>>();
  /** What is lacking, one object for each sentence: a film whose scale is the same object need not be measured again. */
  private readonly lacks = new WeakMap<AskingDocument, Map<string, StoredScale>>();
  private readonly soon = new WeakSet<AskingDocument>();
  /** Goes up with each answer, so that inspections made without it are made again. */
  edition = 0;

  constructor(filesAt: (uri: string) => Files, folders: () => readonly string[], told: ScaleListener) {
    this.filesAt = filesAt;
    this.folders = folders;
    this.told = told;
  }

  /** Of a document that is open, a picture that nobody has looked at is looked at; of others it counts as unknown. */
  of(document: AskingDocument, { look } = { look: true }): StoredScales {
    const asked = new Set<string>();
    this.askedBy.set(document, asked);
    return (path) => {
      const place = pictureUri(path, document.uri, this.folders());
      if ('refused' in place) return this.lack(document, refusalWords(place.refused, path));
      const key = keyIn(place);
      asked.add(key);
      const known = look ? this.asked(key, place, path) : this.known.get(key);
      if (known && look && known.stamp === undefined) known.awaited = true;
      return known?.scale ?? null;
    };
  }

  /** Looks at a picture of a file that is not open: nobody is waiting for the news. */
  async learn(document: AskingDocument, path: string): Promise<void> {
    const place = pictureUri(path, document.uri, this.folders());
    if ('refused' in place) return;
    const key = keyIn(place);
    for (;;) {
      const asked = this.asked(key, place, path);
      await asked.looked;
      // The file has changed while it was read: the answer may be of the old picture.
      if (this.known.get(key) === asked) return;
    }
  }

  /** The URIs of the pictures that a document names. */
  places(document: AskingDocument, paths: readonly string[]): string[] {
    return paths.flatMap((path) => {
      const place = pictureUri(path, document.uri, this.folders());
      return 'refused' in place ? [] : [place.uri];
    });
  }

  /** Call when files or folders have changed on the disk: their pictures are read again when next asked for. */
  forget(uris: readonly string[]): void {
    const files = uris.map(keyOf);
    let any = false;
    for (const [key, { file }] of this.known)
      if (files.some((one) => isWithin(file, one))) any = this.known.delete(key) || any;
    if (any) this.news();
  }

  /** Call when the open folders change: other files may be read now. */
  forgetAll(): void {
    const uris = [...this.known.values()].map(({ uri }) => uri);
    this.known.clear();
    if (uris.length > 0) this.told.changed(uris);
    // A path that was refused before may be allowed now.
    this.news();
  }

  /** After a document was opened, changed or saved: whether its pictures are still the same files. */
  lookAgainSoon(document: AskingDocument): void {
    if (this.soon.has(document)) return;
    this.soon.add(document);
    setTimeout(() => {
      this.soon.delete(document);
      void this.lookAgain(document);
    }, PAUSE);
  }

  private async lookAgain(document: AskingDocument): Promise<void> {
    const changed: string[] = [];
    for (const key of this.askedBy.get(document) ?? []) {
      const asked = this.known.get(key);
      if (asked?.stamp === undefined) continue;
      const [, ...roots] = JSON.parse(key) as [string, ...string[]];
      const stamp = await this.stamp(asked.uri, roots);
      if (stamp !== asked.stamp && this.known.get(key) === asked) changed.push(asked.uri);
    }
    if (changed.length === 0) return;
    this.forget(changed);
    this.told.changed(changed);
  }

  private asked(key: string, place: AllowedPicture, path: string): ScaleLookup {
    const known = this.known.get(key);
    if (known) return known;
    // A path is a slice of the text that it stands in; kept as it is, it would keep the whole text in memory.
    const name = JSON.parse(JSON.stringify(path)) as string;
    const asked: ScaleLookup = {
      uri: place.uri,
      file: keyOf(place.uri),
      scale: null,
      stamp: undefined,
      awaited: false,
      looked: Promise.resolve().then(() => this.look(key, asked, place, name)),
    };
    this.known.set(key, asked);
    return asked;
  }

  private async look(key: string, asked: ScaleLookup, { uri, roots }: AllowedPicture, name: string): Promise<void> {
    const stamp = await this.stamp(uri, roots);
    const scale = await this.found(uri, roots, name);
    asked.scale = scale;
    asked.stamp = stamp;
    if (scale && asked.awaited && this.known.get(key) === asked) this.news();
  }

  /** Null where nobody can look: 'is not there' would be told of a picture that may well be there. */
  private async found(uri: string, roots: readonly string[], name: string): Promise<StoredScale | null> {
    try {
      const looked = await this.filesAt(uri).storedScale(uri, roots, name);
      return 'found' in looked ? looked.found : { lack: refusalWords(looked.refused, name) };
    } catch {
      return null;
    }
  }

  private async stamp(uri: string, roots: readonly string[]): Promise<string | null> {
    try {
      return await this.filesAt(uri).stampOf(uri, roots);
    } catch {
      return null;
    }
  }

  private lack(document: AskingDocument, sentence: string): StoredScale {
    const known = this.lacks.get(document) ?? new Map<string, StoredScale>();
    this.lacks.set(document, known);
    const lack = known.get(sentence) ?? { lack: sentence };
    known.set(sentence, lack);
    return lack;
  }

  private news(): void {
    this.edition += 1;
    this.told.news();
  }
}

const keyIn = ({ uri, roots }: AllowedPicture): string => JSON.stringify([keyOf(uri), ...roots]);

/**
 * Of a picture that is replaced by a better one, and of one that comes or goes. One without an ending is found out by
 * `lookAgainSoon`.
 */
export function watchPictures(connection: Connection): void {
  const watchers = [
    { globPattern: '**/*.{dcm,DCM,dicom,DICOM}' },
    {
      globPattern: `**/*.{${[...shownAsTheyAre, 'tif', 'tiff'].flatMap((kind) => [kind, kind.toUpperCase()]).join(',')}}`,
      kind: WatchKind.Create | WatchKind.Delete,
    },
  ];
  connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch((error: unknown) => {
    connection.console.error(`watching pictures: ${described(error)}`);
  });
}
