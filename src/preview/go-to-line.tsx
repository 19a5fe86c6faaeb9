import type { ComponentChildren } from 'preact';
import { useActions } from './actions.ts';

/** Words that are a way to their line in the text. */
export function GoToLine({ line, children }: { readonly line: number; readonly children: ComponentChildren }) {
  const { go } = useActions();
  return (
    <button type="button" class="go" onClick={() => go(line)}>
      {children}
    </button>
  );
}
