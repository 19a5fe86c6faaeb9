import { t } from '../../language/words.ts';
import type { EarlierTrim, LostFoot } from '../../trim/trim-series.ts';
import { sayDate } from './say-day.ts';
import { list } from './wording.ts';

/** `the trim of 4 March 2026`, `the trims of 4 March 2026 and 1 April 2026`; empty for none. */
export function sayTrims(trims: readonly EarlierTrim[]): string {
  if (trims.length === 0) return '';
  const dates = [...new Set(trims.map(({ visit }) => sayDate(visit.is.date ?? '')))];
  return t('the {0} of {1}', trims.length === 1 ? t('trim') : t('trims'), list(dates));
}

/** Where a foot is as it was before a cut: on its film, or on that with what has come off it since. */
export function sayBefore({ earlier }: { readonly earlier: readonly EarlierTrim[] }): string {
  return earlier.length === 0 ? t('on the film') : t('by the film, {0} taken off it', sayTrims(earlier));
}

/** Why a foot cannot be followed since its film, as the end of a sentence that says what therefore is not. */
export function sayLost(lost: LostFoot): string {
  return lost.kind === 'too many'
    ? t('more trims than the foot can be followed through were made since')
    : t('{0} left two planes, and on which of them the foot stands since only a new film tells', sayTrims([lost.trim]));
}
