import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';

/** What comes next where there is nothing to show: a film for the case, or a case. */
export function FirstStep({ isCase }: { readonly isCase: boolean }) {
  const { firstStep } = useActions();
  return (
    <p class="first-step">
      <button type="button" class="place-button" onClick={() => firstStep(isCase ? 'add visit' : 'new case')}>
        {isCase ? t('Add a visit of today with its film') : t('New case')}
      </button>
    </p>
  );
}
