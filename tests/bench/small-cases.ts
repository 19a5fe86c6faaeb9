import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readdir, readFile, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { CancellationToken } from 'vscode-languageserver';
import { clientAbilities } from '../../server/serving/client-abilities.ts';
import type { Files, ListFolder, ReadBytes } from '../../server/serving/files.ts';
import { MissingPictures } from '../../server/serving/missing-pictures.ts';
import { StoredScaleBook } from '../../server/serving/stored-scales.ts';
import { CaseIndex } from '../../server/workspace/case-index.ts';
import { CaseReader } from '../../server/workspace/read-case.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { summed, type Result } from './result.ts';
import { usualCase } from './usual-case.ts';

const smallCases = 1000;
/** Of usual visits these make files of 11 KB. */
const visitsEach = 10;

/** Times of a cold index of 1,000 files of 11 KB each, no two alike; the folder is gone when the process ends. */
export async function indexedCases(runs: number): Promise<Result> {
  const { folder, bytes } = folderOfSmallCases();
  const times: number[] = [];
  for (let run = 0; run < runs + 1; run++) {
    const began = performance.now();
    await indexed(folder);
    // The first warms the disk's cache and the compiler.
    if (run > 0) times.push(performance.now() - began);
  }
  return summed('index', bytes, times);
}

function folderOfSmallCases(): { readonly folder: string; readonly bytes: number } {
  const folder = mkdtempSync(join(tmpdir(), 'ungula bench-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const [head = '', ...visits] = usualCase(smallCases * visitsEach).split(/^(?=visit )/m);
  let bytes = 0;
  for (let number = 0; number < smallCases; number++) {
    const text = [head, ...visits.slice(number * visitsEach, (number + 1) * visitsEach)].join('');
    const below = join(folder, String(number % 10));
    mkdirSync(below, { recursive: true });
    writeFileSync(join(below, `${number}.hoof`), text);
    bytes += text.length;
  }
  return { folder: pathToFileURL(folder).href, bytes };
}

/** As the server reads files under Node. */
/** No case here names a picture for its scale. */
const noPictures: Files = {
  readBytes: () => Promise.resolve(null),
  listFolder: () => Promise.resolve(null),
  isThere: () => Promise.resolve(null),
  storedScale: () => Promise.resolve({ refused: 'not there' }),
  stampOf: () => Promise.resolve(null),
};
const read: ReadBytes = (uri) => readFile(fileURLToPath(uri));
const list: ListFolder = async (uri) => {
  const folder = fileURLToPath(uri);
  const entries = await readdir(folder, { withFileTypes: true });
  return Promise.all(
    entries.map(async (entry) => ({
      name: entry.name,
      kind: entry.isDirectory() ? ('folder' as const) : ('file' as const),
      size: (await stat(join(folder, entry.name))).size,
    })),
  );
};

/** Found, read, inspected and kept, by an index that knows nothing before. */
async function indexed(folder: string): Promise<CaseIndex> {
  const nothing = (): void => {};
  const client = clientAbilities(undefined);
  const index = new CaseIndex({
    list,
    read,
    reader: new CaseReader({
      scales: new StoredScaleBook(
        () => noPictures,
        () => [],
        { news: nothing, changed: nothing },
      ),
      missing: new MissingPictures(
        () => noPictures,
        () => [],
        nothing,
      ),
      keys: { of: () => () => null, learn: async () => {}, fileOf: () => null },
      settings: () => usualStudy,
      today: () => 20_000,
      client: () => client,
    }),
    open: () => [],
    progress: { at: nothing, end: nothing },
    changed: nothing,
    tooMuch: nothing,
    log: (message) => {
      throw new Error(message);
    },
  });
  index.folders([folder]);
  await index.settled(CancellationToken.None);
  if (index.onDisk.size !== smallCases) throw new Error(`${index.onDisk.size} files are in the index`);
  return index;
}
