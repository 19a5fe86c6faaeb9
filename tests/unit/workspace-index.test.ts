import { CancellationToken, CancellationTokenSource } from 'vscode-languageserver';
import { describe, expect, it } from 'vitest';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import { MissingPictures } from '../../server/serving/missing-pictures.ts';
import { StoredScaleBook } from '../../server/serving/stored-scales.ts';
import { CaseIndex } from '../../server/workspace/case-index.ts';
import { childOf, keyOf, parentOf } from '../../server/workspace/file-key.ts';
import { CaseReader } from '../../server/workspace/read-case.ts';
import { bounds } from '../../server/workspace/walk.ts';
import type { Files } from '../../server/serving/files.ts';
import type { FolderEntry } from '../../shared/protocol/files.ts';
import { usualStudy } from '../../shared/trim/study.ts';

const root = 'file:///cases';
/** No case here names a picture for its scale. */
const noPictures: Files = {
  readBytes: () => Promise.resolve(null),
  listFolder: () => Promise.resolve(null),
  isThere: () => Promise.resolve(null),
  storedScale: () => Promise.resolve({ refused: 'not there' }),
  stampOf: () => Promise.resolve(null),
};
const text = (name: string): Uint8Array => Buffer.from(`hoof 1\ncase "${name}"\n`);

/** A machine whose every answer waits until the test lets it go. */
class SlowMachine {
  readonly files = new Map<string, Uint8Array>();
  readonly #held: { what: string; go: () => void }[] = [];
  #look = (): void => {};
  holds = true;
  readonly listed: string[] = [];

  async #wait(what: string): Promise<void> {
    if (!this.holds) return;
    await new Promise<void>((go) => {
      this.#held.push({ what, go });
      this.#look();
    });
  }

  /** Waits until the machine is asked this. */
  async asked(what: string): Promise<void> {
    while (!this.#held.some((one) => one.what === what)) await new Promise<void>((resolve) => (this.#look = resolve));
  }

  /** Lets the answer go, once it is asked for. */
  async release(what: string): Promise<void> {
    await this.asked(what);
    const at = this.#held.findIndex((one) => one.what === what);
    for (const { go } of this.#held.splice(at, 1)) go();
  }

  read = async (uri: string): Promise<Uint8Array | null> => {
    // What stands there when reading begins, as on a slow disk.
    const bytes = this.files.get(uri) ?? null;
    await this.#wait(`read ${uri}`);
    return bytes;
  };

  list = async (folder: string): Promise<FolderEntry[]> => {
    this.listed.push(folder);
    await this.#wait(`list ${folder}`);
    const names = new Map<string, FolderEntry>();
    for (const uri of this.files.keys()) {
      if (!uri.startsWith(`${folder}/`)) continue;
      const [name = '', ...below] = uri.slice(folder.length + 1).split('/');
      names.set(name, { name, kind: below.length > 0 ? 'folder' : 'file', size: null });
    }
    return [...names.values()];
  };
}

function indexOn(machine: Pick<SlowMachine, 'read' | 'list'>) {
  const said = { log: [] as string[], tooMuch: 0 };
  const client = clientAbilities(undefined);
  const index = new CaseIndex({
    list: machine.list,
    read: machine.read,
    reader: new CaseReader({
      scales: new StoredScaleBook(
        () => noPictures,
        () => [],
        { news: () => {}, changed: () => {} },
      ),
      missing: new MissingPictures(
        () => noPictures,
        () => [],
        () => {},
      ),
      keys: { of: () => () => null, learn: async () => {}, fileOf: () => null },
      settings: () => usualStudy,
      today: () => 20_000,
      client: () => client,
    }),
    open: () => [],
    progress: { at: () => {}, end: () => {} },
    changed: () => {},
    tooMuch: () => void (said.tooMuch += 1),
    log: (message) => said.log.push(message),
  });
  return { index, said };
}

const names = (index: CaseIndex) => [...index.onDisk.values()].map(({ entry }) => entry.facts.name).sort();

describe('the index of case files', () => {
  it('drops what it was reading of a file that changes meanwhile, and reads it once more', async () => {
    const machine = new SlowMachine();
    const { index } = indexOn(machine);
    const uri = `${root}/a.hoof`;
    machine.files.set(uri, text('old'));
    index.folders([root]);
    await machine.release(`list ${root}`);
    await machine.asked(`read ${uri}`);
    // The old bytes are on their way.
    machine.files.set(uri, text('new'));
    index.touched([uri]);
    machine.holds = false;
    await machine.release(`read ${uri}`);
    await index.settled(CancellationToken.None);
    expect(names(index)).toEqual(['new']);
  });

  it('ends the walk through a folder that is closed meanwhile', async () => {
    const machine = new SlowMachine();
    const { index } = indexOn(machine);
    machine.files.set(`${root}/deep/er/a.hoof`, text('a'));
    machine.files.set('file:///other/b.hoof', text('b'));
    index.folders([root]);
    await machine.release(`list ${root}`);
    await machine.asked(`list ${root}/deep`);
    index.folders(['file:///other']);
    await machine.release(`list ${root}/deep`);
    await machine.release('list file:///other');
    await machine.release('read file:///other/b.hoof');
    await index.settled(CancellationToken.None);
    // What lies deeper was not looked into any more.
    expect(machine.listed).not.toContain(`${root}/deep/er`);
    expect(names(index)).toEqual(['b']);
  });

  it('gives up waiting with whoever waits', async () => {
    const machine = new SlowMachine();
    const { index } = indexOn(machine);
    index.folders([root]);
    const source = new CancellationTokenSource();
    const waiting = index.settled(source.token);
    source.cancel();
    await waiting;
    expect(index.busy).toBe(true);
    await machine.release(`list ${root}`);
    await index.settled(CancellationToken.None);
  });

  it('stops at its bounds, and says so once', async () => {
    // A folder in which another of the same lies, and so on without end.
    const list = (): Promise<FolderEntry[]> => Promise.resolve([{ name: 'again', kind: 'folder', size: null }]);
    const { index, said } = indexOn({ list, read: () => Promise.resolve(null) });
    index.folders([root]);
    await index.settled(CancellationToken.None);
    expect([said.tooMuch, index.lack]).toEqual([1, 'too much']);
    const crowded = Array.from({ length: bounds.files + 1 }, (_, number): FolderEntry => ({
      name: `${number}.hoof`,
      kind: 'file',
      size: 10_000_001,
    }));
    const full = indexOn({ list: () => Promise.resolve(crowded), read: () => Promise.resolve(null) });
    full.index.folders([root]);
    await full.index.settled(CancellationToken.None);
    expect([full.said.tooMuch, full.index.onDisk.size]).toEqual([1, bounds.files]);
  });
});

describe('a file', () => {
  it('is the same however its URI is written', () => {
    const same = ['file:///c%3A/a%20b/it%27s.hoof', "file:///C:/a b/it's.hoof", "FILE:///c:/a%20b/it's.hoof"];
    expect(new Set(same.map(keyOf)).size).toBe(1);
    expect(keyOf('file:///a/x.hoof')).not.toBe(keyOf('vscode-vfs://host/a/x.hoof'));
    // Broken escapes are left as they are.
    expect(keyOf('file:///a%zz.hoof')).toBe('file:///a%zz.hoof');
  });

  it('is found again from its folder and name', () => {
    const uri = childOf('file:///a%20b/', '100% (old) 🐴.hoof');
    expect(parentOf(uri)).toEqual({ folder: 'file:///a%20b', name: '100% (old) 🐴.hoof' });
  });
});
