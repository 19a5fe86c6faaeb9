import type { PageState } from '../messages/messages.ts';
import { t } from '../messages/words.ts';
import { useActions } from './actions.ts';
import { Toggle, Toggles } from './toggles.tsx';

const layers: readonly { readonly layer: PageState['hidden'][number]; readonly words: string }[] = [
  { layer: 'bones', words: t('Bones') },
  { layer: 'capsule', words: t('Horn and sole') },
  { layer: 'soft', words: t('Tendon and cushion') },
  { layer: 'landmarks', words: t('Landmarks') },
];

/** What unfolds over the plate goes away as a menu does. */
export function foldOnEscape({ key, currentTarget }: KeyboardEvent): void {
  if (key !== 'Escape' || !(currentTarget instanceof HTMLDetailsElement)) return;
  currentTarget.open = false;
  currentTarget.querySelector('summary')?.focus();
}

/** Each layer of the drawing by itself, behind one word: seldom wanted, and in the way otherwise. */
export function LayerToggles({ hidden }: Pick<PageState, 'hidden'>) {
  const { toggleLayer } = useActions();
  return (
    <details class="layers" onKeyDown={foldOnEscape}>
      <summary>{t('Layers')}</summary>
      <Toggles label={t('Layers of the drawing')}>
        {layers.map(({ layer, words }) => (
          <Toggle pressed={!hidden.includes(layer)} onPress={() => toggleLayer(layer)}>
            {words}
          </Toggle>
        ))}
      </Toggles>
    </details>
  );
}
