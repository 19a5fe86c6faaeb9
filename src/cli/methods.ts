import { dirname } from 'node:path';
import { bibtex } from '../../shared/export/bibtex.ts';
import type { MethodsJson } from '../../shared/export/json-shapes.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { MethodsFacts } from '../../shared/series/methods.ts';
import { methodsDocument } from '../../shared/series/methods-data.ts';
import { methodsParagraph } from '../../shared/series/methods-words.ts';
import { eachCase } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { studied } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';
import { askedOfSeries, seriesOptions, seriesUsage } from './series-options.ts';
import { casesThatLeave, sayLessons } from './shared-cases.ts';

export const methods: Command = {
  name: 'methods',
  usage: `ungula methods FILE… ${seriesUsage} [--format text|json|bibtex] [--bibtex OUT.bib] [--reference FILE]… [--root DIR]`,
  doc: 'A paragraph for a paper on what was really used in these cases: films, readers, scales, landmarks, measures, limits with their sources. --bibtex writes the works that it names.',
  options: {
    ...seriesOptions,
    format: { type: 'string' },
    bibtex: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['text', 'json', 'bibtex']);
    const { measures, source, shared } = askedOfSeries(options);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const leaves = shared ? await casesThatLeave(names, io) : () => true;
    const facts = new MethodsFacts(source, measures);
    let lessons = 0;
    const problems = await eachCase(names, io, async (file) => {
      const known = await studied(file, settings, root);
      if (!leaves(known)) return;
      if (known.study.record.animal?.is.key) lessons += 1;
      else facts.add(known.study, file.real === null ? '.' : dirname(file.real));
    });
    sayLessons(lessons, io);
    const paragraph = methodsParagraph(facts, settings.reference);
    const works = bibtex(paragraph.citing.cited);
    if (typeof options['bibtex'] === 'string') await saveFile(options['bibtex'], works);
    if (format === 'json') io.out(shownJson(methodsDocument(facts, paragraph)));
    else if (format === 'bibtex') io.out(shownLines(works.trimEnd().split('\n')));
    else io.out(shownLines([paragraph.sentences.join(' ')]));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: (): MethodsJson => {
    const facts = new MethodsFacts('film', []);
    return methodsDocument(facts, methodsParagraph(facts));
  },
};
