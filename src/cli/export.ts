import { createHash } from 'node:crypto';
import { join, resolve } from 'node:path';
import { shownLines } from '../../shared/export/shown-characters.ts';
import { counted, t } from '../../shared/language/words.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRows } from '../../shared/series/case-rows.ts';
import { extras, type Extra } from '../../shared/series/columns.ts';
import { dataPackage, packageFile, reportFile, type SeriesOptions } from '../../shared/series/data-package.ts';
import { gateOf, stays, staysWords, type Gate, type Stays } from '../../shared/series/gate.ts';
import { ownReferenceText, referenceText } from '../../shared/series/reference-text.ts';
import { SeriesTally, type SeriesCounts } from '../../shared/series/series-counts.ts';
import { mostListed, seriesReport, textKindWords, type RemovedOfCase } from '../../shared/series/series-report.ts';
import type { SeriesView } from '../../shared/series/series-view.ts';
import { textKinds } from '../../shared/series/texts.ts';
import type { StudySettings } from '../../shared/trim/study.ts';
import { eachCase } from './case-files.ts';
import { Unusable, type Command, type Io, type OptionValue, type Status } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { reason } from './problem.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';
import { inPlaceOf } from './series/package-folder.ts';
import { seedOf, type Seed } from './series/seed.ts';
import { joinShards, shardOf, writeShard, type Shard } from './series/shards.ts';
import { TableFiles } from './series/table-files.ts';

export const exportSeries: Command = {
  name: 'export',
  usage:
    'ungula export FILE… -o DIR [--with dates|texts|readers|names|numbers|pictures]… [--shift-dates SEED] [--seed SEED] [--parquet] [--shard N/OF] [--reference FILE]… [--root DIR] | --join DIR',
  doc: 'A case series as a data package: the cases that their files let out, under their study codes and without what names anybody, as tables for other programs.',
  takesFiles: false,
  options: {
    output: { type: 'string', short: 'o' },
    with: { type: 'string', multiple: true },
    'shift-dates': { type: 'string' },
    seed: { type: 'string' },
    parquet: { type: 'boolean' },
    shard: { type: 'string' },
    join: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    if (options['join'] !== undefined) return joined(names, options, io);
    const asked = askedFor(options['with'], options['shift-dates']);
    const output = options['output'];
    if (names.length === 0) throw new Unusable(t('export wants case files or folders: {0}', exportSeries.usage));
    if (names.includes('-')) throw new Unusable(t('export reads files and folders, not standard input'));
    if (typeof output !== 'string' || output === '')
      throw new Unusable(t('export wants the folder of the package to write: -o DIR'));
    const shard = options['shard'] === undefined ? null : shardFrom(options['shard']);
    const seed = await seedFrom(options, shard);
    const settings = await settingsWith(options['reference']);
    const work: Export = {
      names,
      output,
      asked,
      seed,
      settings,
      root: await rootFrom(options['root']),
      shard,
      options: seriesOptions(asked, settings, options),
      io,
    };
    return write(work);
  },
};

interface Export {
  readonly names: readonly string[];
  readonly output: string;
  readonly asked: ReadonlySet<Extra>;
  readonly seed: Seed;
  readonly settings: StudySettings;
  readonly root: readonly string[];
  readonly shard: Shard | null;
  readonly options: SeriesOptions;
  readonly io: Io;
}

/** A case file that may leave. */
interface Leaving extends Pick<SeriesView, 'code' | 'sharing'> {
  readonly name: string;
}

/** Cases that do not leave for one reason, and the first of their files. */
interface Stayed {
  readonly count: number;
  readonly names: readonly string[];
}

