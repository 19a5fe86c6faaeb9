import { sayChoice } from '../../shared/language/choice-words.ts';
import { shownDate } from '../../shared/language/dates.ts';
import { fixed } from '../../shared/language/figures.ts';
import { t } from '../../shared/language/words.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { alarmLines } from '../../shared/export/alarms.ts';
import { csv } from '../../shared/export/csv.ts';
import { handSpreadWords } from '../../shared/views/about-measures.ts';
import { stateWords } from '../../shared/drawing/plate/state-words.ts';
import { turnWords } from '../../shared/views/cut-outcome.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { pairWords, pairSheets } from '../../shared/views/pair-sheet.ts';
import { tapeSheets } from '../../shared/views/tape-sheet.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { measuredCase, measuredRows, type MeasuredRow } from '../../shared/export/measured.ts';
import type { MeasureJson } from '../../shared/export/json-shapes.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { eachCase, type CaseFile } from './case-files.ts';
import { oneOf, type Command } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

export const measure: Command = {
  name: 'measure',
  usage: 'ungula measure FILE… [--format table|json|csv] [--reference FILE]… [--root DIR]',
  doc: 'Every measure of every film and photo, what was taken by hand, and what plans and trims are predicted to leave.',
  options: { format: { type: 'string' }, reference: referenceOption, root: rootOption },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json', 'csv']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const cases: MeasureJson['cases'] = [];
    const rows: MeasuredRow[] = [];
    const problems = await eachCase(names, io, async (file) => {
      const inspection = await inspected(file, settings, root);
      const { study } = inspection;
      if (format === 'table') io.out(table(file, inspection));
      else if (format === 'json') cases.push(measuredCase(file.name, inspection));
      else {
        // A table of numbers has no place for a sentence.
        for (const line of alarmLines(file.name, alarmsOf(inspection))) io.err(line);
        rows.push(...measuredRows(file.name, study));
      }
    });
    if (format === 'json') io.out(shownJson(document(cases)));
    if (format === 'csv') io.out(csv(columns, rows));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: () => document([]),
};

const document = (cases: MeasureJson['cases']): MeasureJson => ({ ungula: 1, cases });

export const columns = [
  'file',
  'case',
  'visit',
  'line',
  'foot',
  'view',
  'reader',
  'measure',
  'value',
  'unit',
  'sd',
  'scale_from',
  'source',
] as const;

function table({ name }: CaseFile, inspection: Inspection): string {
  const lines = [
    ...alarmLines(name, alarmsOf(inspection)),
    `${name}: ${inspection.study.record.animal?.is.name ?? t('unnamed case')}`,
  ];
  for (const sheet of filmSheets(inspection)) {
    lines.push(
      '',
      t(
        '  {0} (line {1}, {2})',
        sheet.title,
        sheet.line + 1,
        sheet.scale === null ? t('no scale') : t('{0} mm a pixel', fixed(sheet.scale, 4)),
      ),
    );
    for (const words of sheet.said) lines.push(`    ${words}`);
    if (sheet.scaleWords !== null) lines.push(`    ${sheet.scaleWords}`);
    if (sheet.rows.length === 0) lines.push(t('    nothing can be measured yet'));
    for (const row of sheet.rows)
      lines.push(
        `    ${row.words.padEnd(54)} ${row.text.padStart(18)}   ${[row.tape === null ? '' : t('by tape {0}', row.tape), row.usualText ? t('{0}, usual {1}', stateWords[row.state], row.usualText) : ''].filter((part) => part).join('; ')}`.trimEnd(),
      );
    for (const cut of sheet.cuts) {
      lines.push(
        t(
          '    {0} of {1}: {2}{3}',
          sayChoice(cut.kind),
          shownDate(cut.date ?? ''),
          cut.cut,
          cut.delta === null ? '' : `; ${turnWords(cut)}`,
        ),
      );
      for (const row of cut.rows)
        lines.push(`      ${row.words.padEnd(52)} ${row.before.padStart(10)} -> ${row.after}`);
    }
  }
  const pairs = pairSheets(inspection.study);
  for (const { title, rows } of pairs) {
    lines.push('', `  ${title}`);
    for (const { words, left, right, text, said } of rows)
      lines.push(`    ${words.padEnd(40)} ${left.padStart(16)} ${right.padStart(16)} ${text.padStart(10)}  ${said}`);
  }
  if (pairs.length > 0) lines.push('', `  ${pairWords()}`);
  const tapes = tapeSheets(inspection);
  for (const { title, line, rows } of tapes) {
    lines.push('', t('  {0} (line {1})', title, line + 1));
    for (const { words, text, since } of rows)
      lines.push(
        `    ${words.padEnd(54)} ${text.padStart(18)}   ${since && t('since the tape before {0}', since)}`.trimEnd(),
      );
  }
  if (tapes.length > 0) lines.push('', `  ${handSpreadWords()}`);
  return shownLines([...lines, '']);
}
