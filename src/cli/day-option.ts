import { t } from '../../shared/language/words.ts';
import { dayNumber } from '../../shared/notation/dates.ts';
import { Unusable } from './command.ts';

/** A day as an option has it, `YYYY-MM-DD`. @param refusal what is said of anything else @throws Unusable */
export function dayOption(written: string, refusal: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(written) && dayNumber(written) !== null) return written;
  throw new Unusable(refusal);
}

/** The day of `--on`. @throws Unusable */
export const onOption = (written: string): string =>
  dayOption(written, t('--on takes a date such as 2026-05-28; not {0}', written));
