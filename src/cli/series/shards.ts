import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import * as z from 'zod/mini';
import { program } from '../../../shared/export/structured/uids.ts';
import { t } from '../../../shared/language/words.ts';
import { extras } from '../../../shared/series/columns.ts';
import {
  dataPackage,
  packageFile,
  reportFile,
  type SeriesOptions,
  type TablePart,
} from '../../../shared/series/data-package.ts';
import { addedCounts, seriesCountsSchema, type SeriesCounts } from '../../../shared/series/series-counts.ts';
import { seriesReport } from '../../../shared/series/series-report.ts';
import { tableNames, type TableName } from '../../../shared/series/tables.ts';
import { CommandProblem } from '../problem.ts';
import { saveFile } from '../save-file.ts';
import {
  besideIn,
  filesIn,
  made,
  manifestPath,
  namesIn,
  noPackageOfOthers,
  unfinishedFolder,
} from './package-folder.ts';
import { partPath } from './table-files.ts';

/** One of several programs that write one package: the cases whose codes fall to it. */
export interface Shard {
  /** From 1. */
  readonly number: number;
  readonly of: number;
}

/** Which shard a case belongs to: by its code alone, so that the others of the series do not matter. @returns from 1 */
export const shardOf = (code: string, of: number): number =>
  (createHash('sha256').update(code.toLowerCase()).digest().readUInt32BE() % of) + 1;

const partSchema = z.object({
  table: z.enum(tableNames as [TableName, ...TableName[]]),
  format: z.enum(['csv', 'parquet']),
  path: z.string().check(z.regex(/^[a-z]+\/shard=\d+\/part-0\.(?:csv|parquet)$/)),
  bytes: z.int(),
  sha256: z.string(),
  shard: z.int(),
});

const spreadSchema = z.record(z.string(), z.number());

/** What a shard says of itself; it is written last, so that a shard without it is not whole. */
const manifestSchema = z.object({
  ungula: z.literal(1),
  program: z.string(),
  shard: z.int(),
  of: z.int(),
  seed: z.string(),
  options: z.object({
    asked: z.array(z.enum(extras)),
    dates: z.enum(['days since the first visit', 'shifted', 'as written']),
    parquet: z.boolean(),
    settings: z.object({ spread: spreadSchema, trim: spreadSchema, change: spreadSchema }),
    reference: z.object({ sha256: z.string(), ownSets: z.int(), ownSha256: z.nullable(z.string()) }),
  }),
  counts: seriesCountsSchema,
  parts: z.array(partSchema),
});

type Manifest = z.infer<typeof manifestSchema>;

const programNow = `${program.name} ${program.version}`;

/**
 * Writes one shard into the package's folder, beside others that are written at the same time. Its tables are made beside and then put
 * in their places; what it said of itself before is taken away first.
 *
 * @param fill makes the tables in a folder
 */
export async function writeShard(
  folder: string,
  { shard, options, seed }: { readonly shard: Shard; readonly options: SeriesOptions; readonly seed: string },
  fill: (beside: string) => Promise<{ readonly parts: readonly TablePart[]; readonly counts: SeriesCounts }>,
): Promise<{ readonly counts: SeriesCounts }> {
  await onlyShardsIn(folder);
  const beside = besideIn(folder);
  return made(beside, async () => {
    const { parts, counts } = await fill(beside);
    await onlyShardsIn(folder);
    const own = join(folder, manifestPath(shard.number));
    // Without these nobody takes what is between old and new for a package.
    for (const path of [join(folder, packageFile), join(folder, reportFile), own]) await rm(path, { force: true });
    for (const table of tableNames)
      await rm(join(folder, dirname(partPath(table, 'csv', shard.number))), { recursive: true, force: true });
    for (const { table } of parts.filter(({ format }) => format === 'csv')) {
      const place = dirname(partPath(table, 'csv', shard.number));
      await mkdir(dirname(join(folder, place)), { recursive: true });
      await rename(join(beside, place), join(folder, place));
    }
    const manifest = {
      ungula: 1,
      program: programNow,
      shard: shard.number,
      of: shard.of,
      seed,
      options,
      counts,
      parts,
    };
    await saveFile(own, `${JSON.stringify(manifest, null, 2)}\n`);
    return { counts };
  });
}

