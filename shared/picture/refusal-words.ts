import { t } from '../language/words.ts';
import { largestPicture, type Refusal } from './picture-files.ts';
import { toldName } from './told-name.ts';

/** Why a picture is not read, in a sentence that is the same in the editor, in the preview and on the command line. */
export function refusalWords(why: Refusal, written: string): string {
  const name = toldName(written);
  switch (why) {
    case 'no name':
      return t('This film names no picture.');
    case 'too long':
      return t('{0} is longer than any path can be. Write the path from the case file’s folder.', name);
    case 'unwritable':
      return t('The path of this film’s picture holds a character that no path can hold. Write it anew, on one line.');
    case 'absolute':
      return t(
        '{0} is a path of one computer only. Write the path from the case file’s folder, such as films/name.png.',
        name,
      );
    case 'elsewhere':
      return t(
        '{0} is not a file of this folder. Pictures are never fetched: put a copy beside the case file, and write its path.',
        name,
      );
    case 'backslash':
      return t('{0} has a backslash, which not every computer reads alike. Write / in its place.', name);
    case 'reserved name':
      return t('{0} is a name that Windows keeps for itself. Give the picture another name.', name);
    case 'outside':
      return t(
        '{0} leads out of the folders that pictures of this case may be in. Put a copy beside the case file, or open the folder that holds both (--root on the command line).',
        name,
      );
    case 'unknown kind':
      return t(
        '{0} is not a kind of picture that can be read here. Save it as png, jpg or DICOM beside the case file.',
        name,
      );
    case 'unsaved case':
      return t('Save this case file first: {0} is looked for beside it.', name);
    case 'not there':
      return t('{0} is not there. Put the picture at that path, counted from the case file’s folder.', name);
    case 'a folder':
      return t('{0} is a folder, not a picture. Write the path of a picture in it.', name);
    case 'not plain':
      return t('{0} is no file but a device or a pipe, and is not opened. Write the path of a picture.', name);
    case 'leads out':
      return t(
        '{0} goes through a link that leads out of the folders that pictures of this case may be in, or that cannot be followed here. Put a copy in its place.',
        name,
      );
    case 'too large':
      return t(
        '{0} is a file of more than {1} MB, which no film has. Save a smaller copy, and write its path.',
        name,
        largestPicture / 1e6,
      );
    case 'unreadable':
      return t('{0} is there but may not be read. Look who may read the file.', name);
    case 'never ready':
      return t('{0} could not be read in the time and memory that any film takes. Save it anew, or as PNG.', name);
  }
}
