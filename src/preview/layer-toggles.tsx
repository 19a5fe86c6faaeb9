import type { PageState } from '../extension/messages.ts';
import { useActions } from './actions.ts';
import { Toggle, Toggles } from './toggles.tsx';

const layers: readonly { readonly layer: PageState['hidden'][number]; readonly words: string }[] = [
  { layer: 'bones', words: 'Bones' },
  { layer: 'capsule', words: 'Horn and sole' },
  { layer: 'soft', words: 'Tendon and cushion' },
  { layer: 'landmarks', words: 'Landmarks' },
];

/** Each layer of the drawing by itself, behind one word: seldom wanted, and in the way otherwise. */
export function LayerToggles({ hidden }: Pick<PageState, 'hidden'>) {
  const { toggleLayer } = useActions();
  return (
    <details class="layers">
      <summary>Layers</summary>
      <Toggles label="Layers of the drawing">
        {layers.map(({ layer, words }) => (
          <Toggle pressed={!hidden.includes(layer)} onPress={() => toggleLayer(layer)}>
            {words}
          </Toggle>
        ))}
      </Toggles>
    </details>
  );
}
