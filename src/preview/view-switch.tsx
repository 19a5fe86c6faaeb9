import { t } from '../../shared/language/words.ts';
import { pageViews, type PageView } from '../messages/messages.ts';
import { useActions } from './actions.ts';

const words: Readonly<Record<PageView, string>> = { film: t('Film'), course: t('Course'), agreement: t('Agreement') };

interface SwitchProps {
  readonly view: PageView;
  /** Whether a film has been read more than once, so that there is something to agree. */
  readonly isReadAgain: boolean;
}

/** One film, what the films of a foot say together, or how far readings of one film lie apart. */
export function ViewSwitch({ view, isReadAgain }: SwitchProps) {
  const { show } = useActions();
  return (
    <nav class="views" aria-label={t('View')}>
      {pageViews
        .filter((one) => one !== 'agreement' || isReadAgain || view === 'agreement')
        .map((one) => (
          <button key={one} type="button" aria-current={one === view ? 'page' : undefined} onClick={() => show(one)}>
            {words[one]}
          </button>
        ))}
    </nav>
  );
}
