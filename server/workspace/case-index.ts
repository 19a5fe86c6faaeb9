import type { CancellationToken } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { largestFile } from '../../shared/findings/engine/file-problems.ts';
import type { FolderEntry } from '../../shared/protocol/files.ts';
import type { ListFolder, ReadBytes } from '../serving/files.ts';
import { described } from '../serving/guard.ts';
import { isWithin, keyOf, parentOf } from './file-key.ts';
import { Pauses } from './pause.ts';
import type { CaseReader, IndexedFile } from './read-case.ts';
import { bounds, isPassedOver, walk } from './walk.ts';

/** What the index needs of the server. */
export interface IndexSources {
  readonly list: ListFolder;
  readonly read: ReadBytes;
  readonly reader: CaseReader;
  /** The open documents; each counts in place of its file. */
  readonly open: () => Iterable<TextDocument>;
  readonly progress: IndexProgress;
  /** After each stretch of work, and when all is done. */
  readonly changed: () => void;
  /** Called when the folders hold more files than are read. */
  readonly tooMuch: () => void;
  readonly log: (message: string) => void;
}

export interface IndexProgress {
  at(done: number, total: number): void;
  end(): void;
}

interface Wanted {
  readonly uri: string;
  /** From the last listing; null where it is not known whether the file is still there. */
  readonly seen: Pick<FolderEntry, 'size'> | null;
}

/** Files read at a time: reading waits for the disk, so several wait together. */
const batch = 8;

/** Why not every case file of the folders is in the index. */
export type Lack = 'stopped' | 'too much';

/** A cache: an entry for every case file of the open folders, kept up to date as files come, change and go. */
export class CaseIndex {
  private readonly ground: IndexSources;
  private readonly files = new Map<string, IndexedFile>();
  /** Files waiting to be read, in this order. */
  private readonly waiting = new Map<string, Wanted>();
  /** Files being read. One that changes meanwhile is taken out, and what was read is dropped. */
  private readonly reading = new Map<string, Wanted>();
  private roots: readonly { readonly uri: string; readonly key: string }[] = [];
  private unwalked: string[] = [];
  private running = false;
  private steps: (() => void)[] = [];
  private done = 0;
  private lacking: Lack | null = null;
  /** Goes up with each change of what is known of the files on the disk. */
  revision = 0;

  constructor(ground: IndexSources) {
    this.ground = ground;
  }

  get busy(): boolean {
    return this.running;
  }

  /** Null where every case file has been found and read, or will be. */
  get lack(): Lack | null {
    return this.lacking;
  }

  /** The files on the disk by key, open or not. */
  get onDisk(): ReadonlyMap<string, IndexedFile> {
    return this.files;
  }

  /** The folders that are open now: new ones are walked, and what lay in those that are gone is forgotten. */
  folders(uris: readonly string[]): void {
    const before = new Set(this.roots.map(({ key }) => key));
    this.roots = uris.map((uri) => ({ uri, key: keyOf(uri) }));
    for (const map of [this.files, this.waiting, this.reading])
      for (const key of map.keys()) if (!this.covers(key)) map.delete(key);
    this.revision += 1;
    // What had no room before may have some now.
    const anew = this.lacking === 'too much' ? this.roots : this.roots.filter(({ key }) => !before.has(key));
    if (this.lacking === 'too much') this.lacking = null;
    const left = this.unwalked.filter((uri) => this.covers(keyOf(uri)));
    this.unwalked = [...new Set([...left, ...anew.map(({ uri }) => uri)])];
    this.run();
    if (!this.running) this.tell();
  }

  /** Whether a file lies in one of the folders, so that it counts; a key. */
  covers(key: string): boolean {
    return this.roots.some((root) => isWithin(key, root.key));
  }

  /** The name of a file in messages: its path in its open folder. */
  called(key: string): string {
    const root = this.roots.find((one) => isWithin(key, one.key));
    if (!root) return parentOf(key).name;
    const path = key.slice(root.key.length + 1);
    return this.roots.length === 1 ? path : `${parentOf(root.key).name}/${path}`;
  }

