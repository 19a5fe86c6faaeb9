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
  readonly onPress: () => void;
  readonly children: ComponentChildren;
}

export function Toggle({ pressed, onPress, children }: ToggleProps) {
  return (
    <button type="button" aria-pressed={pressed} onClick={onPress}>
      {children}
    </button>
  );
}
