import type { AlarmNote } from '../../shared/views/alarms.ts';
import { t } from '../../shared/language/words.ts';
import { NotesList } from './notes-list.tsx';

/** What is open in the case, above everything else that the pane shows of it, whichever film or view one looks at. */
export function OpenAlarms({ alarms }: { readonly alarms: readonly AlarmNote[] }) {
  if (alarms.length === 0) return null;
  return (
    <section class="alarms" aria-label={t('Open alarms')}>
      <NotesList notes={alarms} />
    </section>
  );
}