async function write(work: Export): Promise<Status> {
  const { output, shard, io, options, seed } = work;
  const tally = new SeriesTally();
  const stayed = new Map<Stays, Stayed>();
  const stay = (why: Stays, name: string): void => {
    tally.stayed(why);
    const same = stayed.get(why) ?? { count: 0, names: [] };
    stayed.set(why, {
      count: same.count + 1,
      names: same.names.length < mostNamed ? [...same.names, name] : same.names,
    });
  };
  const leaving = await look(work, tally, stay);
  if (leaving.length === 0 && shard === null) {
    sayStayed(stayed, io);
    io.err(t('no case leaves, so no package is written'));
    return 2;
  }
  try {
    if (shard)
      await writeShard(output, { shard, options, seed: seed.check }, (beside) =>
        fill(work, beside, leaving, tally, stay),
      );
    else
      await inPlaceOf(output, async (beside) => {
        const { parts, counts, byCase } = await fill(work, beside, leaving, tally, stay);
        const whole = { options, shards: null, parts, counts };
        await saveFile(join(beside, reportFile), seriesReport(whole, byCase));
        await saveFile(join(beside, packageFile), `${JSON.stringify(dataPackage(whole), null, 2)}\n`);
      });
  } catch (error) {
    sayStayed(stayed, io);
    io.err(`${output}: ${reason(error, 'write')}`);
    return 2;
  }
  sayStayed(stayed, io);
  sayCounts(tally.counts, io);
  io.out(shownLines([resolve(output, ...(shard ? [] : [packageFile]))]));
  return tally.notRead > 0 || [...stayed.keys()].some((why) => why !== 'private') ? 2 : 0;
}

/** Goes through all files once and reads who may leave, as two cases with one code can be far apart. Of each that does, its name is kept. */
async function look(
  { names, shard, io }: Export,
  tally: SeriesTally,
  stay: (why: Stays, name: string) => void,
): Promise<Leaving[]> {
  const byCode = new Map<string, Leaving[]>();
  let looked = 0;
  const isOurs = (word: string): boolean => shard === null || shardOf(word, shard.of) === shard.number;
  const problems = await eachCase(names, io, ({ name, text }) => {
    io.progress?.(t('{0} case files looked at', ++looked));
    const gate = gateIn(text);
    // What has no code belongs to the shard of its text.
    if (!isOurs('code' in gate ? gate.code : text)) return;
    tally.files++;
    if ('stays' in gate) return stay(gate.stays, name);
    const key = gate.code.toLowerCase();
    byCode.set(key, [...(byCode.get(key) ?? []), { name, ...gate }]);
  });
  io.progress?.('');
  // Of a file that cannot be read nobody knows to whom it falls: the first shard tells of it.
  if (shard === null || shard.number === 1) {
    tally.notRead = problems.length;
    tally.files += problems.length;
  }
  const leaving: Leaving[] = [];
  for (const [key, same] of byCode) {
    byCode.delete(key);
    if (same.length === 1) leaving.push(...same);
    else for (const { name, code } of same) stay('same code', `${name} (${code})`);
  }
  return leaving.sort((a, b) => (a.code < b.code ? -1 : a.code > b.code ? 1 : 0));
}

function gateIn(text: string): Gate {
  const tree = parse(text, new BlockMemory());
  return gateOf(tree, assemble(tree).record);
}

async function fill(
  work: Export,
  folder: string,
  leaving: readonly Leaving[],
  tally: SeriesTally,
  stay: (why: Stays, name: string) => void,
) {
  const { asked, shard, options, io, settings, root, seed } = work;
  const tables = await TableFiles.open(folder, asked, { shard: shard?.number ?? null, parquet: options.parquet });
  const byCase: RemovedOfCase[] = [];
  try {
    for (const [index, { name, code, sharing }] of leaving.entries()) {
      io.progress?.(t('case {0} of {1}', index + 1, leaving.length));
      const problems = await eachCase([name], io, async (file) => {
        const gate = gateIn(file.text);
        if (!('code' in gate) || gate.code !== code || gate.sharing !== sharing) return stay('changed', name);
        const shift = options.dates === 'shifted' ? seed.shiftOf(code) : null;
        const rows = caseRows(await inspected(file, settings, root), {
          code,
          sharing,
          asked,
          readerCode: (reader) => seed.readerCode(reader),
          shift,
        });
        tables.add(rows);
        tally.left(rows, tables.names);
        if (byCase.length <= mostListed)
          byCase.push({
            case: code,
            removed: Object.fromEntries(rows.removed.map(({ kind, count }) => [kind, count])),
          });
      });
      tally.notRead += problems.length;
    }
    const parts = tables.close();
    return { parts, counts: tally.counts, byCase: byCase.length > mostListed ? null : byCase };
  } catch (error) {
    tables.abandon();
    throw error;
  } finally {
    io.progress?.('');
  }
}

