import { t } from '../../shared/language/words.ts';
import {
  DidChangeWatchedFilesNotification,
  FileOperationPatternKind,
  MessageType,
  ShowMessageNotification,
  WatchKind,
  type Connection,
  type Diagnostic,
  type ServerCapabilities,
  type TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile } from '../../shared/findings/engine/file-problems.ts';
import { caseFacts } from '../../shared/findings/across/case-facts.ts';
import { acrossFiles } from '../../shared/findings/across/across-files.ts';
import type { AcrossFinding, CaseOfFile } from '../../shared/findings/across/across-rule.ts';
import type { InspectSettings, Inspection } from '../../shared/findings/inspect.ts';
import { atLevels, noLevels } from '../../shared/findings/engine/severity-levels.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { casesChanged } from '../../shared/protocol/due.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { diagnosticsOf } from '../features/diagnostics.ts';
import { urisOf } from '../serving/client-folders.ts';
import type { FileBytes, ListFolder, ReadBytes } from '../serving/files.ts';
import { described } from '../serving/guard.ts';
import { isObject } from '../serving/params.ts';
import { dateOf } from '../serving/today.ts';
import type { Inspections } from '../serving/inspections.ts';
import type { LessonKeys } from '../serving/lesson-keys.ts';
import type { MissingPictures } from '../serving/missing-pictures.ts';
import type { ShownLessons } from '../serving/shown-lessons.ts';
import type { StoredScaleBook } from '../serving/stored-scales.ts';
import { acrossDiagnostic } from './across-diagnostics.ts';
import { CaseIndex } from './case-index.ts';
import { keyOf } from './file-key.ts';
import { indexEntry, type IndexEntry } from './index-entry.ts';
import { ReadingProgress } from './progress.ts';
import { CaseReader } from './read-case.ts';
import { bounds } from './walk.ts';

interface WorkspaceParts {
  readonly connection: Connection;
  readonly machine: { now(): Date; readonly readBytes: ReadBytes; readonly listFolder: ListFolder };
  readonly documents: TextDocuments<TextDocument>;
  readonly inspections: Inspections;
  readonly lessons: ShownLessons;
  readonly scales: StoredScaleBook;
  readonly missing: MissingPictures;
  readonly keys: LessonKeys;
  readonly client: () => ClientAbilities;
  /** Called with open documents whose diagnostics have changed although their texts have not. */
  readonly retell: (uris: readonly string[]) => void;
}

/** One case of the workspace: its unsaved text where it is open, else its file. */
export interface KnownCase {
  readonly key: string;
  readonly uri: string;
  readonly entry: IndexEntry;
  readonly document: TextDocument | null;
}

/** All case files of the open folders together, and what follows for each from the others. */
export class Workspace {
  readonly index: CaseIndex;
  private readonly reader: CaseReader;
  private readonly parts: WorkspaceParts;
  private uris: readonly string[] = [];
  private readonly entries = new WeakMap<Inspection, IndexEntry>();
  private across: { stamp: string; by: InspectSettings; told: ReadonlyMap<string, readonly AcrossFinding[]> } | null =
    null;
  private lastTold = new Map<string, string>();
  private looking = false;

  constructor(parts: WorkspaceParts) {
    this.parts = parts;
    const { connection, machine, documents, inspections, scales, missing, keys, client } = parts;
    this.reader = new CaseReader({
      scales,
      missing,
      keys,
      settings: () => inspections.by,
      client,
      today: () => this.today,
    });
    this.index = new CaseIndex({
      list: machine.listFolder,
      read: machine.readBytes,
      reader: this.reader,
      open: () => documents.all(),
      progress: new ReadingProgress(connection, () => this.index.stop()),
      changed: () => {
        if (this.index.busy) return;
        this.lookAcross();
        void connection.sendNotification(casesChanged);
      },
      tooMuch: () => this.sayTooMuch(),
      log: (message) => connection.console.info(message),
    });
    documents.onDidChangeContent(() => this.lookAcrossSoon());
    documents.onDidClose(({ document: { uri } }) => {
      this.lastTold.delete(uri);
      this.index.touched([uri]);
      this.lookAcrossSoon();
    });
  }

  /** Call when the client has sent `initialized`. */
  begin(folders: readonly string[], onFolders: (folders: readonly string[]) => void): void {
    const { connection, client } = this.parts;
    const use = (uris: readonly string[]): void => {
      this.uris = uris;
      this.index.folders(uris);
    };
    if (client().workspaceFolders)
      connection.workspace.onDidChangeWorkspaceFolders((event: unknown) => {
        const { added, removed } = isObject(event) ? event : {};
        const log = (line: string): void => connection.console.warn(line);
        const gone = new Set(urisOf(removed, log).map(keyOf));
        const left = this.uris.filter((uri) => !gone.has(keyOf(uri)));
        const now = [...left, ...urisOf(added, log)];
        // The roots are set first, as they bound what may be read.
        onFolders(now);
        use(now);
      });
    connection.workspace.onDidRenameFiles(({ files }) => {
      this.index.touched(files.flatMap(({ oldUri, newUri }) => [oldUri, newUri]));
      for (const { newUri } of files) if (!newUri.endsWith('.hoof')) this.index.arrived(newUri);
    });
    connection.workspace.onDidDeleteFiles(({ files }) => this.index.touched(files.map(({ uri }) => uri)));
    connection.workspace.onDidCreateFiles(({ files }) => {
      this.index.touched(files.map(({ uri }) => uri));
      for (const { uri } of files) if (!uri.endsWith('.hoof')) this.index.arrived(uri);
    });
    if (client().watcherRegistration) this.watch();
    use(folders);
  }

