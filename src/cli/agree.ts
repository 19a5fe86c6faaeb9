import { dirname } from 'node:path';
import { agreementOf } from '../../shared/agreement/agreement.ts';
import { isEnough, ownSpreads, type OwnSpread } from '../../shared/agreement/own-spread.ts';
import { spreadInterval } from '../../shared/agreement/own-spread-interval.ts';
import { ReadFilms, takenFilms, UNNAMED, type FilmsRead } from '../../shared/agreement/read-films.ts';
import { editedText } from '../../shared/edits/edited-text.ts';
import { spreadLines } from '../../shared/edits/reader-spread.ts';
import type { AgreeJson } from '../../shared/export/json-shapes.ts';
import { agreementCsv } from '../../shared/export/agreement-csv.ts';
import { agreeDocument } from '../../shared/export/agreement-data.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import type { InspectSettings } from '../../shared/findings/inspect.ts';
import { fixed } from '../../shared/language/figures.ts';
import { t } from '../../shared/language/words.ts';
import { agreementLines } from '../../shared/views/agreement-lines.ts';
import { notEnough, spreadWords } from '../../shared/views/spread-words.ts';
import { readerWords } from '../../shared/views/reader-words.ts';
import { eachCase } from './case-files.ts';
import { oneOf, Unusable, type Command, type Io } from './command.ts';
import { inspected } from './inspected.ts';
import { rootFrom, rootOption } from './picture-files.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';

export const agree: Command = {
  name: 'agree',
  usage: 'ungula agree FILE… [--all] [--format table|json|csv] [--spread [--write]] [--reference FILE]… [--root DIR]',
  doc: 'How well readers of the same films agree, and one reader who read a film twice, over all files together: each measure, each landmark. --spread shows what each reader’s +- would be by the films that they have read again; --write writes it.',
  options: {
    all: { type: 'boolean' },
    format: { type: 'string' },
    spread: { type: 'boolean' },
    write: { type: 'boolean' },
    reference: referenceOption,
    root: rootOption,
  },
  async run(names, options, io) {
    const format = oneOf('format', options['format'], ['table', 'json', 'csv']);
    const [spread, write] = [options['spread'] === true, options['write'] === true];
    if (write && !spread) throw new Unusable(t('--write goes with --spread: it writes the spread that is found'));
    if (spread && format !== 'table') throw new Unusable(t('--spread is shown as a table only'));
    if (spread && names.includes('-')) throw new Unusable(t('--spread tells lines of files; standard input is none'));
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const films = new ReadFilms();
    const files: string[] = [];
    const problems = await eachCase(names, io, async (file) => {
      const { study } = await inspected(file, settings, root);
      films.add(file.real === null ? '.' : dirname(file.real), takenFilms(study.films), file.name);
      if (study.films.some(({ readings }) => readings.some(({ reading }) => reading.reader !== null)))
        files.push(file.name);
    });
    const read = films.all();
    if (spread) return writeSpreads(read, files, { settings, root, write, io, failed: problems.length > 0 });
    const agreement = agreementOf(read);
    if (format === 'json') io.out(shownJson(agreeDocument(agreement)));
    else if (format === 'csv') io.out(agreementCsv(agreement, ownSpreads(read)));
    else io.out(shownLines(agreementLines(agreement, options['all'] === true)));
    return problems.length > 0 ? 2 : 0;
  },
  emptyJson: (): AgreeJson => agreeDocument(agreementOf(new ReadFilms().all())),
};

interface Writing {
  readonly settings: InspectSettings;
  readonly root: readonly string[];
  readonly write: boolean;
  readonly io: Io;
  readonly failed: boolean;
}

/** Shows the spread of each reader and the lines that it goes to, and writes them where that is asked for. */
async function writeSpreads(
  read: FilmsRead,
  files: readonly string[],
  { settings, root, write, io, failed }: Writing,
): Promise<0 | 2> {
  const spreads = ownSpreads(read);
  if (spreads.length === 0) {
    io.out(shownLines([t('Nobody has read a film with a scale more than once, so no spread can be told.')]));
    return failed ? 2 : 0;
  }
  io.out(shownLines(spreads.map(spreadLine)));
  const written = spreads.filter((one) => isEnough(one) && one.reader !== UNNAMED);
  if (written.length === 0) return failed ? 2 : 0;
  const problems = await eachCase(files, io, async (file) => {
    const { tree, study } = await inspected(file, settings, root);
    const lines = spreadLines({ tree, study }, written);
    const edits = lines.flatMap(({ edit }) => edit ?? []);
    if (write && edits.length > 0) await saveFile(file.name, editedText(file.text, edits), file.text);
    io.out(
      shownLines(
        lines.map(({ line, reader, was, px, edit }) => {
          const place = `${file.name}:${line + 1}: read "${reader}" +- ${px}`;
          if (!edit) return t('{0}: stands there already', place);
          // As the notation has it, like the line that is written.
          return was === null ? place : t('{0}, in place of +- {1}', place, String(was));
        }),
      ),
    );
  });
  if (!write) io.out(shownLines([t('Nothing is written yet: --write writes these lines.')]));
  return failed || problems.length > 0 ? 2 : 0;
}

function spreadLine(spread: OwnSpread): string {
  const few = notEnough(spread);
  if (few !== null) return few;
  const { low, high } = spreadInterval(spread);
  const found = t(
    '{0}: {1}; 95 % interval {2} to {3} mm',
    readerWords(spread.reader),
    spreadWords(spread),
    fixed(low, 2),
    fixed(high, 2),
  );
  return spread.reader === UNNAMED
    ? t('{0}. Landmarks outside any read have no line for it: give the reader a name.', found)
    : found;
}
