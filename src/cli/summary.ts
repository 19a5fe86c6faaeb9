import { t } from '../../shared/language/words.ts';
import type { SummaryJson } from '../../shared/export/json-shapes.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { SeriesSummary, summaryGroups } from '../../shared/series/summary.ts';
import { summaryCsv, summaryDocument, summaryLines } from '../../shared/series/summary-data.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { eachCase } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { studied } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { askedOfSeries, seriesOptions, seriesUsage } from './series-options.ts';
import { casesThatLeave, sayLessons } from './shared-cases.ts';

export const summary: Command = {
  name: 'summary',
  usage: `ungula summary FILE… [--by ${summaryGroups.join('|')}] ${seriesUsage} [--format table|csv|json] [--root DIR]`,
  doc: 'Means over the feet of many cases, each foot once in a group: the first and the last film of each foot and what changed between them, or by kind, sex, breed, foot or visit. --shared takes only the cases that an export lets out.',
  options: {
    by: { type: 'string' },
    ...seriesOptions,
    format: { type: 'string' },
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'csv', 'json']);
    const by = oneOf('by', options['by'], summaryGroups);
    const { measures, source, shared } = askedOfSeries(options);
    const root = await rootFrom(options['root']);
    const leaves = shared ? await casesThatLeave(names, io) : () => true;
    const series = new SeriesSummary(by, source, measures);
    let read = 0;
    let lessons = 0;
    const problems = await eachCase(names, io, async (file) => {
      const known = await studied(file, usualStudy, root);
      read += 1;
      if (leaves(known) && known.study.record.animal?.is.key) lessons += 1;
      else if (leaves(known)) series.add(known.study);
      io.progress?.(t('{0} case files read', read));
    });
    io.progress?.('');
    sayLessons(lessons, io);
    const cases = { read, taken: series.cases };
    if (format === 'json') io.out(shownJson(summaryDocument(series, cases)));
    else if (format === 'csv') io.out(summaryCsv(series));
    else io.out(shownLines(summaryLines(series, cases)));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: (): SummaryJson => summaryDocument(new SeriesSummary('time', 'film', []), { read: 0, taken: 0 }),
};