  /** Files or folders that were created, changed, deleted or renamed: what is there now is looked up. */
  touched(uris: readonly string[]): void {
    const keys = new Set<string>();
    for (const uri of uris) {
      const key = keyOf(uri);
      keys.add(key);
      if (uri.endsWith('.hoof') && this.covers(key) && !this.isPassedOver(key)) this.want(key, { uri, seen: null });
    }
    const touches = (key: string): boolean => keys.has(key) || foldersAbove(key).some((folder) => keys.has(folder));
    for (const [key, { uri, reads }] of this.files)
      if (!this.waiting.has(key) && (touches(key) || reads.some((file) => keys.has(file))))
        this.want(key, { uri, seen: null });
    this.run();
  }

  /** Reads a folder that was moved in from elsewhere. */
  arrived(uri: string): void {
    const key = keyOf(uri);
    if (!this.covers(key) || this.isPassedOver(`${key}/x`)) return;
    this.unwalked.push(uri);
    this.run();
  }

  /** Reads every file again, as the settings have changed. */
  again(): void {
    const known = [...this.files].map(([key, { uri }]) => [key, uri] as const);
    const begun = [...this.reading].map(([key, { uri }]) => [key, uri] as const);
    for (const [key, uri] of [...known, ...begun]) this.want(key, { uri, seen: null });
    this.run();
  }

  /** Stops reading; the files still waiting stay unread. */
  stop(): void {
    if (this.waiting.size === 0 && this.unwalked.length === 0) return;
    this.lacking = 'stopped';
    this.ground.log(`reading the case files was stopped; ${this.waiting.size} that were found are not read`);
    this.waiting.clear();
    this.unwalked = [];
  }

  /** Waits until every file is read, those too that somebody has stopped. */
  async complete(token: CancellationToken): Promise<void> {
    if (this.lacking === 'stopped') {
      this.lacking = null;
      this.unwalked = this.roots.map(({ uri }) => uri);
      this.run();
    }
    await this.settled(token);
  }

  /** Waits until nothing is left to read, or the token is cancelled. */
  async settled(token: CancellationToken): Promise<void> {
    while (this.running && !token.isCancellationRequested) await this.step(token);
  }

  /** Waits for the next stretch of work, or the token. */
  step(token?: CancellationToken): Promise<void> {
    return new Promise((resolve) => {
      this.steps.push(resolve);
      token?.onCancellationRequested(() => resolve());
    });
  }

  /** What stands on the disk of one file, read at once where it is waiting for its turn. */
  async newest(key: string): Promise<IndexedFile | null> {
    const wanted = this.waiting.get(key);
    if (wanted) {
      this.waiting.delete(key);
      await this.readAll([[key, wanted]], new Pauses());
      this.tell();
    } else while (this.reading.has(key)) await this.step();
    return this.files.get(key) ?? null;
  }

  /** The open documents that count, by key. */
  openCases(): Map<string, TextDocument> {
    const open = new Map<string, TextDocument>();
    for (const document of this.ground.open()) {
      const key = keyOf(document.uri);
      if (this.covers(key)) open.set(key, document);
    }
    return open;
  }

  /** Whether a file is hidden, or lies in a folder that is not walked. */
  private isPassedOver(key: string): boolean {
    return this.roots
      .filter((root) => isWithin(key, root.key))
      .every((root) =>
        key
          .slice(root.key.length + 1)
          .split('/')
          .some(isPassedOver),
      );
  }

  private want(key: string, wanted: Wanted): void {
    this.reading.delete(key);
    this.waiting.delete(key);
    this.waiting.set(key, wanted);
  }

  private run(): void {
    if (this.running || (this.waiting.size === 0 && this.unwalked.length === 0)) return;
    this.running = true;
    this.done = 0;
    void this.work()
      .catch((error: unknown) => {
        this.waiting.clear();
        this.unwalked = [];
        this.ground.log(`reading the case files failed: ${described(error)}`);
      })
      .finally(() => {
        this.running = false;
        this.ground.progress.end();
        // More files may have been queued meanwhile.
        this.run();
        this.tell();
      });
  }

