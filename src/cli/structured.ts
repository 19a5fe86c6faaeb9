import { basename, join, resolve } from 'node:path';
import { open, realpath } from 'node:fs/promises';
import { alarmLines } from '../../shared/export/alarms.ts';
import { shownLines } from '../../shared/export/shown-characters.ts';
import { isOwnReport, reportBeginning } from '../../shared/export/structured/own-report.ts';
import { reportDataSet } from '../../shared/export/structured/report-data-set.ts';
import { reportFilms, type ReportFilm } from '../../shared/export/structured/report-film.ts';
import { uidsOf } from '../../shared/export/structured/uids.ts';
import { t } from '../../shared/language/words.ts';
import { LineMap } from '../../shared/notation/line-map.ts';
import type { NotMade, ReportAnswer, ReportQuestion } from '../../shared/protocol/page-thread.ts';
import { inspectionOf } from '../../shared/report/pages/page-maker.ts';
import { archivedFilmIn, type ArchivedFilm } from '../../shared/picture/archived-film.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { doubtsOf } from '../../shared/export/structured/doubts.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { eachCase } from './case-files.ts';
import { Unusable, type Io, type OptionValue, type Status } from './command.ts';
import { inspected } from './inspected.ts';
import { archivedFilmFor, rootFrom } from './picture-files.ts';
import { CommandProblem, reason } from './problem.ts';
import { settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';
import { uidDigest } from './uid-digest.ts';

interface Chosen extends ReportFilm {
  readonly caseFile: string;
  readonly inspection: Inspection;
}

/** The measures of films as DICOM Structured Reports: one file, or a folder with one for each film. */
export async function structuredReports(
  files: readonly string[],
  options: Readonly<Record<string, OptionValue>>,
  io: Io,
  on: string,
): Promise<Status> {
  const output = options['output'];
  if (typeof output !== 'string' || output === '')
    throw new Unusable(t('--structured wants the report to write: -o OUT.dcm for one film, -o FOLDER for many'));
  const wanted = wantedFilms(options['film']);
  const settings = await settingsWith(options['reference']);
  const root = await rootFrom(options['root']);
  const films: ReportFilm[] = [];
  const chosen: Chosen[] = [];
  const problems = await eachCase(files, io, async (file) => {
    const inspection = await inspected(file, settings, root);
    // A report of numbers has no place for a sentence.
    for (const line of alarmLines(file.name, alarmsOf(inspection))) io.err(line);
    const { study } = inspection;
    for (const film of reportFilms(study, basename(file.name))) {
      films.push(film);
      if (wanted === null || [...wanted].some((name) => isNamed(film, name)))
        chosen.push({ ...film, caseFile: file.name, inspection });
    }
  });
  const lost = [...(wanted ?? [])].filter((name) => !films.some((film) => isNamed(film, name)));
  if (lost.length > 0) throw new Unusable(t('there is no film {0}; there are: {1}', lost.join(', '), listed(films)));
  const isFile = /\.dcm$/i.test(output);
  if (isFile && chosen.length > 1)
    throw new Unusable(
      t('{0} holds one film; here are {1}: choose one with --film, or name a folder', output, listed(chosen)),
    );
  let failed = problems.length > 0;
  let written = 0;
  const names = new Set<string>();
  for (const film of chosen) {
    const path = isFile ? output : join(output, unused(film.fileName, names));
    try {
      const archived = await archivedFilmFor(film.caseFile, film.film.film.path.text, root);
      const bytes = await reportFile(film, { archived, names: options['names'] === true, on });
      if (!bytes) {
        io.err(`${film.caseFile}: ${nothingOn(film)}`);
        continue;
      }
      for (const doubt of doubtsOf(film.inspection, film.film)) io.err(`${film.caseFile}: ${film.title}: ${doubt}`);
      await mayBeReplaced(path);
      await saveFile(path, bytes);
      io.out(shownLines([resolve(path)]));
      written += 1;
    } catch (error) {
      io.err(`${path}: ${reason(error, 'write')}`);
      failed = true;
    }
  }
  if (chosen.length === 0 && !failed) io.err(t('no case has a film, so there is nothing to report'));
  return failed || written === 0 ? 2 : 0;
}

export const nothingOn = ({ title }: Pick<ReportFilm, 'title'>): string =>
  t('{0}: nothing is measured on this film yet, so there is no report of it', title);

/** The report of a film as the bytes of a DICOM file; null where nothing is measured on it. */
export async function reportFile(
  { film, inspection }: { readonly film: ReportFilm['film']; readonly inspection: Inspection },
  about: { readonly archived: ArchivedFilm | null; readonly names: boolean; readonly on: string },
): Promise<Uint8Array | null> {
  const { study } = inspection;
  const doubts = doubtsOf(inspection, film);
  const data = reportDataSet({ ...about, study, film, doubts, uids: uidsOf(study.record, uidDigest) });
  if (!data) return null;
  const { reportBytes } = await import('./report-bytes.ts');
  return reportBytes(data);
}

/** What the editor asks for: first the films, then the report of one. */
export async function madeReport({
  grounds,
  caseName,
  film,
  header,
  names,
  on,
}: ReportQuestion): Promise<ReportAnswer | NotMade> {
  const inspection = inspectionOf(grounds);
  const { study, tree } = inspection;
  const films = reportFilms(study, caseName);
  const map = new LineMap(tree.text);
  if (film === null)
    return {
      films: films.map(({ title, fileName, film: { film, visit } }) => ({
        title,
        fileName,
        picture: film.path.text,
        line: map.at(visit.start + film.at.start).line,
        endLine: map.at(visit.start + film.at.end).line,
      })),
    };
  const chosen = films[film];
  if (!chosen) return { problem: t('The film is not in the text any more.') };
  const archived = header && archivedFilmIn(header);
  const report = await reportFile({ film: chosen.film, inspection }, { archived, names, on });
  return report ? { report } : { problem: `${nothingOn(chosen)}.` };
}

/** Null where every film is meant. */
function wantedFilms(option: OptionValue): ReadonlySet<string> | null {
  if (!Array.isArray(option)) return null;
  const names = option.map((name) => String(name).toUpperCase());
  const odd = names.find((name) => !/^[LR][FH](?:\/\d{4}-\d{2}-\d{2})?$/.test(name));
  if (odd !== undefined) throw new Unusable(t('--film takes a foot and a day such as LF/2026-05-28; not {0}', odd));
  return new Set(names);
}

/** A foot alone names all its films. */
const isNamed = ({ name, film }: ReportFilm, wanted: string): boolean => wanted === name || wanted === film.film.foot;

const listed = (films: readonly ReportFilm[]): string =>
  films.length === 0 ? t('none') : [...new Set(films.map(({ name }) => name))].join(', ');

/** Two cases of one name in different folders. */
function unused(fileName: string, names: Set<string>): string {
  const [base = ''] = fileName.split(/\.dcm$/);
  let free = fileName;
  for (let n = 2; names.has(free.toLowerCase()); n++) free = `${base}-${n}.dcm`;
  names.add(free.toLowerCase());
  return free;
}

/** A radiograph lies in such a file too, and is never written over; only another report of ours is. */
async function mayBeReplaced(path: string): Promise<void> {
  let start: Uint8Array;
  try {
    const file = await open(await realpath(path));
    try {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(reportBeginning), 0, reportBeginning, 0);
      start = buffer.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  } catch {
    return; // Not there yet, or cannot be reached, which saving says.
  }
  if (!isOwnReport(start))
    throw new CommandProblem(t('is there already and is no structured report of this program; it was left as it is'));
}
