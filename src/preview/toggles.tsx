import type { ComponentChildren } from 'preact';

/** Buttons that stay pressed, as one group with a name. */
export function Toggles({ label, children }: { readonly label: string; readonly children: ComponentChildren }) {
  return (
    <span class="toggles" role="group" aria-label={label}>
      {children}
    </span>
  );
}

interface ToggleProps {
  readonly pressed: boolean;
  /** What the words are short for. */
  readonly title?: string;
  readonly onPress: () => void;
  readonly children: ComponentChildren;
}

export function Toggle({ pressed, title, onPress, children }: ToggleProps) {
  return (
    <button type="button" aria-pressed={pressed} title={title} onClick={onPress}>
      {children}
    </button>
  );
}
