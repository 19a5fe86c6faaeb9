import { t } from '../../shared/language/words.ts';

/** A part of the page is gone: the extension was replaced while the page was open. */
export const couldNotLoad = (): string =>
  t('A part of the preview could not be loaded. Reload the window; if this stays, install the extension again.');
