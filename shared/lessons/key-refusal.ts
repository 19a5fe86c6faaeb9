import { t } from '../language/words.ts';
import type { Refusal } from '../picture/picture-files.ts';
import { toldName } from '../picture/told-name.ts';

/** Why the key of a lesson is not read, in a sentence. */
export function keyRefusalWords(why: Refusal, written: string): string {
  const name = toldName(written);
  switch (why) {
    case 'no name':
      return t('This key names no file. Write the path of the case that the lesson is held against.');
    case 'outside':
    case 'leads out':
      return t(
        '{0} leads out of the folders that files of this case may be in. Put the key beside the case file, or open the folder that holds both (--root on the command line).',
        name,
      );
    case 'unknown kind':
      return t('{0} is no case file. A key is a case file that ends in .hoof.', name);
    case 'unsaved case':
      return t('Save this case file first: the key {0} is looked for beside it.', name);
    case 'not there':
      return t('The key {0} is not there. Put it at that path, counted from the case file’s folder.', name);
    case 'a folder':
    case 'not plain':
      return t('The key {0} is no plain file. Write the path of a case file.', name);
    case 'too large':
      return t('The key {0} is larger than any case, and is not read.', name);
    case 'unreadable':
    case 'never ready':
      return t('The key {0} is there but cannot be read. Look who may read the file.', name);
    default:
      return t(
        '{0} is no path of a key. Write it from the case file’s folder, with /, such as keys/teacher.hoof.',
        name,
      );
  }
}