/** @throws CommandProblem where something else lies in the folder */
async function onlyShardsIn(folder: string): Promise<void> {
  noPackageOfOthers(folder);
  const known = new Set<string>([...tableNames, 'shards', packageFile, reportFile]);
  const foreign = (await namesIn(folder)).find((name) => !known.has(name) && !unfinishedFolder.test(name));
  if (foreign !== undefined)
    throw new CommandProblem(
      t('holds {0} too, which is not of the package; it was left as it is. Name another folder', foreign),
    );
  for (const table of tableNames) {
    const odd = (await namesIn(join(folder, table))).find((name) => !/^shard=\d+$/.test(name));
    if (odd !== undefined)
      throw new CommandProblem(
        t('holds {0} too, which is not of the package; it was left as it is. Name another folder', `${table}/${odd}`),
      );
  }
}

/** Puts the shards of a folder together: one `datapackage.json` that lists all parts. What does not fit is refused, and nothing is written. */
export async function joinShards(folder: string): Promise<{ readonly counts: SeriesCounts; readonly shards: number }> {
  const manifests = await manifestsIn(folder);
  const [first] = manifests;
  if (!first) throw new CommandProblem(t('no shard has been written here; export with --shard 1/2 and so on first'));
  const missing = Array.from({ length: first.of }, (_, index) => index + 1).filter(
    (number) => !manifests.some(({ shard }) => shard === number),
  );
  if (missing.length > 0)
    throw new CommandProblem(t('of {0} shards these are not there, or not whole: {1}', first.of, missing.join(', ')));
  for (const one of manifests) {
    if (one.of !== first.of || one.shard > one.of)
      throw new CommandProblem(
        t('shard {0} is one of {1}, and shard {2} one of {3}', first.shard, first.of, one.shard, one.of),
      );
    if (one.program !== programNow || JSON.stringify(one.options) !== JSON.stringify(first.options))
      throw new CommandProblem(
        t(
          'shard {0} was written with other options, or by another version, than shard {1}; write it again',
          one.shard,
          first.shard,
        ),
      );
    if (one.seed !== first.seed)
      throw new CommandProblem(
        t(
          'shard {0} was written with another seed than shard {1}, so that its readers have other codes',
          one.shard,
          first.shard,
        ),
      );
  }
  const parts = manifests.flatMap((manifest) => manifest.parts);
  await asWritten(folder, parts);
  const counts = addedCounts(manifests.map((manifest) => manifest.counts));
  const whole = { options: first.options as unknown as SeriesOptions, shards: first.of, parts, counts };
  await rm(join(folder, packageFile), { force: true });
  await saveFile(join(folder, reportFile), seriesReport(whole, null));
  await saveFile(join(folder, packageFile), `${JSON.stringify(dataPackage(whole), null, 2)}\n`);
  return { counts, shards: first.of };
}

/** In the order of their numbers. */
async function manifestsIn(folder: string): Promise<Manifest[]> {
  const all: Manifest[] = [];
  for (const name of await namesIn(join(folder, 'shards'))) {
    if (!/^shard-\d+\.json$/.test(name)) continue;
    const read = manifestSchema.safeParse(await jsonIn(join(folder, 'shards', name)));
    if (!read.success || manifestPath(read.data.shard) !== `shards/${name}`)
      throw new CommandProblem(t('{0} is not what a shard says of itself; write that shard again', `shards/${name}`));
    all.push(read.data);
  }
  return all.toSorted((a, b) => a.shard - b.shard);
}

async function jsonIn(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, 'utf8'));
  } catch {
    return null;
  }
}

/** @throws CommandProblem where a part is gone or was changed, or there is one that no shard wrote */
async function asWritten(folder: string, parts: readonly TablePart[]): Promise<void> {
  const known = new Set(parts.map(({ path }) => path));
  const foreign = filesIn(folder).find((path) => /\/shard=/.test(path) && !known.has(path));
  if (foreign !== undefined && !unfinishedFolder.test(foreign.split('/')[0] ?? ''))
    throw new CommandProblem(t('{0} belongs to none of the shards; take it away', foreign));
  for (const { path, bytes, sha256 } of parts) {
    const size = (await stat(join(folder, path)).catch(() => null))?.size ?? -1;
    if (size !== bytes || (await digestOf(join(folder, path))) !== sha256)
      throw new CommandProblem(t('{0} is not as its shard wrote it; write that shard again', path));
  }
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array);
  return hash.digest('hex');
}
