import { t } from '../../language/words.ts';
import type { EarlierTrim } from '../../trim/trim-series.ts';
import { sayDate } from './say-day.ts';
import { list } from './wording.ts';

/** `the trim of 4 March 2026`, `the trims of 4 March 2026 and 1 April 2026`; empty for none. */
export function sayTrims(trims: readonly EarlierTrim[]): string {
  if (trims.length === 0) return '';
  const dates = [...new Set(trims.map(({ visit }) => sayDate(visit.is.date ?? '')))];
  return t('the {0} of {1}', trims.length === 1 ? t('trim') : t('trims'), list(dates));
}
