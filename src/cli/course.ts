import { sayChoice } from '../../shared/language/choice-words.ts';
import { shownDate } from '../../shared/language/dates.ts';
import { t } from '../../shared/language/words.ts';
import { changesTo } from '../../shared/drawing/course/changes-to.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { isFoot } from '../../shared/notation/vocabulary.ts';
import { feet, type FootName } from '../../shared/notation/choices.ts';
import { alarmLines } from '../../shared/export/alarms.ts';
import { courseCsv } from '../../shared/export/course-csv.ts';
import { handSpreadWords } from '../../shared/measures/hand-spread.ts';
import { sayClear } from '../../shared/findings/wording/wording.ts';
import { coursedCase } from '../../shared/export/course-data.ts';
import { firstRows } from '../../shared/views/first-measures.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { courseSheet, type CourseRow, type FootCourseSheet } from '../../shared/views/course-sheet.ts';
import type { CourseJson } from '../../shared/export/json-shapes.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { eachCase, type CaseFile } from './case-files.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';

export const course: Command = {
  name: 'course',
  usage: 'ungula course FILE… [--foot LF] [--all] [--format table|json|csv] [--reference FILE]… [--root DIR]',
  doc: 'What changed from film to film, on photos and by hand, each by itself, with its trend; whether the bone sinks, and when new wall reaches the ground. The first things first; --all tells every measure. JSON and CSV always hold them all.',
  options: {
    foot: { type: 'string' },
    all: { type: 'boolean' },
    format: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json', 'csv']);
    const foot = footFrom(options['foot']);
    const all = options['all'] === true;
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const cases: CourseJson['cases'] = [];
    const courses: Courses[] = [];
    const problems = await eachCase(names, io, async (file) => {
      const inspection = await inspected(file, settings, root);
      const alarms = alarmLines(file.name, alarmsOf(inspection));
      if (format === 'table') io.out(table(alarms, coursesIn(file, inspection, foot), all));
      else if (format === 'json') cases.push(coursedCase(file.name, inspection, foot));
      else {
        // A table of numbers has no place for a sentence.
        for (const line of alarms) io.err(line);
        courses.push(coursesIn(file, inspection, foot));
      }
    });
    if (format === 'json') io.out(shownJson(document(cases)));
    if (format === 'csv') io.out(courseCsv(courses));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: () => document([]),
};

const document = (cases: CourseJson['cases']): CourseJson => ({ ungula: 1, cases });

function footFrom(written: OptionValue): FootName | null {
  if (written === undefined) return null;
  if (typeof written !== 'string' || !isFoot(written))
    throw new Unusable(t('--foot takes {0}; not {1}', feet.join(', '), String(written)));
  return written;
}

interface Courses {
  readonly file: string;
  readonly name: string | null;
  readonly wanted: FootName | null;
  readonly feet: readonly FootCourseSheet[];
}

function coursesIn(file: CaseFile, inspection: Inspection, wanted: FootName | null): Courses {
  return {
    file: file.name,
    name: inspection.study.record.animal?.is.name ?? null,
    wanted,
    feet: courseSheet(inspection).feet.filter(({ foot }) => wanted === null || foot === wanted),
  };
}

function table(alarms: readonly string[], { file, name, wanted, feet: those }: Courses, all: boolean): string {
  // Lists are joined and not pushed as arguments: of many films there are more lines than a call takes.
  const lines = [
    ...alarms,
    `${file}: ${name ?? t('unnamed case')}`,
    ...(those.length === 0
      ? ['', t('  no dated film of {0}, and nothing taken by hand', wanted ?? t('any foot'))]
      : []),
    ...those.flatMap((foot) => ['', ...footLines(foot, all)]),
    ...(those.some(({ rows }) => rows.some(({ source }) => source === 'hand')) ? ['', `  ${handSpreadWords()}`] : []),
  ];
  return shownLines([...lines, '']);
}

function footLines(foot: FootCourseSheet, all: boolean): string[] {
  const { words, films, others, trims, sinking, doubt, scales } = foot;
  const lines = [`  ${words}: ${takenWords(foot)}`];
  if (trims.length > 0)
    lines.push(t('    trims: {0}', trims.map((trim) => `${shownDate(trim.date)} ${trim.words}`).join('; ')));
  const begins = notYet(films, others);
  if (begins !== null) return [...lines, `    ${begins}`];
  if (sinking) lines.push(t('    sinking in the capsule: {0}', sinking.text));
  if (doubt) lines.push(`    ${doubt}`);
  if (scales) lines.push(`    ${scales}`);
  const rows = all ? foot.rows : firstRows(foot.rows);
  const more = foot.rows.length - rows.length;
  return [
    ...lines,
    ...rows.flatMap((row) => ['', ...rowLines(row)]),
    ...(more > 0 ? ['', t('    {0} more measures with --all', more)] : []),
  ];
}

const daysOf = (taken: readonly { readonly date: string }[]): string[] => [
  ...new Set(taken.map(({ date }) => shownDate(date))),
];

/** `films of 2026-01-01, 2026-02-01; by hand 2026-01-15`. */
function takenWords({ films, others }: FootCourseSheet): string {
  const of = (source: 'photo' | 'hand'): string[] => daysOf(others.filter((one) => one.source === source));
  const [filmDays, photoDays, handDays] = [daysOf(films), of('photo'), of('hand')];
  const said = [
    filmDays.length > 0 &&
      (films.length === 1 ? t('one film, {0}', filmDays[0]) : t('films of {0}', filmDays.join(', '))),
    photoDays.length > 0 && t('photos of {0}', photoDays.join(', ')),
    handDays.length > 0 && t('by hand {0}', handDays.join(', ')),
  ];
  return said.filter((part) => part).join('; ');
}

/** What is still lacking for a course; null where one has begun: where something was taken in one way on two days. */
function notYet(films: FootCourseSheet['films'], others: FootCourseSheet['others']): string | null {
  const series = [
    films,
    ...(['photo', 'hand'] as const).map((source) => others.filter((one) => one.source === source)),
  ];
  if (series.some((taken) => daysOf(taken).length > 1)) return null;
  if (others.length > 0) return t('a course needs the foot measured in the same way on another day');
  return films.length < 2
    ? t('a course begins with the second film of a foot')
    : t('{0} of one day; a course begins with a film of another day', filmsOf(films.length));
}

const filmsOf = (count: number): string => (count === 2 ? t('two films') : t('{0} films', count));

function rowLines({ words, source, sourceWords, usualText, points, ...row }: CourseRow): string[] {
  const { changes, overall, trend, growOut } = row;
  const lines = [`    ${words}${sourceWords ? `, ${sourceWords}` : ''}${usualText ? t(', usual {0}', usualText) : ''}`];
  const changesAt = changesTo(changes);
  points.forEach(({ date, text }, index) => {
    const change = changesAt.get(index);
    const since = change ? `${change.text.padStart(10)}  ${sayClear(change)}${change.shoe && `; ${change.shoe}`}` : '';
    lines.push(`      ${shownDate(date)} ${text.padStart(18)}${since}`);
  });
  if (overall)
    lines.push(
      t(
        '      since the first {0} {1}, {2}{3}',
        sayChoice(firstWords[source]),
        overall.text,
        sayClear(overall),
        overall.shoe && `; ${overall.shoe}`,
      ),
    );
  if (trend) lines.push(`      ${trend.text.charAt(0).toLowerCase()}${trend.text.slice(1)}`);
  if (growOut) lines.push(`      ${growOut.text}`);
  return lines;
}

const firstWords: Readonly<Record<CourseRow['source'], string>> = { film: 'film', photo: 'photo', hand: 'tape' };
