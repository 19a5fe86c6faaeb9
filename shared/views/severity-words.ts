import { counted, t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import type { Severity } from '../findings/finding.ts';

/** How grave a finding is, as a person hears it: act on it, look at it, know of it. */
export const severityWords: Readonly<Record<Severity, string>> = spoken({
  error: 'Act',
  warning: 'Look',
  info: 'Note',
  hint: 'Note',
});

/** The word before a finding in a list; an accepted finding needs no action any more. */
export function noteWord({ severity, accepted }: { readonly severity: Severity; readonly accepted?: string }): string {
  return accepted === undefined ? severityWords[severity] : t('Accepted');
}

/** `2 to act on, 8 to look at, 1 note`. */
export function severityCounts(severities: readonly Severity[]): string {
  const of = (...those: Severity[]): number => severities.filter((one) => those.includes(one)).length;
  const notes = of('info', 'hint');
  const parts = [
    [of('error'), t('{0} to act on', of('error'))],
    [of('warning'), t('{0} to look at', of('warning'))],
    [notes, counted(notes, '{0} note', '{0} notes')],
  ] as const;
  return parts
    .filter(([count]) => count > 0)
    .map(([, words]) => words)
    .join(', ');
}