  /** As `dayNumber` counts, on the clock of whoever writes. */
  get today(): number {
    return dayNumber(dateOf(this.parts.machine.now())) ?? 0;
  }

  /** Whether a document lies in one of the folders. */
  counts(document: TextDocument): boolean {
    return this.index.covers(keyOf(document.uri));
  }

  /** Whether anybody tells when a file that is not open changes. */
  get hearsOfChanges(): boolean {
    return this.parts.client().watcherRegistration;
  }

  read(uri: string, most: number): Promise<FileBytes> {
    return this.parts.machine.readBytes(uri, most).catch(() => null);
  }

  /** A case that is not open, inspected as it stands on the disk now; null where it cannot be read. */
  async inspection(uri: string): Promise<Inspection | null> {
    const bytes = await this.read(uri, largestFile);
    return bytes && bytes !== 'too large' ? this.reader.inspection(uri, bytes) : null;
  }

  /** Every case that counts, the open ones first. */
  *cases(): Generator<KnownCase> {
    const open = this.index.openCases();
    for (const [key, document] of open) yield { key, uri: document.uri, entry: this.entryOf(document), document };
    for (const [key, { uri, entry }] of this.index.onDisk)
      if (!open.has(key)) yield { key, uri, entry, document: null };
  }

  /** The diagnostics of an open document, those that come from other files included. */
  diagnostics(document: TextDocument): Diagnostic[] {
    return [...this.ownDiagnostics(document), ...this.acrossDiagnostics(document.uri)];
  }

  ownDiagnostics(document: TextDocument): Diagnostic[] {
    const { inspections, lessons, client } = this.parts;
    return diagnosticsOf(document, lessons.told(document, inspections.of(document)).findings, client());
  }

  /** The diagnostics of a file that come from other files. */
  acrossDiagnostics(uri: string): Diagnostic[] {
    return (this.acrossNow().get(uri) ?? []).map((finding) => acrossDiagnostic(finding, this.parts.client()));
  }

  private entryOf(document: TextDocument): IndexEntry {
    const inspection = this.parts.inspections.of(document);
    const known = this.entries.get(inspection);
    if (known?.due.today === this.today) return known;
    const entry = indexEntry(inspection, this.today);
    this.entries.set(inspection, entry);
    return entry;
  }

  private acrossNow(): ReadonlyMap<string, readonly AcrossFinding[]> {
    const open = [...this.index.openCases()].map(([key, document]) => {
      const { tree, study } = this.parts.inspections.of(document);
      const facts = caseFacts(tree, study.record);
      return { key, uri: document.uri, facts };
    });
    const stamp = JSON.stringify([this.index.revision, open]);
    const { by } = this.parts.inspections;
    if (this.across?.stamp === stamp && this.across.by === by) return this.across.told;
    const isOpen = new Set(open.map(({ key }) => key));
    const closed = [...this.index.onDisk].flatMap(
      ([
        key,
        {
          uri,
          entry: { facts },
        },
      ]) => (isOpen.has(key) ? [] : [{ key, uri, facts }]),
    );
    const told = acrossFiles(
      [...open, ...closed].map(({ key, uri, facts }): CaseOfFile => ({
        file: uri,
        called: this.index.called(key),
        facts,
      })),
    );
    const levels = by.levels ?? noLevels;
    const wanted = new Map([...told].map(([uri, findings]) => [uri, atLevels(findings, levels)]));
    this.across = { stamp, by, told: wanted };
    return wanted;
  }

  /** Runs one turn of the event loop later, once for all changes that have arrived by then. */
  private lookAcrossSoon(): void {
    if (this.looking) return;
    this.looking = true;
    setTimeout(() => {
      this.looking = false;
      this.lookAcross();
    }, 0);
  }

  /** Sends diagnostics again for open documents for which other files now give different ones. */
  private lookAcross(): void {
    try {
      const told = this.acrossNow();
      const others: string[] = [];
      for (const { uri } of this.index.openCases().values()) {
        const now = JSON.stringify(told.get(uri) ?? []);
        if ((this.lastTold.get(uri) ?? '[]') !== now) others.push(uri);
        this.lastTold.set(uri, now);
      }
      if (others.length > 0) this.parts.retell(others);
    } catch (error) {
      this.parts.connection.console.error(`comparing the case files failed: ${described(error)}`);
    }
  }

  private watch(): void {
    // When a folder is deleted, many clients report only the folder, not its files.
    const watchers = [{ globPattern: '**/*.hoof' }, { globPattern: '**/*', kind: WatchKind.Delete }];
    const { connection } = this.parts;
    connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch((error: unknown) => {
      connection.console.error(`watching case files: ${described(error)}`);
    });
  }

  private sayTooMuch(): void {
    const message = t(
      'Ungula: there are more than {0} case files here, or folders nested too deep or too many to look into. The rest are not searched or compared; open a smaller folder to have all of them.',
      bounds.files.toLocaleString('en'),
    );
    const told = { type: MessageType.Warning, message };
    void this.parts.connection.sendNotification(ShowMessageNotification.method, told);
  }
}

const caseFilesAndFolders = {
  filters: [
    { pattern: { glob: '**/*.hoof', matches: FileOperationPatternKind.file } },
    { pattern: { glob: '**/*', matches: FileOperationPatternKind.folder } },
  ],
};

/** What the server wants to hear of folders and files. */
export const workspaceCapabilities: NonNullable<ServerCapabilities['workspace']> = {
  workspaceFolders: { supported: true, changeNotifications: true },
  fileOperations: {
    didCreate: caseFilesAndFolders,
    didRename: caseFilesAndFolders,
    didDelete: caseFilesAndFolders,
  },
};
