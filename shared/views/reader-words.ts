import { UNNAMED } from '../agreement/read-films.ts';
import { t } from '../language/words.ts';

/** A reader by name, the one without a name too. */
export const readerWords = (name: string): string => (name === UNNAMED ? t('the unnamed reader') : name);
