import { changesTo } from '../../shared/drawing/course/changes-to.ts';
import { feet, isFoot, type FootName } from '../../shared/notation/vocabulary.ts';
import { courseCsv } from '../../shared/report/course-csv.ts';
import { coursedCase } from '../../shared/report/course-data.ts';
import { courseSheet, type CourseRow, type FootCourseSheet } from '../../shared/report/course-sheet.ts';
import type { StudySettings } from '../../shared/trim/study.ts';
import { readCaseFiles, type CaseFile } from './case-files.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { inspected } from './inspected.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

export const course: Command = {
  name: 'course',
  usage: 'ungula course FILE… [--foot LF] [--format table|json|csv] [--reference FILE]…',
  doc: 'How each measure of a foot changed from film to film, its trend in 28 days, and when new wall reaches the ground.',
  options: { foot: { type: 'string' }, format: { type: 'string' }, reference: referenceOption },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json', 'csv']);
    const foot = footFrom(options['foot']);
    const settings = await settingsWith(options['reference']);
    const { files, unreadable } = await readCaseFiles(names, io);
    if (format === 'json') {
      const cases = files.map((file) => coursedCase(file.name, inspected(file, settings).study, foot));
      io.out(`${JSON.stringify({ ungula: 1, cases }, null, 2)}\n`);
    } else {
      const cases = files.map((file) => coursesIn(file, settings, foot));
      io.out(format === 'csv' ? courseCsv(cases) : cases.map(table).join(''));
    }
    return unreadable ? 2 : 0;
  },
};

function footFrom(written: OptionValue): FootName | null {
  if (written === undefined) return null;
  if (typeof written !== 'string' || !isFoot(written))
    throw new Unusable(`--foot takes ${feet.join(', ')}; not ${String(written)}`);
  return written;
}

interface Courses {
  readonly file: string;
  readonly name: string | null;
  readonly wanted: FootName | null;
  readonly feet: readonly FootCourseSheet[];
}

function coursesIn(file: CaseFile, settings: StudySettings, wanted: FootName | null): Courses {
  const inspection = inspected(file, settings);
  return {
    file: file.name,
    name: inspection.study.record.animal?.is.name ?? null,
    wanted,
    feet: courseSheet(inspection).feet.filter(({ foot }) => wanted === null || foot === wanted),
  };
}

function table({ file, name, wanted, feet: those }: Courses): string {
  // Lists are joined and not pushed as arguments: of many films there are more lines than a call takes.
  const lines = [
    `${file}: ${name ?? 'unnamed case'}`,
    ...(those.length === 0 ? ['', `  no film of ${wanted ?? 'any foot'} has a date to stand at`] : []),
    ...those.flatMap((foot) => ['', ...footLines(foot)]),
  ];
  return `${lines.join('\n')}\n\n`;
}

function footLines({ words, films, trims, rows }: FootCourseSheet): string[] {
  const days = [...new Set(films.map(({ date }) => date))];
  const lines = [`  ${words}: ${days.length === 1 ? `one film, ${days[0]}` : `films of ${days.join(', ')}`}`];
  if (trims.length > 0) lines.push(`    trims: ${trims.map((trim) => `${trim.date} ${trim.words}`).join('; ')}`);
  if (days.length < 2) return [...lines, '    a course begins with the second film of a foot'];
  return [...lines, ...rows.flatMap((row) => ['', ...rowLines(row)])];
}

function rowLines({ words, usualText, points, changes, overall, trend, growOut }: CourseRow): string[] {
  const lines = [`    ${words}${usualText ? `, usual ${usualText}` : ''}`];
  const changesAt = changesTo(changes);
  points.forEach(({ date, text }, index) => {
    const change = changesAt.get(index);
    const since = change ? `${change.text.padStart(10)}  ${change.real ? 'real' : 'within error'}` : '';
    lines.push(`      ${date} ${text.padStart(18)}${since}`);
  });
  if (overall) lines.push(`      since the first film ${overall.text}, ${overall.real ? 'real' : 'within error'}`);
  if (trend) lines.push(`      ${trend.text}, ${trend.interval}; by chance alone ${trend.chance}`);
  if (growOut) lines.push(`      ${growOut.text}`);
  return lines;
}
