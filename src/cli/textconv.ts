import { t } from '../../shared/language/words.ts';
import { readFile, stat } from 'node:fs/promises';
import { largestFile, tooMuchIn } from '../../shared/findings/engine/file-problems.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { shownLines, shownText } from '../../shared/export/shown-characters.ts';
import { textWithMeasures } from '../../shared/views/text-with-measures.ts';
import { Unusable, type Command } from './command.ts';

/**
 * For `git diff`. Git gives it one version of a file at a time, often as a copy elsewhere, so no picture is looked at: both sides would
 * not find the same. Where a version is no case it is shown as it is, since git gives up the whole diff otherwise.
 */
export const textconv: Command = {
  name: 'textconv',
  usage: 'ungula textconv FILE',
  doc: 'A case with its measures under each film, for git diff (docs/git.md). It looks at no picture.',
  options: {},
  async run([name, ...more], _, io) {
    if (name === undefined || more.length > 0) throw new Unusable(t('textconv takes one file: {0}', textconv.usage));
    if ((await stat(name)).size > largestFile) {
      io.out(shownLines([t('larger than 10 MB, so it is not read as a case')]));
      return 0;
    }
    const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(await readFile(name));
    io.out(tooMuchIn(text) ? shownText(text) : shownLines(textWithMeasures(inspect(text))));
    return 0;
  },
};
