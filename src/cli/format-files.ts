import { format } from '../../shared/notation/format.ts';
import { readCaseFiles } from './case-files.ts';
import { Unusable, type Command } from './command.ts';
import { writeWhole } from './write-whole.ts';

export const formatFiles: Command = {
  name: 'format',
  usage: 'ungula format FILE… [--check | --write]',
  doc: 'Lays files out: prints the result, or names the files that are not laid out (--check), or writes them (--write).',
  options: { check: { type: 'boolean' }, write: { type: 'boolean' } },
  async run(names, options, io) {
    if (options['check'] && options['write']) throw new Unusable('--check and --write exclude each other');
    if (options['write'] && names.includes('-'))
      throw new Unusable('standard input cannot be written to; leave --write out');
    const { files, unreadable } = await readCaseFiles(names, io);
    let changed = false;
    for (const { name, text } of files) {
      const laidOut = format(text);
      if (!options['check'] && !options['write']) io.out(laidOut);
      else if (laidOut !== text) {
        changed = true;
        io.out(`${name}\n`);
        if (options['write']) await writeWhole(name, laidOut);
      }
    }
    return unreadable ? 2 : options['check'] && changed ? 1 : 0;
  },
};
