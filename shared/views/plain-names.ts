import { t } from '../language/words.ts';
import { landmarkNames } from '../notation/landmarks.ts';
import { nameOfLandmark } from './landmark-names.ts';

/** Names that no sentence has by chance: `toe` and `breakover` are words of English too, and are meant where they are quoted. */
const named = landmarkNames
  .filter((name) => name.includes('.'))
  .sort((a, b) => b.length - a.length)
  .map((name) => name.replaceAll('.', '\\.'))
  .join('|');
const quoted = landmarkNames.map((name) => name.replaceAll('.', '\\.')).join('|');
const inMessage = new RegExp(`«(${quoted})»|(?<![\\w.-])(${named})(?![\\w-]|\\.\\w)`, 'g');

/** What is told of a text, for those who see the foot and not the text: a landmark is called as the walk of placing calls it. */
export function withPlainNames(message: string): string {
  return message.replaceAll(inMessage, (_, inQuotes?: string, plain?: string) => {
    return t('“{0}”', nameOfLandmark(inQuotes ?? plain ?? ''));
  });
}
