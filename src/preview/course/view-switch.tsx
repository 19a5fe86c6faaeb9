import { t } from '../../../shared/language/words.ts';
import { useActions } from '../actions.ts';

const words = { film: t('Film'), course: t('Course') } as const;

/** One film, or what the films of a foot say together. */
export function ViewSwitch({ view }: { readonly view: 'film' | 'course' }) {
  const { show } = useActions();
  return (
    <nav class="views" aria-label={t('View')}>
      {(['film', 'course'] as const).map((one) => (
        <button type="button" aria-current={one === view ? 'page' : undefined} onClick={() => show(one)}>
          {words[one]}
        </button>
      ))}
    </nav>
  );
}
