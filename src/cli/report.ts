import { t } from '../../shared/language/words.ts';
import { realpath } from 'node:fs/promises';
import { resolve } from 'node:path';
import {
  drawnOf,
  mostDrawn,
  plainPictures,
  reportPage,
  type ReportedCase,
  type ReportPicture,
} from '../../shared/report/page.ts';
import { handedPage, picturesOfPage, pageReaders, type PageReader } from '../../shared/report/pages/handed-page.ts';
import { papers } from '../../shared/report/pages/page-as-pdf.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { shownLines } from '../../shared/export/shown-characters.ts';
import { eachCase } from './case-files.ts';
import { onOption } from './day-option.ts';
import { inspected } from './inspected.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { pdfOf } from './pdf-of.ts';
import { pictureFor, rootFrom, rootOption } from './picture-files.ts';
import { PageRoom } from './page-room.ts';
import { oneOf, Unusable, type Command, type OptionValue } from './command.ts';
import { CommandProblem, reason } from './problem.ts';
import { saveFile } from './save-file.ts';
import { structuredReports } from './structured.ts';

export const report: Command = {
  name: 'report',
  usage:
    'ungula report FILE… [--for owner|vet|yard [--paper a4|letter] | --structured [--film FOOT/DATE]…] [--on DATE] [--names] [--reference FILE]… [--root DIR] -o OUT',
  doc: 'A page that needs nothing else and prints: for the owner, the vet or the yard of one case, as HTML or PDF, or the whole record of any number of cases. With --structured the measures of films as DICOM Structured Reports, one .dcm a film.',
  options: {
    for: { type: 'string' },
    structured: { type: 'boolean' },
    film: { type: 'string', multiple: true },
    on: { type: 'string' },
    names: { type: 'boolean' },
    paper: { type: 'string' },
    reference: referenceOption,
    root: rootOption,
    output: { type: 'string', short: 'o' },
  },
  async run(names, options, io) {
    const output = options['output'];
    if (options['structured'] === true) {
      if (options['for'] !== undefined) throw new Unusable(t('--structured is no page, so it does not go with --for'));
      if (options['paper'] !== undefined)
        throw new Unusable(t('--structured is no page, so it does not go with --paper'));
      return structuredReports(names, options, io, dayOfPage(options['on']));
    }
    if (options['film'] !== undefined) throw new Unusable(t('--film goes with --structured only'));
    if (typeof output !== 'string')
      throw new Unusable(t('report wants the page to write: -o OUT.html, or OUT.pdf with --for'));
    const kind = kindOf(output);
    if (!kind) throw new Unusable(t('{0}: a page ends in .html or .pdf', output));
    const reader = options['for'] === undefined ? null : oneOf('for', options['for'], pageReaders);
    if (kind === 'pdf' && !reader)
      throw new Unusable(t('{0}: only a page with --for is written as PDF; the whole record ends in .html', output));
    const paper = options['paper'] === undefined ? null : oneOf('paper', options['paper'], papers);
    if (paper && kind !== 'pdf')
      throw new Unusable(t('--paper goes with a page that ends in .pdf; in HTML the browser chooses the paper'));
    const date = dayOfPage(options['on']);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const cases: ReportedCase[] = [];
    const room = new PageRoom();
    const sources = new Set<string | null>();
    const problems = await eachCase(names, io, async (file) => {
      const { name } = file;
      const inspection = await inspected(file, settings, root);
      const pictures = new Map<string, ReportPicture>();
      const sheets = reader ? [] : filmSheets(inspection);
      const plain = plainPictures(inspection).slice(-mostDrawn);
      const shown = reader
        ? picturesOfPage(reader, inspection)
        : [...drawnOf(sheets).map(({ picture }) => picture), ...plain.map(({ path }) => path.text)];
      for (const [path, times] of timesOfEach(shown))
        pictures.set(path, await pictureFor({ caseFile: name, path, times }, root, room));
      cases.push({ file: name, inspection, sheets, pictures });
      sources.add(file.real);
    });
    // Of no case there is no page, and one that is there already may be a good one.
    if (cases.length === 0) return 2;
    const [first] = cases;
    if (reader && cases.length > 1)
      throw new Unusable(t('--for makes the page of one case; here are {0}', cases.length));
    try {
      await mayBecomeThePage(output, sources);
      const names = options['names'] === true;
      const html = reader && first ? pageFor(reader, first, date, names) : reportPage(cases, date);
      const pdf = kind === 'pdf' ? await pdfOf({ html, date, paper: paper ?? 'a4' }) : null;
      await saveFile(output, pdf ? pdf.bytes : html);
      for (const words of pdf?.notShown ?? []) io.err(`${output}: ${words}`);
    } catch (error) {
      io.err(`${output}: ${reason(error, 'write')}`);
      return 2;
    }
    io.out(shownLines([resolve(output)]));
    return problems.length > 0 ? 2 : 0;
  },
};

function pageFor(reader: PageReader, { inspection, pictures }: ReportedCase, date: string, names: boolean): string {
  return handedPage(reader, { inspection, pictures, date, names });
}

/** The day that a page is written for: films and plans are as old as they are on it. */
const dayOfPage = (option: OptionValue): string =>
  option === undefined ? new Date().toISOString().slice(0, 10) : onOption(String(option));

function timesOfEach(paths: readonly string[]): ReadonlyMap<string, number> {
  const times = new Map<string, number>();
  for (const path of paths) times.set(path, (times.get(path) ?? 0) + 1);
  return times;
}

const kindOf = (path: string): 'html' | 'pdf' | null =>
  /\.html?$/i.test(path) ? 'html' : /\.pdf$/i.test(path) ? 'pdf' : null;

/** The file behind the output's links is what would be replaced: it has to be a page, and none of the cases. */
async function mayBecomeThePage(output: string, sources: ReadonlySet<string | null>): Promise<void> {
  let real: string;
  try {
    real = await realpath(output);
  } catch {
    return; // Not there yet, or cannot be reached, which saving says.
  }
  if (sources.has(real)) throw new CommandProblem(t('is one of the cases; name another file for the page'));
  const kind = kindOf(output);
  if (kindOf(real) !== kind)
    throw new CommandProblem(
      kind === 'pdf'
        ? t('is a link to {0}, which is no .pdf file; it was left as it is', real)
        : t('is a link to {0}, which is no .html page; it was left as it is', real),
    );
}