async function joined(
  names: readonly string[],
  options: Readonly<Record<string, OptionValue>>,
  io: Io,
): Promise<Status> {
  const folder = options['join'];
  if (names.length > 0 || Object.keys(options).some((name) => name !== 'join'))
    throw new Unusable(t('--join takes the folder of the shards and nothing else: ungula export --join DIR'));
  if (typeof folder !== 'string' || folder === '') throw new Unusable(t('--join takes the folder of the shards'));
  try {
    const { counts } = await joinShards(folder);
    sayCounts(counts, io);
  } catch (error) {
    io.err(`${folder}: ${reason(error, 'write')}`);
    return 2;
  }
  io.out(shownLines([resolve(folder, packageFile)]));
  return 0;
}

/** In the terminal alone, as names of files may name animals and people. */
function sayStayed(stayed: ReadonlyMap<Stays, Stayed>, io: Io): void {
  for (const why of stays) {
    const same = stayed.get(why);
    if (!same) continue;
    const { count, names } = same;
    io.err(counted(count, 'one case stays, {1}:', '{0} cases stay, {1}:', staysWords[why]));
    for (const name of names) io.err(`  ${name}`);
    if (count > names.length) io.err(t('  and {0} more', count - names.length));
  }
}

/** Of one reason nobody reads more in a terminal. */
const mostNamed = 20;

function sayCounts({ cases, files, removed }: SeriesCounts, io: Io): void {
  io.err(counted(cases, 'one case left, of {1} case files', '{0} cases left, of {1} case files', files));
  const kinds = textKinds.flatMap((kind) => (removed[kind] ? `${textKindWords[kind]}: ${removed[kind].count}` : []));
  if (kinds.length > 0) io.err(t('left out of them: {0}', kinds.join('; ')));
}

function askedFor(option: OptionValue, shift: OptionValue): ReadonlySet<Extra> {
  const words = (Array.isArray(option) ? (option as readonly string[]) : []).flatMap((given) => given.split(','));
  const asked = new Set<Extra>();
  for (const word of words) {
    const extra = extras.find((one) => one === word);
    if (!extra) throw new Unusable(t('--with takes {0}; not {1}', extras.join(', '), word || t('nothing')));
    asked.add(extra);
  }
  if (shift !== undefined) {
    if (asked.has('dates'))
      throw new Unusable(t('--with dates lets dates out as they are, and --shift-dates moves them: one of the two'));
    asked.add('dates');
  }
  return new Set(extras.filter((extra) => asked.has(extra)));
}

function shardFrom(option: OptionValue): Shard {
  const [, number = '', of = ''] = /^(\d{1,5})\/(\d{1,5})$/.exec(String(option)) ?? [];
  const shard = { number: Number(number), of: Number(of) };
  if (shard.number < 1 || shard.number > shard.of)
    throw new Unusable(t('--shard takes which of how many, such as 2/8; not {0}', String(option) || t('nothing')));
  return shard;
}

async function seedFrom(options: Readonly<Record<string, OptionValue>>, shard: Shard | null): Promise<Seed> {
  const shift = options['shift-dates'];
  const own = options['seed'];
  if (shift !== undefined && own !== undefined && shift !== own)
    throw new Unusable(t('--shift-dates has a seed already; leave --seed out'));
  if (shard && shift === undefined && own === undefined)
    throw new Unusable(t('--shard wants a seed that all shards share, so that a reader has one code: --seed SEED'));
  return shift === undefined ? seedOf(own, '--seed') : seedOf(shift, '--shift-dates');
}

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

function seriesOptions(
  asked: ReadonlySet<Extra>,
  { spread, trim, change, reference }: StudySettings,
  options: Readonly<Record<string, OptionValue>>,
): SeriesOptions {
  const shifted = options['shift-dates'] !== undefined;
  return {
    asked: [...asked],
    dates: shifted ? 'shifted' : asked.has('dates') ? 'as written' : 'days since the first visit',
    parquet: options['parquet'] === true,
    settings: { spread, trim, change },
    reference: {
      sha256: sha256(referenceText()),
      ownSets: reference.length,
      ownSha256: reference.length === 0 ? null : sha256(ownReferenceText(reference)),
    },
  };
}
