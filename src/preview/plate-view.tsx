import { useLayoutEffect, useRef } from 'preact/hooks';
import type { PlateInput } from '../../shared/drawing/plate/plate.ts';
import { CloseLook } from './close-look.ts';
import { Plate } from './plate.ts';

interface PlateProps {
  /** Null while a picture is on its way: what stands there stays. */
  readonly input: PlateInput | null;
  /** Classes that turn layers of the drawing off. */
  readonly hides: readonly string[];
  lineOf(landmark: string): number | null;
  /** A landmark or a label was pressed; each as its line, or its measure. */
  onPress(what: { readonly line: number | null; readonly measure: string | null }): void;
}

/** The plate's own ground in the page: inside it the drawing is kept by `Plate`, not by the page. */
export function PlateView({ input, hides, lineOf, onPress }: PlateProps) {
  const holder = useRef<HTMLDivElement>(null);
  const plate = useRef<Plate | null>(null);
  const look = useRef<CloseLook | null>(null);
  plate.current ??= new Plate();
  useLayoutEffect(() => {
    if (holder.current && input) plate.current?.show(holder.current, input, lineOf);
  });
  useLayoutEffect(() => {
    if (holder.current) look.current = new CloseLook(holder.current);
  }, []);
  // Another film is looked at whole.
  const film = input && [input.foot, input.view, input.picture?.href].join(' ');
  useLayoutEffect(() => look.current?.whole(), [film]);
  useLayoutEffect(() => {
    const watch = new ResizeObserver(() => {
      if (holder.current) plate.current?.fit(holder.current);
    });
    if (holder.current) watch.observe(holder.current);
    return () => watch.disconnect();
  }, []);
  const press = (target: EventTarget | null): void => {
    const place = target instanceof Element ? target.closest('[data-line], [data-measure]') : null;
    const line = place?.getAttribute('data-line') ?? null;
    if (place) onPress({ line: line === null ? null : Number(line), measure: place.getAttribute('data-measure') });
  };
  return (
    <div
      ref={holder}
      class={['plate', ...hides].join(' ')}
      onClick={({ target }) => {
        if (look.current?.wasMoved !== true) press(target);
      }}
      onKeyDown={(event) => {
        if (look.current?.pressedKey(event)) return event.preventDefault();
        if (plate.current?.pressedKey(event) === 'press') press(event.target);
      }}
    />
  );
}