  private async work(): Promise<void> {
    const pauses = new Pauses();
    for (;;) {
      const [root] = this.unwalked;
      if (root !== undefined) {
        await this.walkFrom(root);
        continue;
      }
      const next = first(this.waiting, batch);
      if (next.length === 0) return;
      for (const [key] of next) this.waiting.delete(key);
      this.ground.progress.at(this.done, this.done + next.length + this.waiting.size);
      await this.readAll(next, pauses);
      this.done += next.length;
      this.tell();
    }
  }

  private async walkFrom(root: string): Promise<void> {
    const stopped = (): boolean => !this.unwalked.includes(root);
    const end = await walk(root, {
      list: this.ground.list,
      stopped,
      found: ({ uri, size }) => {
        const key = keyOf(uri);
        if (stopped() || this.files.has(key) || this.waiting.has(key) || this.reading.has(key)) return true;
        if (this.files.size + this.waiting.size + this.reading.size >= bounds.files) return false;
        this.waiting.set(key, { uri, seen: { size } });
        return true;
      },
    });
    if (stopped()) return;
    this.unwalked = this.unwalked.filter((uri) => uri !== root);
    if (end === 'unreadable') this.ground.log(`the folder ${root} cannot be read, so its case files are not known`);
    if (end !== 'too much' || this.lacking === 'too much') return;
    this.lacking = 'too much';
    this.ground.tooMuch();
  }

  private async readAll(wanted: readonly (readonly [key: string, wanted: Wanted])[], pauses: Pauses): Promise<void> {
    const open = this.openCases();
    const listings = new Map<string, ReturnType<ListFolder>>();
    for (const [key, one] of wanted) this.reading.set(key, one);
    // All at once from the disk, and then one by one.
    const reads = wanted.map(([key, one]) => (open.has(key) ? null : this.bytesOf(one, listings)));
    for (const [index, [key, one]] of wanted.entries()) {
      const read = await reads[index];
      await pauses.now();
      const file = read && this.reading.get(key) === one ? await this.fileOf(one.uri, read) : null;
      if (this.reading.get(key) !== one) continue;
      this.reading.delete(key);
      // An open document counts in its place, and the file is read when it is closed.
      if (open.has(key)) continue;
      this.revision += 1;
      if (file) this.files.set(key, sameTold(file, this.files.get(key)));
      else this.files.delete(key);
    }
  }

  /** Null where it is not there, or no plain file. */
  private async bytesOf({ uri, seen }: Wanted, listings: Map<string, ReturnType<ListFolder>>): Promise<Bytes | null> {
    let there = seen;
    if (!there) {
      const { folder, name } = parentOf(uri);
      const listing = listings.get(folder) ?? this.ground.list(folder).catch(() => null);
      listings.set(folder, listing);
      there = (await listing)?.find((entry) => entry.name === name && entry.kind === 'file') ?? null;
    }
    if (!there) return null;
    if (there.size !== null && there.size > largestFile) return 'too large';
    return this.ground.read(uri, largestFile).catch(() => null);
  }

  private async fileOf(uri: string, bytes: Bytes): Promise<IndexedFile> {
    try {
      return bytes === 'too large'
        ? this.ground.reader.tooLarge(uri, 'bytes')
        : await this.ground.reader.read(uri, bytes);
    } catch (error) {
      this.ground.log(`reading ${uri} failed: ${described(error)}`);
      return this.ground.reader.unread(uri);
    }
  }

  private tell(): void {
    const { steps } = this;
    this.steps = [];
    for (const go of steps) go();
    this.ground.changed();
  }
}

/** The first `count`, without a copy of all the others. */
function first<T>(all: Iterable<T>, count: number): T[] {
  const some: T[] = [];
  for (const one of all) if (some.push(one) >= count) break;
  return some;
}

type Bytes = Uint8Array | 'too large';

/** Keeps the old object where nothing differs, so that identity tells whether the client has to hear of it. */
function sameTold(file: IndexedFile, before: IndexedFile | undefined): IndexedFile {
  return before?.told.isSameAs(file.told) ? { ...file, told: before.told } : file;
}

function foldersAbove(key: string): string[] {
  const folders: string[] = [];
  for (let at = key.lastIndexOf('/'); at > 0; at = key.lastIndexOf('/', at - 1)) folders.push(key.slice(0, at));
  return folders;
}
