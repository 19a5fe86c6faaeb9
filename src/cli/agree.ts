import { dirname } from 'node:path';
import { agreementOf } from '../../shared/agreement/agreement.ts';
import { ReadFilms } from '../../shared/agreement/read-films.ts';
import type { AgreeJson } from '../../shared/export/json-shapes.ts';
import { agreeDocument } from '../../shared/export/agreement-data.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { agreementLines } from '../../shared/views/agreement-lines.ts';
import { eachCase } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

export const agree: Command = {
  name: 'agree',
  usage: 'ungula agree FILE… [--all] [--format table|json] [--reference FILE]… [--root DIR]',
  doc: 'How well readers of the same films agree, and one reader who read a film twice, over all files together: each measure, each landmark.',
  options: { all: { type: 'boolean' }, format: { type: 'string' }, reference: referenceOption, root: rootOption },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const films = new ReadFilms();
    const problems = await eachCase(names, io, async (file) => {
      const { study } = await inspected(file, settings, root);
      films.add(file.real === null ? '.' : dirname(file.real), study.films);
    });
    const agreement = agreementOf(films);
    if (format === 'json') io.out(shownJson(agreeDocument(agreement)));
    else io.out(shownLines(agreementLines(agreement, options['all'] === true)));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: (): AgreeJson => agreeDocument(agreementOf(new ReadFilms())),
};
