import type { ComponentChildren } from 'preact';
import type { PageState } from '../messages/messages.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { Toggle, Toggles } from './toggles.tsx';

const parts: readonly { readonly part: keyof PageState['shows']; readonly words: string }[] = [
  { part: 'picture', words: t('Picture') },
  { part: 'drawing', words: t('Drawing') },
  { part: 'beside', words: t('Side by side') },
  { part: 'lettering', words: t('Lettering') },
];

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

interface LayerProps extends Pick<PageState, 'shows' | 'hidden'> {
  /** What else the menu holds. */
  readonly children?: ComponentChildren;
}

/** What the plate shows, and each layer of the drawing by itself, behind one word: seldom wanted, and in the way otherwise. */
export function LayerToggles({ shows, hidden, children }: LayerProps) {
  const { toggle, toggleLayer } = useActions();
  return (
    <details class="layers" onKeyDown={foldOnEscape}>
      <summary>{t('Layers')}</summary>
      <div class="layer-menu">
        <Toggles label={t('What the plate shows')}>
          {parts.map(({ part, words }) => (
            <Toggle pressed={shows[part] === true} onPress={() => toggle(part)}>
              {words}
            </Toggle>
          ))}
        </Toggles>
        <Toggles label={t('Layers of the drawing')}>
          {layers.map(({ layer, words }) => (
            <Toggle pressed={!hidden.includes(layer)} onPress={() => toggleLayer(layer)}>
              {words}
            </Toggle>
          ))}
        </Toggles>
        {children}
      </div>
    </details>
  );
}
