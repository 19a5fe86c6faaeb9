import { resolve } from 'node:path';
import { t } from '../../shared/language/words.ts';
import type { MarkJson } from '../../shared/export/json-shapes.ts';
import { markDocument } from '../../shared/export/marked.ts';
import { ClassTally } from '../../shared/lessons/class-tally.ts';
import type { InspectSettings } from '../../shared/findings/inspect.ts';
import { keyFilms, markedCase, type KeyFilm } from '../../shared/lessons/marked-case.ts';
import type { Study } from '../../shared/trim/study.ts';
import { eachCase } from './case-files.ts';
import { oneOf, Unusable, type Command, type Io, type Status } from './command.ts';
import { inspected } from './inspected.ts';
import { OwnKeys } from './own-keys.ts';
import { numberOption } from './number-option.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { ToldClass } from './told-class.ts';

export const mark: Command = {
  name: 'mark',
  usage:
    'ungula mark STUDENT… [--key FILE] [--reader NAME] [--tolerance MM] [--format table|json] [--reference FILE]… [--root DIR]',
  doc: 'Holds what students have placed, read and planned against a key on the same films, point by point and plan by plan; without --key by the key that each file names itself. Of a class also what most have missed.',
  options: {
    key: { type: 'string' },
    reader: { type: 'string' },
    tolerance: { type: 'string' },
    format: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json']);
    const { key, reader } = options;
    if (typeof key !== 'string' && reader !== undefined)
      throw new Unusable(t('--reader goes with --key: a file that names its key names the reader there'));
    const tolerance = numberOption('tolerance', options['tolerance']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    if (typeof key !== 'string') return await byOwnKeys(names, io, { settings, root, tolerance, format });
    let right: readonly KeyFilm[] = [];
    const keys = new Map<string, Study>();
    const told = new ToldClass(format, io);
    const wrongKey = await eachCase([key], io, async (file) => {
      const { study } = await inspected(file, settings, root);
      if (typeof reader === 'string' && file.real !== null) keys.set(file.real, study);
      right = [...right, ...keyFilms(study, typeof reader === 'string' ? reader : null)];
    });
    if (wrongKey.length > 0) {
      if (format === 'json') told.end(key);
      return 2;
    }
    if (right.length === 0)
      throw new Unusable(
        typeof reader === 'string'
          ? t('{0}: no film has a reading by “{1}”, so there is nothing to hold others against', key, reader)
          : t('{0}: no film has a landmark, so there is nothing to hold others against', key),
      );
    const problems = await eachCase(names, io, async (file) => {
      // Lesson and key in one file are one case, so that its plans are known for the student's.
      const study = (file.real !== null && keys.get(file.real)) || (await inspected(file, settings, root)).study;
      told.add(file.name, markedCase(right, study, tolerance));
    });
    told.end(key);
    return problems.length > 0 ? 2 : told.status;
  },
  emptyJson: (): MarkJson => markDocument('', [], new ClassTally()),
};

interface MarkBy {
  readonly settings: InspectSettings;
  readonly root: readonly string[];
  readonly tolerance: number | null;
  readonly format: 'table' | 'json';
}

/** Each file by the key that its line `key` names. A file without one is passed over where it is the key of another. */
async function byOwnKeys(
  names: readonly string[],
  io: Io,
  { settings, root, tolerance, format }: MarkBy,
): Promise<Status> {
  const own = new OwnKeys(settings, root);
  const told = new ToldClass(format, io);
  const keys = new Set<string>();
  const without: string[] = [];
  const problems = await eachCase(names, io, async (file) => {
    const { study } = await inspected(file, settings, root);
    const key = await own.of(file, study);
    if (!key) {
      without.push(file.name);
      return;
    }
    keys.add(key.name);
    told.add(file.name, markedCase(key.films, study, tolerance));
  });
  const keyless = without.filter((name) => ![...keys].some((key) => resolve(key) === resolve(name)));
  for (const name of keyless)
    io.err(`${name}: ${t('it names no key; write one into its case, or say which with --key FILE')}`);
  const [only] = keys;
  told.end(keys.size === 1 && only !== undefined ? only : '');
  return problems.length + keyless.length > 0 ? 2 : told.status;
}
