import { t } from '../../shared/language/words.ts';
import { DidChangeWatchedFilesNotification, type Connection } from 'vscode-languageserver';
import { readReference } from '../../shared/findings/limits/read-reference.ts';
import type { OwnSet } from '../../shared/reference/own-set.ts';
import type { ReadBytes } from './files.ts';
import { described } from './guard.ts';

/** Largest file, bytes. More than anybody writes by hand: another file was named by mistake. */
const largest = 1_000_000;

interface OwnSetListener {
  /** The sets that can be used, in the order of the setting. */
  sets(sets: readonly OwnSet[]): void;
  /** One sentence about a file that cannot. */
  problem(sentence: string): void;
}

/** The sets of reference values that the setting names: read when it changes and when one of the files does. */
export class OwnSetBook {
  private readonly read: ReadBytes;
  private readonly told: OwnSetListener;
  private folders: readonly string[] = [];
  private names: readonly string[] = [];
  private uris: ReadonlySet<string> = new Set();
  private problems: ReadonlySet<string> = new Set();
  private round = 0;

  constructor(read: ReadBytes, told: OwnSetListener) {
    this.read = read;
    this.told = told;
  }

  /** URIs of the workspace's folders. */
  within(folders: readonly string[]): void {
    this.folders = folders;
    if (this.names.length > 0) void this.load();
  }

  use(names: readonly string[]): void {
    if (names.length === this.names.length && names.every((name, index) => name === this.names[index])) return;
    this.names = names;
    void this.load();
  }

  /** Call when files have changed on the disk. */
  changed(uris: readonly string[]): void {
    if (uris.some((uri) => this.uris.has(uri))) void this.load();
  }

  private async load(): Promise<void> {
    this.round += 1;
    const { round, names } = this;
    this.uris = new Set(names.flatMap((name) => this.places(name)));
    const found = await Promise.all(names.map((name) => this.one(name)));
    // The setting has changed again in the meantime.
    if (round !== this.round) return;
    const problems = new Set(found.filter((one) => typeof one === 'string'));
    for (const sentence of problems) if (!this.problems.has(sentence)) this.told.problem(sentence);
    this.problems = problems;
    this.told.sets(found.filter((one) => typeof one !== 'string'));
  }

  private async one(name: string): Promise<OwnSet | string> {
    const places = this.places(name);
    if (places.length === 0)
      return this.folders.length === 0
        ? t('{0}: no folder is open in which to look for these reference values.', name)
        : t(
            '{0}: the path of a set of reference values is relative to the folder that is open, and stays within it.',
            name,
          );
    for (const uri of places) {
      const bytes = await this.read(uri, largest).catch(() => null);
      if (!bytes) continue;
      const { set, problem } =
        bytes === 'too large' ? { set: null, problem: t('this is too large.') } : understood(bytes);
      return set ?? `${name}: ${problem}`;
    }
    return t('{0}: this set of reference values cannot be read.', name);
  }

  /** The URIs that a name may stand for: one in each open folder, as a folder's setting must not reach out of it. */
  private places(name: string): string[] {
    const steps = name.split('/');
    const leaves =
      name.startsWith('/') || /^[a-z][a-z0-9+.-]*:/i.test(name) || steps.includes('..') || /[\\]/.test(name);
    if (leaves || name === '') return [];
    return this.folders.flatMap((folder) => {
      try {
        return [new URL(steps.map(encodeURIComponent).join('/'), folder.endsWith('/') ? folder : `${folder}/`).href];
      } catch {
        return [];
      }
    });
  }
}

/** Asks the client to tell of changed files, so that a set is read again each time it is saved. */
export function watchOwnSets(connection: Connection): void {
  const watchers = [{ globPattern: '**/*.hoof-reference.json' }];
  connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch((error: unknown) => {
    connection.console.error(`watching sets of reference values: ${described(error)}`);
  });
}

function understood(bytes: Uint8Array): ReturnType<typeof readReference> {
  try {
    return readReference(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return { set: null, problem: t('this is not UTF-8 text.') };
  }
}
