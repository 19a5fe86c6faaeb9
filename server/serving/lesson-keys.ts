import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile, tooMuchIn } from '../../shared/findings/engine/file-problems.ts';
import { inspect, type Inspection, type InspectSettings } from '../../shared/findings/inspect.ts';
import { filmsSeen, type KeyFiles, type KeySeen } from '../../shared/lessons/key-seen.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { caseUri } from '../../shared/picture/picture-uri.ts';
import type { Refusal } from '../../shared/picture/picture-files.ts';
import type { FoundKey } from '../../shared/views/lesson-sheet.ts';
import { decode } from '../workspace/decode.ts';
import { isWithin, keyOf } from '../workspace/file-key.ts';
import type { Files } from './files.ts';
import type { AllowedPicture, AskingDocument, StoredScaleBook } from './stored-scales.ts';

/** A file that some case names as its key. When the file changes, a new object replaces this one. */
interface KeyLook {
  /** Key of the file alone, without its roots. */
  readonly file: string;
  readonly place: AllowedPicture;
  readonly caseUri: string;
  readonly looked: Promise<void>;
  readonly memory: BlockMemory;
  text: string | null;
  refused: Refusal | null;
  /** An open document waits for the answer. */
  awaited: boolean;
  made: {
    readonly text: string;
    readonly by: InspectSettings;
    readonly scales: number;
    readonly found: Inspection;
  } | null;
}

interface KeySources {
  readonly filesAt: (uri: string) => Files;
  readonly folders: () => readonly string[];
  readonly scales: StoredScaleBook;
  readonly settings: () => InspectSettings;
  /** The open documents; each counts in place of its file. */
  readonly open: () => Iterable<TextDocument>;
  readonly news: () => void;
}

/**
 * The keys that lessons name. Reading one takes a moment and inspecting does not wait: the first time a key is asked for, nothing is
 * known of it, and `news` tells when it is. A key is inspected by itself: whatever key it names in turn is not looked for.
 */
export class LessonKeys {
  private readonly sources: KeySources;
  private readonly known = new Map<string, KeyLook>();
  /** Goes up with each answer that changes something. */
  edition = 0;

  constructor(sources: KeySources) {
    this.sources = sources;
  }

  /** What the keys hold in short. Of a document that is not open, a key that nobody has read counts as unknown. */
  of(document: AskingDocument, { look } = { look: true }): KeyFiles {
    return (path) => {
      const found = this.find(document, path, look);
      return found && ('inspection' in found ? seen(found.inspection) : found);
    };
  }

  /** The key that a path names, whole. */
  find(document: AskingDocument, path: string, look = true): FoundKey {
    const { folders, open, settings, scales } = this.sources;
    const place = caseUri(path, document.uri, folders());
    if ('refused' in place) return isKnownFolder(document, place.refused, folders()) ? place : null;
    const key = JSON.stringify([keyOf(place.uri), ...place.roots]);
    const known = this.known.get(key) ?? (look ? this.looking(key, place, document.uri) : undefined);
    if (!known) return null;
    if (look) known.awaited = true;
    const unsaved = [...open()].find((one) => keyOf(one.uri) === known.file)?.getText() ?? null;
    const text = unsaved ?? known.text;
    if (text === null) return known.refused === null ? null : { refused: known.refused };
    if (tooMuchIn(text)) return { refused: 'too large' };
    const by = settings();
    if (known.made?.text !== text || known.made.by !== by || known.made.scales !== scales.edition) {
      const found = inspect(text, by, known.memory, scales.of({ uri: place.uri }));
      known.made = { text, by, scales: scales.edition, found };
    }
    return { inspection: known.made.found };
  }

  /** The key of a lesson; null where it is none, or as `find`. */
  keyOf(document: AskingDocument, inspection: Inspection): FoundKey {
    const key = inspection.study.record.animal?.is.key;
    if (!key) return null;
    return key.file ? this.find(document, key.file.text) : { inspection };
  }

  /** Reads the key of a file that is not open: nobody is waiting for the news. */
  async learn(document: AskingDocument, path: string): Promise<void> {
    const place = caseUri(path, document.uri, this.sources.folders());
    if ('refused' in place) return;
    const key = JSON.stringify([keyOf(place.uri), ...place.roots]);
    await (this.known.get(key) ?? this.looking(key, place, document.uri)).looked;
  }

  /** The file that a path names, as a key of files; null where the policy refuses it. */
  fileOf(document: AskingDocument, path: string): string | null {
    const place = caseUri(path, document.uri, this.sources.folders());
    return 'refused' in place ? null : keyOf(place.uri);
  }

  /** Call when files or folders have changed on the disk. */
  forget(uris: readonly string[]): void {
    const files = uris.map(keyOf);
    let any = false;
    for (const [key, { file, place, caseUri: from, awaited }] of this.known)
      if (files.some((one) => isWithin(file, one))) {
        any = true;
        this.looking(key, place, from).awaited = awaited;
      }
    if (any) this.tell();
  }

  /** Call when an open document has changed, or is closed: it may be the key of others. */
  changed(uri: string): void {
    const file = keyOf(uri);
    if ([...this.known.values()].some((one) => one.file === file)) this.tell();
  }

  /** Call when the open folders change: other files may be read now. */
  forgetAll(): void {
    this.known.clear();
    this.tell();
  }

  private looking(key: string, place: AllowedPicture, caseFile: string): KeyLook {
    const look: KeyLook = {
      file: keyOf(place.uri),
      place,
      caseUri: caseFile,
      memory: new BlockMemory(),
      text: null,
      refused: null,
      awaited: false,
      made: null,
      looked: Promise.resolve().then(async () => {
        const read = await this.read(place, caseFile);
        if (read === null) return;
        if ('refused' in read) look.refused = read.refused;
        else look.text = read.text;
        if (look.awaited && this.known.get(key) === look) this.tell();
      }),
    };
    this.known.set(key, look);
    return look;
  }

  /** Null where nobody can look: then not even the case itself can be read. */
  private async read(place: AllowedPicture, caseFile: string): Promise<{ text: string } | { refused: Refusal } | null> {
    const bytesOf = (uri: string) => this.sources.filesAt(uri).readBytes(uri, place.roots, largestFile);
    try {
      const bytes = await bytesOf(place.uri);
      if (bytes === 'too large') return { refused: 'too large' };
      if (bytes) return { text: decode(bytes).text };
      return (await bytesOf(caseFile)) ? { refused: 'not there' } : null;
    } catch {
      return null;
    }
  }

  private tell(): void {
    this.edition += 1;
    this.sources.news();
  }
}

function seen({ study }: Inspection): KeySeen {
  return { films: filmsSeen(study.record) };
}

/** Of a document that is no file of an open folder's kind the folders are not known. */
function isKnownFolder(document: AskingDocument, refused: Refusal, folders: readonly string[]): boolean {
  const scheme = (uri: string): string => uri.slice(0, uri.indexOf(':'));
  const own = scheme(document.uri);
  return refused !== 'unsaved case' && (own === 'file' || folders.some((folder) => scheme(folder) === own));
}
