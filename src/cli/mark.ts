import { t } from '../../shared/language/words.ts';
import type { MarkJson } from '../../shared/export/json-shapes.ts';
import { markDocument } from '../../shared/export/marked.ts';
import { ClassTally } from '../../shared/lessons/class-tally.ts';
import { keyFilms, markedCase, type KeyFilm } from '../../shared/lessons/marked-case.ts';
import type { Study } from '../../shared/trim/study.ts';
import { eachCase } from './case-files.ts';
import { oneOf, Unusable, type Command } from './command.ts';
import { inspected } from './inspected.ts';
import { numberOption } from './number-option.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { ToldClass } from './told-class.ts';

export const mark: Command = {
  name: 'mark',
  usage:
    'ungula mark STUDENT… --key FILE [--reader NAME] [--tolerance MM] [--format table|json] [--reference FILE]… [--root DIR]',
  doc: 'Holds what students have placed, read and planned against a key on the same films, point by point and plan by plan; of a class also what most have missed.',
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
    if (typeof key !== 'string')
      throw new Unusable(t('mark wants the case that the others are held against: --key FILE'));
    const tolerance = numberOption('tolerance', options['tolerance']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
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
