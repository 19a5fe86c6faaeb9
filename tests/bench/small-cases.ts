import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readdir, readFile, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { CancellationToken } from 'vscode-languageserver';
import { clientAbilities } from '../../server/client-abilities.ts';
import type { ListFolder, ReadBytes } from '../../server/files.ts';
import { StoredScaleBook } from '../../server/stored-scales.ts';
import { CaseIndex } from '../../server/workspace/case-index.ts';
import { CaseReader } from '../../server/workspace/read-case.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { bigCase } from './big-case.ts';

/** 5,500 visits in 1,000 files make files of 11 KB, and together as many bytes as a case of all these visits. */
export const smallCases = 1000;

/** The visits of a big case spread over a thousand small ones, in folders of a hundred; gone when the process ends. */
export function folderOfSmallCases(visits: number): string {
  const folder = mkdtempSync(join(tmpdir(), 'ungula bench-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const texts = new Map<number, string>();
  for (let number = 0; number < smallCases; number++) {
    // Where the visits do not come out even, some files have one more.
    const count = Math.floor((visits * (number + 1)) / smallCases) - Math.floor((visits * number) / smallCases);
    const text = texts.get(count) ?? bigCase(count);
    texts.set(count, text);
    const below = join(folder, String(number % 10));
    mkdirSync(below, { recursive: true });
    writeFileSync(join(below, `${number}.hoof`), text);
  }
  return pathToFileURL(folder).href;
}

/** As the server reads files under Node. */
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
export async function indexed(folder: string): Promise<CaseIndex> {
  const nothing = (): void => {};
  const client = clientAbilities(undefined);
  const index = new CaseIndex({
    list,
    read,
    reader: new CaseReader({
      scales: new StoredScaleBook(read, nothing),
      settings: () => usualStudy,
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
