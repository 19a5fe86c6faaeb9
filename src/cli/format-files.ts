import { t } from '../../shared/language/words.ts';
import { format } from '../../shared/notation/format.ts';
import { shownLines, shownText } from '../../shared/export/shown-characters.ts';
import { eachCase } from './case-files.ts';
import { Unusable, type Command } from './command.ts';
import { saveFile } from './save-file.ts';

export const formatFiles: Command = {
  name: 'format',
  usage: 'ungula format FILE… [--check | --write]',
  doc: 'Lays files out: prints the result, or names the files that are not laid out (--check), or writes them (--write).',
  options: { check: { type: 'boolean' }, write: { type: 'boolean' } },
  async run(names, options, io) {
    if (options['check'] && options['write']) throw new Unusable(t('--check and --write exclude each other'));
    if (options['write'] && names.includes('-'))
      throw new Unusable(t('standard input cannot be written to; leave --write out'));
    let changed = false;
    const problems = await eachCase(names, io, async ({ name, text }) => {
      const laidOut = format(text);
      if (!options['check'] && !options['write']) {
        // What is printed is the file: into a pipe or another file it goes as it is.
        io.out(io.terminal ? shownText(laidOut) : laidOut);
        return;
      }
      if (laidOut === text) return;
      if (options['write']) await saveFile(name, laidOut, text);
      changed = true;
      io.out(shownLines([name]));
    });
    return problems.length > 0 ? 2 : options['check'] && changed ? 1 : 0;
  },
};
